/** What a tank holds when its books open, when, and where it came from. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import type { Input } from "../../app/contract/contract.ts";
import { plainPostings } from "../entries/plain-entry.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";

export interface Opening {
  /** null: not said; the books stay closed. */
  readonly massKg: number | null;
  readonly at: number;
  /** null: the first source of the plan. */
  readonly sourceId: string | null;
}

export const freshOpening = (plan: PlanSnapshot): Opening => ({ massKg: null, at: plan.asOfAt, sourceId: null });

const sourceOf = ({ sourceId }: Opening, plan: PlanSnapshot) =>
  plan.sources.find(({ id }) => id === sourceId) ?? plan.sources[0];

/** The entry that opens the books; null: nothing is stated, or it has no source. */
export const openingEntry = (
  opening: Opening,
  tank: Tank,
  plan: PlanSnapshot,
): (Input<"record.entry"> & { readonly kind: "opening" }) | null => {
  const sourceId = sourceOf(opening, plan)?.id ?? null;
  const postings = plainPostings({ kind: "opening", tank, toTank: null, sourceId, massKg: opening.massKg ?? 0 });
  if (postings === null) return null;
  const id = `entry-${crypto.randomUUID()}`;
  return { id, at: opening.at, kind: "opening", subjectKey: null, note: "", postings: [...postings] };
};

interface OpeningFieldsProps {
  readonly opening: Opening;
  readonly tank: Tank;
  readonly plan: PlanSnapshot;
  /** What an empty field means. */
  readonly emptyWords: string;
  readonly onChange: (opening: Opening) => void;
}

export const OpeningFields = ({ opening, tank, plan, emptyWords, onChange }: OpeningFieldsProps) => (
  <>
    <NumberField
      label="In the tank"
      unit="kg"
      min={0}
      isMinOpen
      max={tank.maximumFillKg}
      decimals={3}
      value={opening.massKg}
      placeholder={emptyWords}
      onClear={() => onChange({ ...opening, massKg: null })}
      onCommit={(massKg) => onChange({ ...opening, massKg })}
    />
    <InstantField label="On" value={opening.at} onCommit={(at) => onChange({ ...opening, at })} />
    <ChoiceField
      label="It came from"
      value={sourceOf(opening, plan)?.id ?? null}
      choices={plan.sources.map(({ id, name }) => ({ id, name }))}
      fault={plan.sources.length === 0 ? "Add a source first, in Depots." : null}
      onCommit={(sourceId) => onChange({ ...opening, sourceId })}
    />
  </>
);
