/** A ledger in and out as a document; rows of a plan in from CSV. */
import type { Input } from "../../../app/contract/contract.ts";
import type { CsvPreview } from "../../../app/exchange/csv-preview.ts";
import { type CsvReading, readCsv } from "../../../app/exchange/read-csv.ts";
import { parseDocument } from "../../../app/exchange/ledger-document.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import type { Context, HandlersOf } from "../context.ts";
import { planStep } from "../step.ts";

const read = (request: Input<"csv.import">, { session, environment }: Context): CsvReading => {
  const store = session.store();
  const entities = store.entitiesOfCase(request.planCaseId);
  return readCsv(request, { entities, readings: store.readings(), newId: () => environment.newId("row") });
};

export const exchangeHandlers: HandlersOf<"ledger.export" | "ledger.import" | "csv.preview" | "csv.import"> = {
  "ledger.export": (_input, { session }) => session.store().document(),
  "ledger.import": ({ path, text }, { session, files }) => {
    const document = parseDocument(text);
    session.replace(() => files.fromDocument(path, document));
    return ledgerInfo(session.store());
  },
  "csv.preview": (input, context) => ({ ...read({ ...input, goodRowsOnly: false }, context).preview, isTaken: false }),
  "csv.import": (request, context): CsvPreview => {
    const { preview, changes, readings } = read(request, context);
    if (preview.isTaken)
      context.session.store().commit({
        ...planStep(context, `Bring in ${preview.goodRows} rows of ${preview.kind}`, { changes }),
        readings,
      });
    return preview;
  },
};
