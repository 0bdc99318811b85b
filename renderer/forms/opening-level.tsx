/** The level with which the books of a tank open that was made without one: stated once, and no gauge reading. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Tank } from "../../app/entity/tank.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { FormSection } from "../widgets/form-row.tsx";
import { Notice } from "../widgets/notice.tsx";
import { freshOpening, OpeningFields, openingEntry } from "./opening-fields.tsx";

export const OpeningLevel = ({ tank, plan }: { readonly tank: Tank; readonly plan: PlanSnapshot }) => {
  const session = useSession();
  const isOpen = useApp((state) => state.current?.view.past.some(({ tankId }) => tankId === tank.id) ?? true);
  const [opening, setOpening] = useState(() => freshOpening(plan));
  const [fault, setFault] = useState<string | null>(null);
  if (isOpen) return null;
  const entry = openingEntry(opening, tank, plan);
  const open = async (): Promise<void> => {
    if (entry === null) return;
    const reply = await session.command("record.entry", entry);
    setFault(reply.ok ? null : reply.failure.message);
  };
  return (
    <FormSection title="Opening level">
      <p className="form-advice">
        The books of {tank.name} are not open: the forecast begins with an empty tank. What is in it already is stated
        here, once; a gauge reading instead would book all of it as unaccounted.
      </p>
      <OpeningFields opening={opening} tank={tank} plan={plan} emptyWords="not stated" onChange={setOpening} />
      {fault !== null && <Notice tone="failure">{fault}</Notice>}
      <Button
        unable={entry === null ? "State the level first, and where it came from." : null}
        onPress={() => void open()}
      >
        Open its books
      </Button>
    </FormSection>
  );
};
