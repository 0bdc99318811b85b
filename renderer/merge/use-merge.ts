/** A merge while it is looked at: the held file, what was found, what is decided so far. */
import { useEffect, useMemo, useState } from "react";
import type { HeldFile } from "../../app/contract/bridge.ts";
import type { Choice } from "../../app/merge/merge-choices.ts";
import type { MergeView } from "../../app/merge/merge-view.ts";
import type { Run } from "../state/run.ts";
import { useApp, useSession } from "../state/use-session.ts";

export interface MergeState {
  readonly file: HeldFile | null;
  /** null: nothing chosen, or being read. */
  readonly view: MergeView | null;
  readonly fault: string | null;
  readonly isReading: boolean;
  /** The comparison under way; null: none is. */
  readonly run: Run | null;
  readonly choices: ReadonlyMap<string, Choice>;
  readonly takeCases: readonly string[];
  readonly pick: () => Promise<void>;
  readonly decide: (conflictId: string, choice: Choice) => void;
  /** What would be written is fetched anew. */
  readonly decideAll: (choice: Choice) => void;
  readonly chooseCase: (planCaseId: string, isTaken: boolean) => void;
  /** Writes; answers whether it was written. */
  readonly take: () => Promise<boolean>;
}

const ASKER = "merge";

const inputOf = (choices: ReadonlyMap<string, Choice>, takeCases: readonly string[]) => ({
  decisions: [...choices].map(([conflictId, choice]) => ({ conflictId, choice })),
  takeCases: [...takeCases],
});

export const useMerge = (given: HeldFile | null): MergeState => {
  const session = useSession();
  const { host } = session.client;
  const [file, setFile] = useState<HeldFile | null>(given);
  const [view, setView] = useState<MergeView | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  /** The question that the view, or the fault, answers. */
  const [answered, setAnswered] = useState<object | null>(null);
  const run = useApp(({ work }) => work.find(({ jobId }) => jobId.startsWith(`${ASKER}#`)) ?? null);
  const [choices, setChoices] = useState<ReadonlyMap<string, Choice>>(new Map());
  const [takeCases, setTakeCases] = useState<readonly string[]>([]);
  const question = useMemo(() => ({ file, choices, takeCases }), [file, choices, takeCases]);

  useEffect(() => {
    if (question.file === null) return;
    let isWanted = true;
    const { token } = question.file;
    const begun = session.work.run(
      {
        title: "Comparing the records",
        asker: ASKER,
      },
      (jobId) => host.previewMerge(token, inputOf(question.choices, question.takeCases), jobId),
    );
    void begun.reply.then((reply) => {
      // Only the answer to the latest question counts.
      if (!isWanted) return;
      setAnswered(question);
      setFault(reply.ok ? null : reply.failure.message);
      setView(reply.ok ? reply.value : null);
    });
    return () => {
      isWanted = false;
      begun.stop();
    };
  }, [session, host, question]);

  return {
    file,
    view,
    fault,
    run,
    isReading: file !== null && answered !== question,
    choices,
    takeCases,
    pick: async () => {
      const reply = await host.pickOther();
      if (!reply.ok) return setFault(reply.failure.message);
      if (reply.value === null) return;
      setView(null);
      setFault(null);
      setChoices(new Map());
      setTakeCases([]);
      setFile(reply.value);
    },
    decide: (conflictId, choice) => setChoices(new Map(choices).set(conflictId, choice)),
    decideAll: (choice) => {
      const open = view?.conflicts.filter(({ id }) => !choices.has(id)) ?? [];
      setChoices(new Map([...choices, ...open.map(({ id }) => [id, choice] as const)]));
    },
    chooseCase: (planCaseId, isTaken) =>
      setTakeCases(isTaken ? [...takeCases, planCaseId] : takeCases.filter((each) => each !== planCaseId)),
    take: async () => {
      if (file === null || view === null) return false;
      const reply = await host.takeMerge(file.token, inputOf(choices, takeCases), view.fingerprint);
      if (!reply.ok) {
        setFault(reply.failure.message);
        return false;
      }
      await session.refresh();
      session.tell("information", `The records of ${view.fileName} were brought in. Undo takes them back.`);
      return true;
    },
  };
};
