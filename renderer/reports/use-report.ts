/** The report on the desk as plain data, asked for anew with every choice and every revision; the old one stays until then. */
import { useEffect, useState } from "react";
import type { ReportModel } from "../../app/report/model.ts";
import type { ReportSubject } from "../../app/report/request.ts";
import { useApp, useSession } from "../state/use-session.ts";

export interface ShownReport {
  readonly report: ReportModel | null;
  /** On its way: how far, 0 to 1 (null: cannot be said), and how to stop it. */
  readonly coming: { readonly share: number | null; readonly words: string; readonly stop: () => void } | null;
  /** Why there is none, in words; null: there is one, or it is on its way. */
  readonly failure: string | null;
  /** Asks once more, after it was stopped. */
  readonly again: () => void;
}

/** `of` null: nothing can be shown. */
export const useReport = (of: ReportSubject | null): ShownReport => {
  const { client } = useSession();
  const revision = useApp((state) => state.ledger?.revision);
  const [turn, setTurn] = useState(0);
  const [shown, setShown] = useState<Omit<ShownReport, "again">>({ report: null, coming: null, failure: null });
  const key = of === null ? null : JSON.stringify(of);
  // What was issued stays as it is: a change of the plan is no reason to ask for it anew.
  const state = of?.kind === "issue" ? 0 : revision;
  useEffect(() => {
    if (key === null) return undefined;
    let isWanted = true;
    const { jobId, reply, stop } = client.begin("report.show", { of: JSON.parse(key) as ReportSubject });
    const coming = (share: number | null, words: string): void =>
      setShown(({ report }) => ({ report, coming: { share, words, stop }, failure: null }));
    coming(null, "Making the report");
    const hear = client.on("progress", (told) => {
      if (isWanted && told.jobId === jobId) coming(told.share, told.words);
    });
    void reply.then((answer) => {
      if (!isWanted) return;
      if (answer.ok) setShown({ report: answer.value, coming: null, failure: null });
      else setShown(({ report }) => ({ report, coming: null, failure: answer.failure.message }));
    });
    return () => {
      isWanted = false;
      hear();
      stop();
    };
    // eslint-disable-next-line react/exhaustive-effect-dependencies -- each revision and each turn is asked for anew
  }, [client, key, state, turn]);
  return { ...shown, again: () => setTurn(turn + 1) };
};
