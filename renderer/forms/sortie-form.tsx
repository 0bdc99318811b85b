/** A sortie: which lander, when, and what it needs. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { CraftClass } from "../../app/entity/craft.ts";
import type { Sortie } from "../../app/entity/sortie.ts";
import { usualDaysAway } from "../../app/sortie/returns-along.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { type Held, choicesInForm } from "../../app/fields/field.ts";
import { sortieFields } from "../../app/fields/sortie-fields.ts";
import { nextWindow } from "../../app/entity/windows.ts";
import { formatInstant } from "../format/instant.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { EditChoice, EditInstant, EditText } from "../editing/bound-fields.tsx";
import { FieldRows, type FormOf } from "../editing/field-rows.tsx";
import type { Editing, FormProps } from "../editing/editing.ts";
import { SortieDemand } from "./sortie-demand.tsx";

/** What is away is as its records say. */
const isHeld = ({ status }: Sortie, held: Held): boolean =>
  status === "flown" || (held === "begun" && status === "departed");

/** How long it is away unless stated otherwise, and who says so. */
const usualWords = (value: Sortie, plan: PlanSnapshot, landerClass: CraftClass | undefined): string | null => {
  const rows = { craft: plan.craft, craftClass: plan.craftClasses, profile: plan.profiles };
  const days = usualDaysAway(rows, value);
  if (days === null) return null;
  const { demand } = value;
  const profile = demand.kind === "profile" ? plan.profiles.find(({ id }) => id === demand.profileId) : undefined;
  return `${(profile ?? landerClass)?.name ?? ""}: ${Number(days.toFixed(2))} days`;
};

/** When it loads, and where that is not in a departure window the next one. */
const LoadingRow = ({ edit }: FormProps<Sortie>) => {
  const { value, plan } = edit;
  const depot = plan.depots.find(({ id }) => id === value.depotId);
  const window = depot === undefined ? value.loadAt : nextWindow(depot, value.loadAt);
  const { label, words, along } = sortieFields.loadAt;
  return (
    <>
      <EditInstant
        edit={edit}
        field="loadAt"
        label={label}
        words={words}
        origin="the return moves along"
        along={(at) => along(value, at)}
      />
      {Math.abs(window - value.loadAt) >= 60_000 && (
        <p className="form-advice">
          {window === Infinity
            ? `No departure window is open then: the list of ${depot?.name ?? "the depot"} ends before.`
            : `No departure window is open then; the next opens ${formatInstant(window)}.`}{" "}
          {!edit.isReadOnly && window !== Infinity && (
            <Button
              look="link"
              onPress={() => edit.change({ loadAt: window, ...along(value, window) }, "loading to the next window")}
            >
              Move there
            </Button>
          )}
        </p>
      )}
    </>
  );
};

export const SortieForm = ({ edit }: FormProps<Sortie>) => {
  const { value, plan } = edit;
  const classId = plan.craft.find(({ id }) => id === value.landerId)?.classId;
  const landerClass = plan.craftClasses.find(({ id }) => id === classId);
  const dates: Editing<Sortie> = { ...edit, isReadOnly: edit.isReadOnly || isHeld(value, "begun") };
  const end: Editing<Sortie> = { ...edit, isReadOnly: edit.isReadOnly || isHeld(value, "over") };
  const form: FormOf<Sortie, typeof sortieFields> = {
    edit,
    table: sortieFields,
    isHeld: (held) => isHeld(value, held),
    own: {
      name: <EditText edit={edit} field="name" label={sortieFields.name.label} isRequired others={edit.plan.sorties} />,
      loadAt: <LoadingRow edit={dates} />,
      returnAt: (
        <>
          <NumberField
            label="Away"
            unit="days"
            min={0}
            max={2000}
            value={Number(((value.returnAt - value.loadAt) / DAY_MS).toFixed(4))}
            isReadOnly={end.isReadOnly}
            origin={usualWords(value, plan, landerClass)}
            onCommit={(days) => edit.change({ returnAt: value.loadAt + Math.round(days * DAY_MS) }, "time away")}
          />
          <EditInstant
            edit={end}
            field="returnAt"
            label={sortieFields.returnAt.label}
            words={sortieFields.returnAt.words}
            earliestAt={value.loadAt}
          />
        </>
      ),
      demand: <SortieDemand edit={dates} landerClass={landerClass} />,
      status: (
        <EditChoice
          edit={edit}
          field="status"
          label={sortieFields.status.label}
          choices={choicesInForm(sortieFields.status.value.choices, value.status)}
        />
      ),
    },
  };
  return (
    <>
      <FieldRows form={form} section="who" />
      <FormSection title="When">
        <FieldRows form={form} section="when" />
      </FormSection>
      <FieldRows form={form} section="needs" />
      <FormSection title="Status">
        <FieldRows form={form} section="status" />
      </FormSection>
    </>
  );
};
