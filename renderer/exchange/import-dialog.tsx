/** Rows from a file or a pasted table: what each column is, what each row would change, what is wrong; then all, or the good rows. */
import { useEffect, useEffectEvent, useState } from "react";
import type { RowKind } from "../../app/ledger/column-mapping.ts";
import type { RowsFile } from "../../app/exchange/rows/rows-source.ts";
import type { ColumnPreview, RowsPreview } from "../../app/exchange/rows/rows-preview.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { Notice } from "../widgets/notice.tsx";
import { RunLine } from "../widgets/run-line.tsx";
import { CalendarChoices } from "./calendar-choices.tsx";
import { ColumnTable } from "./column-table.tsx";
import { FormChoices } from "./form-choices.tsx";
import { PasteField } from "./paste-field.tsx";
import { importedWords } from "./imported-words.ts";
import { type RowsImport, useRowsImport } from "./rows-import.ts";
import { countWords, RowsFound } from "./rows-found.tsx";
import { firstOf } from "../widgets/unable.ts";
import "./exchange.css";

const kinds = [
  { id: "flights", name: "flights" },
  { id: "sorties", name: "sorties" },
  { id: "readings", name: "gauge readings" },
] as const;

const EXAMPLE = "Flight\tTanker\tFrom\tDepot\tArrival (UTC)\tLH2 [t]";

const Questions = ({ preview, rows }: { readonly preview: RowsPreview; readonly rows: RowsImport }) => {
  const open = preview.columns.filter(({ to, decision }: ColumnPreview) => decision === "undecided" && to === null);
  return (
    <Notice tone="warning">
      <ul className="sentence-list">
        {preview.questions.map((question) => (
          <li key={question}>{question}</li>
        ))}
      </ul>
      {open.length > 0 && (
        <Button onPress={() => rows.chooseColumns(open.map(({ heading }) => ({ heading, to: null, unit: null })))}>
          {open.length === 1
            ? `Leave “${open[0]?.heading.slice(0, 30)}” out`
            : `Leave these ${open.length} columns out`}
        </Button>
      )}
    </Notice>
  );
};

const leftOutWords = ({ columns }: RowsPreview): string | null => {
  const left = columns.filter(
    ({ to, decision, samples }) => to === null && decision !== "undecided" && samples.length > 0,
  );
  return left.length === 0 ? null : `Left out: ${left.map(({ heading }) => heading).join(", ")}.`;
};

const Found = ({ preview, rows }: { readonly preview: RowsPreview; readonly rows: RowsImport }) => {
  const leftOut = leftOutWords(preview);
  const isAsking = preview.questions.length > 0;
  return (
    <>
      <p className="form-advice">
        {rows.fileName}: {preview.readAs}.{leftOut !== null && ` ${leftOut}`}
      </p>
      {preview.remarks.map((remark) => (
        <Notice key={remark} tone="information">
          {remark}
        </Notice>
      ))}
      {isAsking && <Questions preview={preview} rows={rows} />}
      {preview.calendar !== null && <CalendarChoices calendar={preview.calendar} onChoose={rows.chooseCalendar} />}
      {preview.columns.length > 0 && (
        <>
          <FormChoices preview={preview} onChoose={rows.chooseForm} />
          <ColumnTable
            columns={preview.columns}
            targets={preview.targets}
            onChoose={(choice) => rows.chooseColumns([choice])}
          />
        </>
      )}
      {!isAsking && (
        <>
          <p className="import-counts">{countWords(preview)}</p>
          <RowsFound preview={preview} />
        </>
      )}
    </>
  );
};

/** What is said before a file is chosen. */
const advice = (caseName: string): string =>
  `A table (CSV, or the sheet of a workbook) of flights, sorties or gauge readings, or a calendar of flights. Its headings are looked at, and you see what each column is taken for before anything is written. Flights and sorties go into the plan case ${caseName}; readings stand beside the books, or are booked, as you choose.`;

