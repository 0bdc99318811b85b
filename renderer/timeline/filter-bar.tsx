/** Which flights and sorties are shown: by status, craft and period; and a sign of what is left out, while it is. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { NO_FILTER, type PlanFilter, isFiltering } from "../state/plan-filter.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import type { TimelineModel } from "./model/timeline-model.ts";

const ANY = "any";
const statuses = ["planned", "firm", "departed", "arrived", "flown", "lost", "stood down", "cancelled"] as const;

const craftOf = (plan: PlanSnapshot) =>
  plan.craft.map(({ id, name, classId }) => {
    const role = plan.craftClasses.find((row) => row.id === classId)?.role;
    return { id, name, ...(role === undefined ? {} : { note: role }) };
  });

/** "9 flights and 4 sorties shown, 7 left out" */
const shownWords = (models: readonly TimelineModel[]): string => {
  const flights = new Set(models.flatMap((model) => model.flights.map(({ id }) => id))).size;
  const sorties = models.reduce((sum, model) => sum + model.sorties.length, 0);
  const leftOut = models.reduce((sum, model) => sum + model.leftOut, 0);
  const words = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;
  return `${words(flights, "flight", "flights")} and ${words(sorties, "sortie", "sorties")} shown, ${leftOut} left out; levels and statuses count all of them`;
};

export const FilterBar = ({ plan, models }: { plan: PlanSnapshot; models: readonly TimelineModel[] }) => {
  const { store } = useSession();
  const filter = useApp((state) => state.filter);
  const isOpen = useApp((state) => state.isFilterOpen);
  const isOn = isFiltering(filter);
  if (!isOpen && !isOn) return null;
  const put = (patch: Partial<PlanFilter>): void => store.set({ filter: { ...filter, ...patch } });
  return (
    <section className="timeline-filter" aria-label="Filter">
      <ChoiceField
        isBare
        label="Status"
        value={filter.status ?? ANY}
        choices={[{ id: ANY, name: "any status" }, ...statuses.map((id) => ({ id, name: id }))]}
        onCommit={(id) => put({ status: id === ANY ? null : id })}
      />
      <ChoiceField
        isBare
        label="Tanker or lander"
        value={filter.craftId ?? ANY}
        choices={[{ id: ANY, name: "any tanker or lander" }, ...craftOf(plan)]}
        onCommit={(id) => put({ craftId: id === ANY ? null : id })}
      />
      <InstantField
        label="From"
        value={filter.fromAt}
        emptyWords="any date"
        onCommit={(fromAt) => put({ fromAt })}
        onClear={() => put({ fromAt: null })}
      />
      <InstantField
        label="Until"
        value={filter.untilAt}
        emptyWords="any date"
        onCommit={(untilAt) => put({ untilAt })}
        onClear={() => put({ untilAt: null })}
      />
      <output className="timeline-filter-words">{isOn ? shownWords(models) : ""}</output>
      <Button
        look="quiet"
        unable={isOn ? null : "Everything is shown."}
        onPress={() => store.set({ filter: NO_FILTER, isFilterOpen: false })}
      >
        Clear filter
      </Button>
    </section>
  );
};
