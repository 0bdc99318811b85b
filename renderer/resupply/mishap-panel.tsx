/** What if a flight is lost or late: whether the plan still holds, and the least change that repairs it. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { RepairAsked } from "../../app/resupply/repair-answer.ts";
import { useResupplyChoices } from "../state/resupply-choices.ts";
import { useQuestion } from "../state/use-question.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { NumberField } from "../widgets/number-field.tsx";
import { RunPart } from "../widgets/run-part.tsx";
import { repairAskedBy } from "../repair/repair-asked.ts";
import { FoundRepairs } from "../repair/found-repairs.tsx";
import { nameIn } from "../../app/words/named.ts";

type Mishap = RepairAsked["mishaps"][number];

const MAX_DAYS = 3650;
const USUAL_DAYS = 14;
const MAX_WAYS = 8;
const REST_MS = 300;
const NOTHING = "nothing";

export const MishapPanel = ({ plan }: { plan: PlanSnapshot }) => {
  const choices = useResupplyChoices();
  const [mishap, setMishap] = useState<Mishap | null>(null);
  const ahead = plan.flights
    .filter(({ status }) => status === "planned" || status === "firm" || status === "departed")
    .toSorted((a, b) => a.departAt - b.departAt);
  const known = mishap !== null && ahead.some(({ id }) => id === mishap.flightId) ? mishap : null;
  const { value, isCurrent, run, failure, again } = useQuestion(
    "repair supposed",
    "resupply.repair",
    { ...repairAskedBy(choices, known === null ? [] : [known]), planCaseId: plan.planCase.id },
    { title: "Repair", restMs: REST_MS },
  );
  return (
    <div className="resupply-sheet">
      <div className="resupply-mishap">
        <ChoiceField
          label="If"
          value={known?.flightId ?? NOTHING}
          choices={[
            { id: NOTHING, name: "nothing further happens", note: "the plan as it stands" },
            ...ahead.map(({ id, name }) => ({ id, name })),
          ]}
          onCommit={(id) => setMishap(id === NOTHING ? null : { kind: "lost", flightId: id })}
        />
        {known !== null && (
          <ChoiceField
            label="then it"
            value={known.kind}
            choices={[
              { id: "lost", name: "is lost" },
              { id: "slips", name: "slips" },
            ]}
            onCommit={(kind) =>
              setMishap(
                kind === "lost"
                  ? { kind, flightId: known.flightId }
                  : { kind, flightId: known.flightId, days: USUAL_DAYS },
              )
            }
          />
        )}
        {known?.kind === "slips" && (
          <NumberField
            label="by"
            unit="days"
            min={0}
            max={MAX_DAYS}
            value={known.days}
            onCommit={(days) => setMishap({ ...known, days })}
          />
        )}
      </div>
      <RunPart question={{ run, failure, again }} words="Looking for the least change" />
      {value !== null && (
        <div className={isCurrent ? "" : "resupply-old"}>
          {value.broken.length > 0 && (
            <p className="resupply-broken">
              Unrepaired, {value.broken.map(({ sortieId }) => nameIn(plan.sorties, sortieId)).join(", ")} cannot be
              held.
            </p>
          )}
          {isCurrent && <FoundRepairs plan={plan} answer={value} most={MAX_WAYS} isSupposed={known !== null} />}
        </div>
      )}
      {known !== null && (
        <p className="form-advice">
          It has not happened: record the loss or the slip first, then take the repair that is offered for it.
        </p>
      )}
    </div>
  );
};
