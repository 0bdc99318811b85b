/** The level with which the books of a tank open: asked for where the tank is made, and no gauge reading. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { plainPostings } from "../entries/plain-entry.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { InstantField } from "../widgets/instant-field.tsx";
import { Notice } from "../widgets/notice.tsx";
import { NumberField } from "../widgets/number-field.tsx";

export const OpeningLevel = ({ tank, plan }: { readonly tank: Tank; readonly plan: PlanSnapshot }) => {
  const session = useSession();
  const isOpen = useApp((state) => state.current?.view.past.some(({ tankId }) => tankId === tank.id) ?? true);
  const [massKg, setMass] = useState<number | null>(null);
  const [at, setAt] = useState(plan.asOfAt);
  const [sourceId, setSource] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  if (isOpen) return null;
  const source = plan.sources.find(({ id }) => id === sourceId) ?? plan.sources[0];
  const postings = plainPostings({
    kind: "opening",
    tank,
    toTank: null,
    sourceId: source?.id ?? null,
    massKg: massKg ?? 0,
  });
  const open = async (): Promise<void> => {
    if (postings === null) return;
    const reply = await session.command("record.entry", {
      id: `entry-${crypto.randomUUID()}`,
      at,
      kind: "opening",
      subjectKey: null,
      note: "",
      postings: [...postings],
    });
    setFault(reply.ok ? null : reply.failure.message);
  };
  return (
    <FormSection title="Opening level">
      <p className="form-advice">
        The books of {tank.name} are not open: the forecast begins with an empty tank. What is in it already is stated
        here, once; a gauge reading instead would book all of it as unaccounted.
      </p>
      <NumberField
        label="In the tank"
        unit="kg"
        min={0}
        isMinOpen
        max={tank.maximumFillKg}
        decimals={3}
        value={massKg}
        onCommit={setMass}
      />
      <InstantField label="On" value={at} onCommit={setAt} />
      <ChoiceField
        label="It came from"
        value={source?.id ?? null}
        choices={plan.sources.map(({ id, name }) => ({ id, name }))}
        fault={plan.sources.length === 0 ? "Add a source first, in Depots." : null}
        onCommit={setSource}
      />
      {fault !== null && <Notice tone="failure">{fault}</Notice>}
      <Button isDisabled={postings === null} onPress={() => void open()}>
        Open its books
      </Button>
    </FormSection>
  );
};
