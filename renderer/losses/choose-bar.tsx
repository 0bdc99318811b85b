/** Which depot, propellant, tank and months the Losses view shows. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import type { MonthsChoice } from "./months-choice.ts";
import { nameIn } from "../../app/words/named.ts";

interface ChooseBarProps {
  readonly plan: PlanSnapshot;
  /** Tanks of depots. */
  readonly tanks: readonly Tank[];
  readonly tank: Tank;
  readonly months: MonthsChoice;
  readonly onTank: (tank: Tank) => void;
  readonly onMonths: (months: MonthsChoice) => void;
  readonly onPrint: () => void;
}

const unique = (ids: readonly string[]): readonly string[] => [...new Set(ids)];

export const ChooseBar = ({ plan, tanks, tank, months, onTank, onMonths, onPrint }: ChooseBarProps) => {
  const depots = unique(tanks.map(({ ownerId }) => ownerId));
  const here = tanks.filter(({ ownerId }) => ownerId === tank.ownerId);
  const held = unique(here.map(({ propellantId }) => propellantId));
  const alike = here.filter(({ propellantId }) => propellantId === tank.propellantId);
  const nameOf = (rows: readonly { readonly id: string; readonly name: string }[], id: string): string =>
    nameIn(rows, id);
  const take = (found: Tank | undefined): void => {
    if (found !== undefined) onTank(found);
  };
  return (
    <div className="loss-fields">
      {depots.length > 1 && (
        <ChoiceField
          label="Depot"
          value={tank.ownerId}
          choices={depots.map((id) => ({ id, name: nameOf(plan.depots, id) }))}
          onCommit={(id) => take(tanks.find(({ ownerId }) => ownerId === id))}
        />
      )}
      <ChoiceField
        label="Propellant"
        value={tank.propellantId}
        choices={held.map((id) => ({ id, name: nameOf(plan.propellants, id) }))}
        onCommit={(id) => take(here.find(({ propellantId }) => propellantId === id))}
      />
      {alike.length > 1 && (
        <ChoiceField
          label="Tank"
          value={tank.id}
          choices={alike.map(({ id, name }) => ({ id, name }))}
          onCommit={(id) => take(alike.find((each) => each.id === id))}
        />
      )}
      <ChoiceField
        label="Months"
        value={months.missionStartAt === null ? "calendar" : "mission"}
        choices={[
          { id: "calendar", name: "calendar months" },
          { id: "mission", name: "mission months", note: "of 30 days" },
        ]}
        onCommit={(id) => onMonths({ ...months, missionStartAt: id === "calendar" ? null : months.fromAt })}
      />
      {months.missionStartAt !== null && (
        <InstantField
          label="Mission began"
          value={months.missionStartAt}
          onCommit={(missionStartAt) => onMonths({ ...months, missionStartAt })}
        />
      )}
      <InstantField
        label="From"
        value={months.fromAt}
        latestAt={months.untilAt - 1}
        onCommit={(fromAt) => onMonths({ ...months, fromAt })}
      />
      <InstantField
        label="Until"
        value={months.untilAt}
        earliestAt={months.fromAt + 1}
        onCommit={(untilAt) => onMonths({ ...months, untilAt })}
      />
      <p className="loss-ways">
        <Button onPress={onPrint}>Print…</Button>
      </p>
    </div>
  );
};
