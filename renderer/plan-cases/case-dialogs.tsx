/** New from, rename, delete, compare with: the questions about plan cases. They concern the case selected, or the one shown. */
import { useState } from "react";
import type { PlanCase } from "../../app/entity/plan-case.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { countWords } from "../names/entity-words.ts";
import { nextName, uniqueId } from "../names/new-id.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { TextField } from "../widgets/text-field.tsx";

const useCases = (request: DialogProps["request"]) => {
  const cases = useApp((state) => state.ledger?.planCases) ?? [];
  const shownId = useApp((state) => state.planCaseId);
  const subjectId = request.subject?.kind === "planCase" ? request.subject.id : shownId;
  const subject: PlanCase | undefined = cases.find(({ id }) => id === subjectId) ?? cases[0];
  return { cases, subject };
};

export const NewCaseDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const { cases, subject } = useCases(request);
  const [fromId, setFromId] = useState(subject?.id ?? "");
  const [name, setName] = useState(() => nextName(subject?.name ?? "Plan", new Set(cases.map((row) => row.name))));
  const [fault, setFault] = useState<string | null>(null);
  const copy = async (): Promise<boolean> => {
    const newId = uniqueId(name, "case", new Set(cases.map(({ id }) => id)));
    const reply = await session.command("case.copy", { fromId, newId, name });
    if (reply.ok) session.chooseCase(newId);
    else setFault(reply.failure.message);
    return reply.ok;
  };
  return (
    <Dialog
      title="New plan case"
      width="narrow"
      confirm="Create plan case"
      onConfirm={copy}
      onClose={close}
      fault={fault}
    >
      <TextField label="Name" value={name} most={80} isRequired autoFocus onCommit={setName} />
      <ChoiceField
        label="Copied from"
        value={fromId}
        choices={cases.map(({ id, name: text }) => ({ id, name: text }))}
        onCommit={setFromId}
      />
      <p className="form-advice">
        Flights, sorties and campaigns are copied and can then be changed freely; records, depots and craft are shared.
      </p>
    </Dialog>
  );
};

export const RenameCaseDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const { subject } = useCases(request);
  const [name, setName] = useState(subject?.name ?? "");
  const [fault, setFault] = useState<string | null>(null);
  const rename = async (): Promise<boolean> => {
    if (subject === undefined) return true;
    const value: PlanCase = { ...subject, name };
    const reply = await session.edit(`Rename ${subject.name}`, [{ op: "put", kind: "planCase", value }]);
    if (!reply.ok) setFault(reply.failure.message);
    return reply.ok;
  };
  return (
    <Dialog title="Rename plan case" width="narrow" confirm="Rename" onConfirm={rename} onClose={close} fault={fault}>
      <TextField label="Name" value={name} most={80} isRequired autoFocus onCommit={setName} />
    </Dialog>
  );
};

export const RemoveCaseDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const { cases, subject } = useCases(request);
  const current = useApp((state) => state.current);
  const [fault, setFault] = useState<string | null>(null);
  if (subject === undefined) return null;
  const isLast = cases.length < 2;
  const remove = async (): Promise<boolean> => {
    const reply = await session.command("case.remove", { planCaseId: subject.id });
    if (!reply.ok) setFault(reply.failure.message);
    return reply.ok;
  };
  const plan = current?.plan.planCase.id === subject.id ? current.plan : null;
  return (
    <Dialog
      title={`Delete ${subject.name}?`}
      width="narrow"
      isDanger
      confirm="Delete the case"
      unable={isLast ? "It is the only plan case; a ledger has at least one." : null}
      onConfirm={remove}
      onClose={close}
      fault={isLast ? "It is the only plan case; a ledger has at least one." : fault}
    >
      <p>
        {plan === null
          ? "Its flights, sorties and campaigns go with it."
          : `Its ${countWords("flight", plan.flights.length)} and ${countWords("sortie", plan.sorties.length)} go with it.`}
      </p>
      <p className="form-advice">The records stay. Undo brings all of it back.</p>
    </Dialog>
  );
};

const NOTHING = "-";

export const CompareDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const cases = useApp((state) => state.ledger?.planCases) ?? [];
  const shownId = useApp((state) => state.planCaseId);
  const compareId = useApp((state) => state.compareCaseId);
  const others = cases.filter(({ id }) => id !== shownId);
  const [chosen, setChosen] = useState(compareId ?? others[0]?.id ?? NOTHING);
  const compare = (): boolean => {
    session.compareWith(chosen === NOTHING ? null : chosen);
    session.show("cases");
    return true;
  };
  return (
    <Dialog title="Compare with" width="narrow" confirm="Compare" onConfirm={compare} onClose={close}>
      {others.length === 0 && <p className="form-advice">There is no other plan case. Make one from this one first.</p>}
      <ChoiceField
        label="Plan case"
        value={chosen}
        choices={[{ id: NOTHING, name: "nothing" }, ...others.map(({ id, name }) => ({ id, name }))]}
        onCommit={setChosen}
      />
    </Dialog>
  );
};
