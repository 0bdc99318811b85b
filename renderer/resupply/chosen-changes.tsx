/** The table of changes, with flights chosen one by one and taken into the plan case itself. */
import { useCallback, useState } from "react";
import type { ShownResupply } from "../state/use-resupply.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { ChangeTable } from "./change-table.tsx";
import { READ_ONLY, firstOf } from "../widgets/unable.ts";

export const ChosenChanges = ({ shown: { present, proposed, answer, isOld } }: { shown: ShownResupply }) => {
  const session = useSession();
  const isReadOnly = useApp((state) => state.ledger?.readOnlyBecause !== null);
  // What was left unchosen, so that a new answer begins with all of it.
  const [left, setLeft] = useState<{ readonly of: unknown; readonly ids: ReadonlySet<string> }>({
    of: null,
    ids: new Set(),
  });
  const ids = left.of === answer ? left.ids : new Set<string>();
  const onChoose = useCallback(
    (flightId: string, isChosen: boolean) =>
      setLeft((before) => {
        const next = new Set(before.of === answer ? before.ids : []);
        if (isChosen) next.delete(flightId);
        else next.add(flightId);
        return { of: answer, ids: next };
      }),
    [answer],
  );
  if (present === null || proposed === null || answer === null) return null;
  const changed = answer.changes.filter(({ kind }) => kind !== "kept").map(({ flight }) => flight.id);
  const chosen = new Set(changed.filter((id) => !ids.has(id)));
  const { planCase } = present.plan;
  const take = async (): Promise<void> => {
    const { added, craft, leftOutIds, sortiesMoved = [] } = proposed.proposal;
    const reply = await session.command("resupply.takeHere", {
      planCaseId: planCase.id,
      added: added.filter(({ id }) => chosen.has(id)),
      craft: [...craft],
      leftOutIds: leftOutIds.filter((id) => chosen.has(id)),
      sortiesMoved: [...sortiesMoved],
    });
    if (!reply.ok) return session.fail(reply.failure);
    const verdict = session.store.get().current?.glance.verdict;
    session.tell(
      "information",
      `Taken into ${planCase.name}, as one step that can be undone. ${verdict?.word ?? ""}: ${verdict?.sentence ?? ""}`,
    );
  };
  return (
    <ChangeTable
      plan={proposed.forecast.plan}
      answer={answer}
      chosen={chosen}
      onChoose={onChoose}
      tools={
        changed.length > 0 && (
          <Button
            unable={firstOf(
              [isReadOnly, READ_ONLY],
              [isOld, "The plan or the question has changed since: find the plan again."],
              [chosen.size === 0, "No change is ticked."],
            )}
            onPress={() => void take()}
          >
            Take {chosen.size === changed.length ? "them" : `${String(chosen.size)} of ${String(changed.length)}`} into{" "}
            {planCase.name}
            {answer.sortiesMoved.length > 0 && ", with the sorties moved"}
          </Button>
        )
      }
    />
  );
};
