/** A file of rows on its way in: chosen, looked at, its columns decided one by one, taken. */
import { useEffect, useRef, useState } from "react";
import type { Input } from "../../app/contract/contract.ts";
import type { Reply } from "../../app/contract/failure.ts";
import {
  type ColumnChoice,
  type ColumnMapping,
  noMapping,
  type RowKind,
} from "../../app/exchange/rows/column-mapping.ts";
import type { RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import type { RowsSource } from "../../app/exchange/rows/rows-source.ts";
import { useSession } from "../state/use-session.ts";

type Question = Input<"rows.preview">;
export interface RunningWork {
  readonly words: string;
  readonly share: number | null;
  stop(): void;
}

/** Calls with progress that can be stopped, one at a time. */
const useWork = () => {
  const session = useSession();
  const [work, setWork] = useState<RunningWork | null>(null);
  const jobId = useRef<string | null>(null);
  useEffect(
    () =>
      session.client.on("progress", (progress) => {
        if (progress.jobId !== jobId.current) return;
        setWork((now) => (now === null ? null : { ...now, share: progress.share, words: progress.words }));
      }),
    [session],
  );
  const run = async <T>(
    words: string,
    begin: () => { readonly jobId: string; readonly reply: Promise<Reply<T>>; readonly stop: () => void },
  ): Promise<Reply<T> | null> => {
    const job = begin();
    jobId.current = job.jobId;
    setWork({ words, share: null, stop: job.stop });
    const reply = await job.reply;
    // A later call has taken its place: this answer is of no more use.
    if (jobId.current !== job.jobId) return null;
    setWork(null);
    return reply;
  };
  return { work, run };
};

export const useRowsImport = (planCaseId: string) => {
  const session = useSession();
  const [question, setQuestion] = useState<Question | null>(null);
  const [preview, setPreview] = useState<RowsPreview | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const { work, run } = useWork();

  const look = async (asked: Question): Promise<void> => {
    setQuestion(asked);
    setFault(null);
    const reply = await run("Reading the file", () => session.client.begin("rows.preview", asked));
    if (reply === null) return;
    if (reply.ok) return setPreview(reply.value);
    setFault(reply.failure.message);
    if (reply.failure.code !== "cancelled") setPreview(null);
  };
  /** Looks again with something decided otherwise. */
  const decide = (more: Partial<Pick<Question, "kind" | "sheet">> & { readonly mapping?: ColumnMapping }): void => {
    if (question !== null) void look({ ...question, ...more });
  };
  const mapping = question?.mapping ?? noMapping;

  return {
    fileName: question?.source.fileName ?? null,
    kind: question?.kind ?? preview?.kind ?? null,
    preview,
    fault,
    work,
    setFault,
    begin: (source: RowsSource, kind: RowKind | null) =>
      look({ kind, planCaseId, source, sheet: null, mapping: noMapping }),
    chooseKind: (kind: RowKind) => decide({ kind, mapping: noMapping }),
    chooseSheet: (sheet: string) => decide({ sheet, mapping: noMapping }),
    chooseColumns: (choices: readonly ColumnChoice[]) => {
      const named = new Set(choices.map(({ heading }) => heading));
      const kept = mapping.columns.filter(({ heading }) => !named.has(heading));
      decide({ kind: preview?.kind ?? null, mapping: { ...mapping, columns: [...kept, ...choices] } });
    },
    chooseForm: (form: Partial<Omit<ColumnMapping, "columns">>) => {
      // Parted elsewhere there are other columns.
      const columns = form.separator === undefined ? mapping.columns : [];
      decide({ mapping: { ...mapping, ...form, columns } });
    },
    /** Whether all that was asked for was taken. */
    take: async (goodRowsOnly: boolean): Promise<RowsPreview | null> => {
      if (question === null || preview === null) return null;
      const asked = { ...question, kind: preview.kind, goodRowsOnly };
      const reply = await run("Taking the rows in", () => session.client.begin("rows.import", asked));
      if (reply === null) return null;
      if (!reply.ok) {
        setFault(reply.failure.message);
        return null;
      }
      await session.refresh();
      if (reply.value.isTaken) return reply.value;
      setPreview(reply.value);
      setFault("Nothing was taken: the ledger or the file is not as it was looked at. See what has changed.");
      return null;
    },
  };
};
export type RowsImport = ReturnType<typeof useRowsImport>;
