/** A ledger in and out as a document; rows of a plan in from CSV. */
import type { CsvPreview } from "../../../app/exchange/csv-preview.ts";
import { type CsvTaking, readCsv } from "../../../app/exchange/read-csv.ts";
import { parseDocument } from "../../../app/exchange/ledger-document.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import type { Input } from "../../../app/contract/contract.ts";
import type { Context, HandlersOf } from "../context.ts";
import { planStep } from "../step.ts";

const read = ({ kind, planCaseId, text }: Input<"csv.preview">, { session }: Context): CsvTaking => {
  const store = session.store();
  return readCsv(kind, text, store.entitiesOfCase(planCaseId), planCaseId, kind === "readings" ? store.readings() : []);
};

export const exchangeHandlers: HandlersOf<"ledger.export" | "ledger.import" | "csv.preview" | "csv.import"> = {
  "ledger.export": (_input, { session }) => session.store().document(),
  "ledger.import": ({ path, text }, { session, files }) => {
    const document = parseDocument(text);
    session.replace(() => files.fromDocument(path, document));
    return ledgerInfo(session.store());
  },
  "csv.preview": (input, context) => read(input, context).preview,
  "csv.import": ({ goodRowsOnly, ...input }, context): CsvPreview => {
    const { preview, changes, readings } = read(input, context);
    const isTaken = preview.goodRows > 0 && (preview.faults.length === 0 || goodRowsOnly);
    if (isTaken)
      context.session.store().commit({
        ...planStep(context, `Bring in ${preview.goodRows} rows of ${preview.kind}`, { changes }),
        readings,
      });
    return { ...preview, isTaken };
  },
};
