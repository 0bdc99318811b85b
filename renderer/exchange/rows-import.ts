/** A file of rows on its way in: chosen, looked at, its columns decided one by one, taken. */
import { useRef, useState } from "react";
import type { Input, Output } from "../../app/contract/contract.ts";
import { type CalendarForms, noForms } from "../../app/exchange/calendar/calendar-forms.ts";
import type { Reply } from "../../app/ground/failure.ts";
import { type ColumnChoice, type ColumnMapping, noMapping, type RowKind } from "../../app/ledger/column-mapping.ts";
import type { RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import type { RowsSource } from "../../app/exchange/rows/rows-source.ts";
import type { Run } from "../state/run.ts";
import { useSession } from "../state/use-session.ts";

type Question = Input<"rows.preview">;

/** Calls with progress that can be stopped, one at a time; a later one stops the one before. */
const useRun = () => {
  const { work } = useSession();
  const [run, setRun] = useState<(Run & { readonly words: string }) | null>(null);
  const latest = useRef<string | null>(null);
  const begin = async <N extends "rows.preview" | "rows.import">(
    words: string,
    name: N,
    input: Input<N>,
  ): Promise<Reply<Output<N>> | null> => {
    const begun = work.begin(name, input, {
      title: words,
      asker: "rows",
      onProgress: (progress) => {
        if (latest.current === begun.jobId) setRun((now) => (now === null ? null : { ...now, progress }));
      },
    });
    latest.current = begun.jobId;
    setRun({ words, startedAt: performance.now(), progress: null, stop: begun.stop });
    const reply = await begun.reply;
    // A later call has taken its place: this answer is of no more use.
    if (latest.current !== begun.jobId) return null;
    setRun(null);
    return reply;
  };
  return { run, begin };
};

export const useRowsImport = (planCaseId: string) => {
  const session = useSession();
  const [question, setQuestion] = useState<Question | null>(null);
  const [preview, setPreview] = useState<RowsPreview | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const { run, begin } = useRun();

  const look = async (asked: Question): Promise<void> => {
    setQuestion(asked);
    setFault(null);
    const reply = await begin("Reading the file", "rows.preview", asked);
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
    run,
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
    chooseCalendar: (forms: Partial<CalendarForms>) => {
      const calendar = { ...noForms, ...question?.calendar, ...forms };
      if (question !== null) void look({ ...question, calendar });
    },
    /** Whether all that was asked for was taken. */
    take: async (goodRowsOnly: boolean, bookReadings: boolean): Promise<RowsPreview | null> => {
      if (question === null || preview === null) return null;
      const asked = { ...question, kind: preview.kind, goodRowsOnly, bookReadings };
      const reply = await begin("Importing", "rows.import", asked);
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
