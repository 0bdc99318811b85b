/** Takes a fitted rate into the plan from a date, for this plan case or for all. */
import { memo, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { tankName } from "../names/entity-words.ts";
import { uniqueId } from "../names/new-id.ts";
import { formatDate } from "../format/instant.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { TextField } from "../widgets/text-field.tsx";

interface AdoptFormProps {
  readonly plan: PlanSnapshot;
  readonly asked: Input<"losses.fit">;
  readonly firstAt: number;
  readonly lastAt: number;
  /** null: it may be adopted. */
  readonly cannotAdoptBecause: string | null;
  /** Once it is in the plan, from this instant. */
  readonly onAdopted?: (fromAt: number) => void;
}

type Scope = Input<"losses.adopt">["scope"];

/** Given figures, not the fit: an answer that changes none of them leaves the form as it is. */
export const AdoptForm = memo(function AdoptForm(props: AdoptFormProps) {
  const { plan, asked, firstAt, lastAt, cannotAdoptBecause } = props;
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  const [fromAt, setFrom] = useState(plan.asOfAt);
  const [scope, setScope] = useState<Scope>("all plan cases");
  const suggested = `measured ${formatDate(firstAt)} to ${formatDate(lastAt)}`;
  const [reason, setReason] = useState<string | null>(null);
  if (isReadOnly) return null;
  if (cannotAdoptBecause !== null) return <p className="form-advice">{cannotAdoptBecause}</p>;
  const adopt = async (): Promise<void> => {
    const id = uniqueId(`${asked.tankId} measured`, "measured", new Set(plan.lossPeriods.map((row) => row.id)));
    const reply = await session.command("losses.adopt", { fit: asked, id, fromAt, scope, reason: reason ?? suggested });
    if (!reply.ok) return session.fail(reply.failure);
    session.select({ kind: "lossPeriod", id });
    session.announce("The fitted rate is in the plan; the forecast has been computed anew.");
    props.onAdopted?.(fromAt);
  };
  return (
    <section className="adopt-form" aria-label={`Adopt the fitted rate of ${tankName(plan, asked.tankId)}`}>
      <InstantField label="In force from" value={fromAt} onCommit={setFrom} />
      <ChoiceField
        label="Applies to"
        value={scope}
        choices={[
          { id: "all plan cases", name: "every plan case" },
          { id: "plan case", name: `${plan.planCase.name} only` },
        ]}
        onCommit={setScope}
      />
      <div className="adopt-reason">
        <TextField label="Reason" value={reason ?? suggested} most={120} isRequired onCommit={setReason} />
      </div>
      <Button look="primary" onPress={() => void adopt()}>
        Adopt the fitted rate
      </Button>
    </section>
  );
});
