/** A sortie: which lander, when, and what it needs. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { CraftClass } from "../../app/entity/craft.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { usualDaysAway } from "../../app/sortie/returns-along.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { nextWindow } from "../../app/entity/windows.ts";
import { formatInstant } from "../format/instant.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { EditChoice, EditNote, EditText, choicesOf } from "../editing/bound-fields.tsx";
import type { Editing, FormProps } from "../editing/editing.ts";
import { SortieDemand } from "./sortie-demand.tsx";

const statusChoices = [
  { id: "planned", name: "planned" },
  { id: "departed", name: "departed", note: "by the record" },
  { id: "flown", name: "flown", note: "by the record" },
  { id: "stood down", name: "stood down" },
  { id: "cancelled", name: "cancelled" },
] as const;

const byRecord: readonly string[] = ["departed", "flown"];

/** How long it is away unless stated otherwise, and who says so. */
const usualWords = (value: Sortie, plan: PlanSnapshot, landerClass: CraftClass | undefined): string | null => {
  const rows = { craft: plan.craft, craftClass: plan.craftClasses, profile: plan.profiles };
  const days = usualDaysAway(rows, value);
  if (days === null) return null;
  const { demand } = value;
  const profile = demand.kind === "profile" ? plan.profiles.find(({ id }) => id === demand.profileId) : undefined;
  return `${(profile ?? landerClass)?.name ?? ""}: ${Number(days.toFixed(2))} days`;
};

export const SortieForm = ({ edit }: FormProps<Sortie>) => {
  const { value, plan } = edit;
  const landers = plan.craft.filter(
    ({ classId }) => plan.craftClasses.find(({ id }) => id === classId)?.role === "lander",
  );
  const classId = plan.craft.find(({ id }) => id === value.landerId)?.classId;
  const landerClass = plan.craftClasses.find(({ id }) => id === classId);
  const depot = plan.depots.find(({ id }) => id === value.depotId);
  const isRecorded = byRecord.includes(value.status);
  const dates: Editing<Sortie> = { ...edit, isReadOnly: edit.isReadOnly || isRecorded };
  const move = (loadAt: number, words: string): void =>
    edit.change({ loadAt, returnAt: value.returnAt + loadAt - value.loadAt }, words);
  const window = depot === undefined ? value.loadAt : nextWindow(depot, value.loadAt);
  return (
    <>
      <EditText edit={edit} field="name" label="Name" isRequired others={edit.plan.sorties} />
      <EditChoice edit={edit} field="campaignId" label="Campaign" choices={choicesOf(plan.campaigns)} />
      <EditChoice edit={dates} field="landerId" label="Lander" choices={choicesOf(landers)} />
      <EditChoice edit={dates} field="depotId" label="Depot" choices={choicesOf(plan.depots)} />
      <FormSection title="When">
        <InstantField
          label="Loads and leaves"
          value={value.loadAt}
          isReadOnly={dates.isReadOnly}
          origin="the return moves along"
          fault={edit.faultOf("loadAt")}
          onCommit={(at) => move(at, "loading")}
        />
        {Math.abs(window - value.loadAt) >= 60_000 && (
          <p className="form-advice">
            {window === Infinity
              ? `No departure window is open then: the list of ${depot?.name ?? "the depot"} ends before.`
              : `No departure window is open then; the next opens ${formatInstant(window)}.`}{" "}
            {!dates.isReadOnly && window !== Infinity && (
              <Button look="link" onPress={() => move(window, "loading to the next window")}>
                Move there
              </Button>
            )}
          </p>
        )}
        <NumberField
          label="Away"
          unit="days"
          min={0}
          max={2000}
          value={Number(((value.returnAt - value.loadAt) / DAY_MS).toFixed(4))}
          isReadOnly={edit.isReadOnly || value.status === "flown"}
          origin={usualWords(value, plan, landerClass)}
          onCommit={(days) => edit.change({ returnAt: value.loadAt + Math.round(days * DAY_MS) }, "time away")}
        />
        <InstantField
          label="Returns"
          value={value.returnAt}
          earliestAt={value.loadAt}
          isReadOnly={edit.isReadOnly || value.status === "flown"}
          fault={edit.faultOf("returnAt")}
          onCommit={(returnAt) => edit.change({ returnAt }, "return")}
        />
      </FormSection>
      <SortieDemand edit={dates} landerClass={landerClass} />
      <FormSection title="Status">
        <EditChoice
          edit={edit}
          field="status"
          label="Status"
          choices={statusChoices.filter(({ id }) => id === value.status || !byRecord.includes(id))}
        />
        <EditNote edit={edit} field="note" label="Note" />
      </FormSection>
    </>
  );
};