export const ImportDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const planCaseId = useApp((state) => state.planCaseId);
  const caseName = useApp((state) => state.current?.plan.planCase.name ?? "");
  const [asked, setAsked] = useState<RowKind | null>(null);
  const [isGoodOnly, setGoodOnly] = useState(false);
  const [isBooking, setBooking] = useState(false);
  const rows = useRowsImport(planCaseId ?? "");
  const { preview, run } = rows;
  const dropped = request.file ?? null;
  const lookAtDropped = useEffectEvent((file: RowsFile) => void rows.begin(file, null));
  const { setFault } = rows;
  useEffect(() => {
    if (dropped === null) return;
    void session.client.host.readHeld(dropped.token).then((reply) => {
      if (reply.ok) lookAtDropped(reply.value);
      else setFault(reply.failure.message);
    });
  }, [session, dropped, setFault]);
  if (planCaseId === null) return null;

  const pick = async (): Promise<void> => {
    const reply = await session.client.host.pickRows();
    if (!reply.ok) rows.setFault(reply.failure.message);
    else if (reply.value !== null) await rows.begin(reply.value, asked);
  };
  const take = async (): Promise<boolean> => {
    const taken = await rows.take(isGoodOnly, isBooking && preview?.kind === "readings");
    if (taken === null) return false;
    session.tell(
      "information",
      `${rows.fileName}: ${importedWords(taken)}.${taken.booking === null ? "" : ` ${taken.booking}`}`,
    );
    return true;
  };
  const changes = preview === null ? 0 : preview.newRows + preview.changedRows;
  const hasFaults = (preview?.faultCount ?? 0) > 0;
  const isTakeable = preview !== null && preview.questions.length === 0 && changes > 0 && (!hasFaults || isGoodOnly);
  return (
    <Dialog
      title="Import rows"
      width="broad"
      confirm={hasFaults && isGoodOnly ? "Import valid rows" : "Import all rows"}
      unable={firstOf(
        [run !== null, "The rows are being brought in."],
        [preview === null, "No rows are read yet."],
        [(preview?.questions.length ?? 0) > 0, "A question above is not answered."],
        [hasFaults && !isGoodOnly, "Some rows have errors: mend them, or import the valid rows alone."],
        [!isTakeable, "Nothing of the plan would change."],
      )}
      onConfirm={take}
      onClose={close}
      fault={rows.fault}
    >
      <div className="import-choose">
        <ChoiceField
          label="Rows of"
          value={rows.kind ?? asked}
          emptyWords="as the headings say"
          choices={kinds}
          onCommit={(kind) => {
            setAsked(kind);
            rows.chooseKind(kind);
          }}
        />
        {preview !== null && preview.sheets.length > 1 && (
          <ChoiceField
            label="Sheet"
            value={preview.sheet}
            choices={preview.sheets.map((name) => ({ id: name, name }))}
            onCommit={rows.chooseSheet}
          />
        )}
        <Button look={rows.fileName === null ? "primary" : "plain"} onPress={() => void pick()}>
          {rows.fileName === null ? "Choose a file…" : "Choose another…"}
        </Button>
      </div>
      {rows.fileName === null && <p className="form-advice">{advice(caseName)}</p>}
      <PasteField example={EXAMPLE} onTake={(text) => void rows.begin({ fileName: "pasted rows", text }, asked)} />
      {run !== null && <RunLine run={run} words={run.words} />}
      {preview !== null && <Found preview={preview} rows={rows} />}
      {preview?.kind === "readings" && preview.questions.length === 0 && changes > 0 && (
        <CheckField isOn={isBooking} onCommit={setBooking}>
          Book them: the books and the forecast follow each reading. Without it they stand beside the books and move
          nothing.
        </CheckField>
      )}
      {hasFaults && preview !== null && changes > 0 && (
        <CheckField isOn={isGoodOnly} onCommit={setGoodOnly}>
          Leave out the rows with errors and import the {formatNumber(changes)} valid ones that change something
        </CheckField>
      )}
    </Dialog>
  );
};
