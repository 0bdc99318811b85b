/** Flights, sorties or readings as a file that an import takes back without a change. */
import { useState } from "react";
import { strictCsv } from "../../app/format/csv-form.ts";
import type { RowKind } from "../../app/ledger/column-mapping.ts";
import type { DialogProps } from "../widgets/dialog-props.ts";
import { useApp, useSession } from "../state/use-session.ts";
import { ChoiceField } from "../widgets/choice-field.tsx";
import { CsvFields } from "../widgets/csv-fields.tsx";
import { Dialog } from "../widgets/dialog.tsx";

const kinds = [
  { id: "flights", name: "flights" },
  { id: "sorties", name: "sorties" },
  { id: "readings", name: "gauge readings" },
] as const;
const formats = [
  { id: "csv", name: "CSV", note: "text" },
  { id: "xlsx", name: "workbook", note: "real dates and figures" },
] as const;
type Format = (typeof formats)[number]["id"];

const mediaTypes = {
  csv: "text/csv",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
} as const;

export const ExportRowsDialog = ({ close }: DialogProps) => {
  const session = useSession();
  const planCaseId = useApp((state) => state.planCaseId);
  const caseName = useApp((state) => state.current?.plan.planCase.name ?? "");
  const [kind, setKind] = useState<RowKind>("flights");
  const [format, setFormat] = useState<Format>("csv");
  const [csv, setCsv] = useState(strictCsv);
  const [fault, setFault] = useState<string | null>(null);
  if (planCaseId === null) return null;
  const write = async (): Promise<boolean> => {
    const made = await session.client.call("rows.export", { kind, planCaseId, format, csv });
    const saved = made.ok
      ? await session.client.host.saveFile(made.value.fileName, mediaTypes[format], made.value.base64)
      : made;
    if (!saved.ok) {
      setFault(saved.failure.message);
      return false;
    }
    if (saved.value !== null) session.tell("information", `The rows were written to ${saved.value}.`);
    return saved.value !== null;
  };
  return (
    <Dialog title="Export rows" width="narrow" confirm="Write the file" onConfirm={write} onClose={close} fault={fault}>
      <ChoiceField label="Rows of" value={kind} choices={kinds} onCommit={setKind} />
      <ChoiceField label="As" value={format} choices={formats} onCommit={setFormat} />
      {format === "csv" && <CsvFields value={csv} onCommit={setCsv} />}
      <p className="form-advice">
        {kind === "readings"
          ? "The gauge readings that are in force."
          : `The ${kind} of the plan case ${caseName}, with every column. `}
        Importing the same file again changes nothing.
      </p>
    </Dialog>
  );
};
