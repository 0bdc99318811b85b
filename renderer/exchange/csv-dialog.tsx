/** Rows from a CSV file: what would come in, what is wrong and where, then all rows or the good ones only. */
import { useEffect, useEffectEvent, useRef, useState } from "react";
import type { CsvFault, CsvPreview } from "../../app/exchange/csv-preview.ts";
import type { DialogProps } from "../dialogs.ts";
import { formatNumber } from "../format/number.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { Button } from "../widgets/button.tsx";
import { CheckField } from "../widgets/check-field.tsx";
import { ChoiceField } from "../widgets/choice-field.tsx";
import type { Column } from "../widgets/data-table/column.ts";
import { DataTable } from "../widgets/data-table/data-table.tsx";
import { Dialog } from "../widgets/dialog.tsx";
import { Progress } from "../widgets/progress.tsx";
import { PasteField } from "./paste-field.tsx";
import "./exchange.css";

type CsvKind = CsvPreview["kind"];

const kinds = [
  { id: "flights", name: "flights" },
  { id: "sorties", name: "sorties" },
  { id: "readings", name: "gauge readings" },
] as const;

/** What a table of each kind looks like. */
const examples: { readonly [K in CsvKind]: string } = {
  flights: "name\tcraft\tfrom\tto\tarrives\thydrogen kg",
  sorties: "name\tcampaign\tlander\tdepot\tloads\thydrogen load kg",
  readings: "tank\tat\tkg\tsigma kg\nTarn hydrogen\t2031-02-20 12:00\t10200\t50",
};

const faultColumns: readonly Column<CsvFault>[] = [
  { id: "line", heading: "Line", isNumber: true, value: ({ line }) => line },
  { id: "column", heading: "Column", value: ({ column }) => column ?? "the row" },
  { id: "reason", heading: "What is wrong", isWide: true, value: ({ reason }) => reason },
];

const columnsOf: Readonly<Record<CsvKind, string>> = {
  flights:
    "name, craft, from, to, arrives; at will departs, berth days, “hydrogen kg” and so on, overflow, status, key, note",
  sorties:
    "name, campaign, lander, depot, loads; at will returns, “hydrogen load kg”, “hydrogen return kg” and so on, status, key, note",
  readings: "tank, at, kg or %, sigma kg; at will depot, note",
};

interface ChosenFile {
  readonly fileName: string;
  readonly text: string;
}

/** A long import that can be stopped, and how far it has come. */
const useImport = () => {
  const session = useSession();
  const [share, setShare] = useState<number | null>(null);
  const [isRunning, setRunning] = useState(false);
  const stop = useRef<() => void>(() => undefined);
  const jobId = useRef<string | null>(null);
  useEffect(
    () =>
      session.client.on("progress", (progress) => {
        if (progress.jobId === jobId.current) setShare(progress.share);
      }),
    [session],
  );
  const run = async (input: { kind: CsvKind; planCaseId: string; text: string; goodRowsOnly: boolean }) => {
    const job = session.client.begin("csv.import", input);
    jobId.current = job.jobId;
    stop.current = job.stop;
    setRunning(true);
    const reply = await job.reply;
    setRunning(false);
    if (reply.ok) await session.refresh();
    return reply;
  };
  return { run, share, isRunning, stop: () => stop.current() };
};

