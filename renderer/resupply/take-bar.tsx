/** The proposal taken as a new plan case, under a name; what came of it is said, with the way there. */
import { useState } from "react";
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import { forecast } from "../../app/forecast/forecast.ts";
import { glance } from "../../app/supply/glance.ts";
import { uniqueId } from "../names/new-id.ts";
import { setTaken, type ShownResupply, showOnTimeline } from "../state/use-resupply.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { Notice } from "../widgets/notice.tsx";
import { TextField } from "../widgets/text-field.tsx";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

const MAX_LETTERS = 80;

const freeName = (plan: PlanSnapshot, names: readonly string[]): string => {
  const stem = `${plan.planCase.name}, resupplied`.slice(0, MAX_LETTERS - 4);
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? stem : `${stem} ${String(n)}`;
    if (!names.includes(name)) return name;
  }
};

export const TakeBar = ({ shown }: { shown: ShownResupply }) => {
  const { present, proposed, taken, isOld, isOnTimeline } = shown;
  const session = useSession();
  const ledger = useApp((state) => state.ledger);
  const compareCaseId = useApp((state) => state.compareCaseId);
  const [typed, setTyped] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [isTaking, setTaking] = useState(false);
  if (present === null || proposed === null || ledger === null) return null;
  const names = ledger.planCases.map(({ name }) => name);
  const name = typed ?? freeName(present.plan, names);
  const take = async (): Promise<void> => {
    if (names.includes(name)) return setFault(`There is a plan case ${name} already. Write another name.`);
    setFault(null);
    setTaking(true);
    const id = uniqueId(name, "case", new Set(ledger.planCases.map((row) => row.id)));
    const { added, craft, leftOutIds, sortiesMoved = [] } = proposed.proposal;
    const reply = await session.command("resupply.take", {
      fromId: present.plan.planCase.id,
      newId: id,
      name,
      added: [...added],
      craft: [...craft],
      leftOutIds: [...leftOutIds],
      sortiesMoved: [...sortiesMoved],
    });
    setTaking(false);
    if (!reply.ok) return setFault(reply.failure.message);
    setTyped(null);
    // What was written is read back and checked: the sentence rests on the new case, not on the proposal.
    const view = await session.ask("plan.view", { planCaseId: id });
    if (view === null) return;
    const { verdict } = glance(view.plan, forecast(view.plan));
    setTaken({ id, name, sentence: `${verdict.word}. ${verdict.sentence}` });
  };
  const show = (id: string): void => {
    session.chooseCase(id);
    session.compareWith(present.plan.planCase.id);
    session.show("cases");
  };
  const { added: further, leftOutIds: gone, sortiesMoved: dated = [] } = proposed.proposal;
  const changes = further.length + gone.length + dated.length;
  const isReadOnly = ledger.readOnlyBecause !== null;
  return (
    <div className="resupply-take">
      <div className="resupply-take-line">
        <TextField
          label="Name of the case"
          value={name}
          most={MAX_LETTERS}
          isRequired
          fault={fault}
          isReadOnly={isReadOnly}
          onCommit={(text) => {
            setTyped(text);
            setFault(null);
          }}
        />
        <Button
          look="primary"
          unable={firstOf(
            [isReadOnly, READ_ONLY],
            [isOld, "The plan or the question has changed since: find the plan again."],
            [isTaking, "It is being taken."],
            [changes === 0, "The proposal is the plan as it is."],
          )}
          onPress={() => void take()}
        >
          Take as a new plan case
        </Button>
        <CheckField isOn={isOnTimeline} isReadOnly={isOld} onCommit={showOnTimeline}>
          Show on the timeline
          {compareCaseId === null ? "" : ", once no case is compared there"}
        </CheckField>
      </div>
      {taken !== null && ledger.planCases.some(({ id }) => id === taken.id) && (
        <Notice tone="information">
          Taken as plan case {taken.name}: {taken.sentence}{" "}
          <Button look="link" onPress={() => show(taken.id)}>
            Show it beside {present.plan.planCase.name}
          </Button>
        </Notice>
      )}
    </div>
  );
};