export const CsvDialog = ({ request, close }: DialogProps) => {
  const session = useSession();
  const planCaseId = useApp((state) => state.planCaseId);
  const caseName = useApp((state) => state.current?.plan.planCase.name ?? "");
  const [kind, setKind] = useState<CsvKind>("flights");
  const [file, setFile] = useState<ChosenFile | null>(null);
  const [preview, setPreview] = useState<CsvPreview | null>(null);
  const [isGoodOnly, setGoodOnly] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const importing = useImport();

  const look = async (chosenKind: CsvKind, chosen: ChosenFile): Promise<void> => {
    setPreview(null);
    setFault(null);
    if (planCaseId === null) return;
    const reply = await session.client.call("csv.preview", { kind: chosenKind, planCaseId, text: chosen.text });
    if (reply.ok) setPreview(reply.value);
    else setFault(reply.failure.message);
  };
  const pick = async (): Promise<void> => {
    const reply = await session.client.host.pickText("csv");
    if (!reply.ok) return setFault(reply.failure.message);
    if (reply.value === null) return;
    setFile(reply.value);
    await look(kind, reply.value);
  };
  const dropped = request.file ?? null;
  const lookAtDropped = useEffectEvent((given: ChosenFile) => {
    setFile(given);
    void look(kind, given);
  });
  useEffect(() => {
    if (dropped === null) return;
    void session.client.host.readHeld(dropped.token).then((reply) => {
      if (reply.ok) lookAtDropped(reply.value);
      else setFault(reply.failure.message);
    });
  }, [session, dropped]);
  if (planCaseId === null) return null;
  const take = async (): Promise<boolean> => {
    if (file === null) return false;
    const reply = await importing.run({ kind, planCaseId, text: file.text, goodRowsOnly: isGoodOnly });
    if (!reply.ok) {
      setFault(reply.failure.message);
      return false;
    }
    if (!reply.value.isTaken) {
      setPreview(reply.value);
      setFault("Nothing was taken: not every row is good.");
      return false;
    }
    session.tell("information", `${formatNumber(reply.value.goodRows)} rows of ${file.fileName} were taken in.`);
    return true;
  };
  const hasFaults = (preview?.faults.length ?? 0) > 0;
  const isTakeable = preview !== null && preview.goodRows > 0 && (!hasFaults || isGoodOnly);
  return (
    <Dialog
      title="Import rows (CSV)"
      width="wide"
      confirm={hasFaults && isGoodOnly ? "Take the good rows" : "Take all rows"}
      isConfirmDisabled={!isTakeable || importing.isRunning}
      onConfirm={take}
      onClose={close}
      fault={fault}
    >
      <div className="csv-choose">
        <ChoiceField
          label="Rows of"
          value={kind}
          choices={kinds}
          onCommit={(chosen) => {
            setKind(chosen);
            if (file !== null) void look(chosen, file);
          }}
        />
        <Button look={file === null ? "primary" : "plain"} onPress={() => void pick()}>
          {file === null ? "Choose a file…" : "Choose another…"}
        </Button>
      </div>
      <PasteField
        example={examples[kind]}
        onTake={(text) => {
          const pasted = { fileName: "pasted rows", text };
          setFile(pasted);
          void look(kind, pasted);
        }}
      />
      <p className="form-advice">
        {file === null
          ? `The first line names the columns: ${columnsOf[kind]}. ${kind === "readings" ? "The readings are kept beside the books." : `The rows go into the plan case ${caseName}.`}`
          : `${file.fileName}: ${preview === null ? "reading…" : summary(preview)}`}
      </p>
      {importing.isRunning && <Progress label="Taking the rows in" share={importing.share} onStop={importing.stop} />}
      {preview !== null && hasFaults && (
        <>
          <DataTable
            caption={`${formatNumber(preview.faults.length)} ${preview.faults.length === 1 ? "fault" : "faults"}`}
            columns={faultColumns}
            rows={preview.faults}
            rowId={({ line, column, reason }) => `${line}/${column ?? ""}/${reason}`}
            empty="No fault."
          />
          <CheckField isOn={isGoodOnly} onCommit={setGoodOnly}>
            Leave the bad rows out and take the {formatNumber(preview.goodRows)} good ones
          </CheckField>
        </>
      )}
      {preview !== null && preview.effects.length > 0 && (
        <section aria-label="What would come in">
          <h2 className="csv-heading">What would come in</h2>
          <ul className="sentence-list csv-effects">
            {preview.effects.map((effect) => (
              <li key={effect}>{effect}</li>
            ))}
          </ul>
          {preview.goodRows > preview.effects.length && (
            <p className="form-advice">and {formatNumber(preview.goodRows - preview.effects.length)} more.</p>
          )}
        </section>
      )}
    </Dialog>
  );
};

const summary = ({ rows, goodRows }: CsvPreview): string => {
  if (rows === 0) return "it has no rows.";
  return goodRows === rows
    ? `all ${formatNumber(rows)} rows are good.`
    : `${formatNumber(goodRows)} of ${formatNumber(rows)} rows are good.`;
};
