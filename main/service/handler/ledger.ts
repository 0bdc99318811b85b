/** The ledger file: opening, making, checking, and where the forecast starts. */
import type { OperationName } from "../../../app/contract/contract.ts";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { ledgerInfo } from "../../../app/ledger/plan-view.ts";
import { formatMinute } from "../../../app/format/time.ts";
import type { LedgerStore } from "../../../app/contract/store.ts";
import type { Context, HandlersOf } from "../context.ts";
import { withoutRecords } from "../../../app/demo/without-records.ts";
import { demonstrations } from "../demonstrations.ts";
import { commitStep, planStep } from "../step.ts";

const show = ({ ledger }: Context, open: () => LedgerStore): LedgerInfo => ledger.replace(open, ledgerInfo);

const showNew = ({ ledger, files }: Context, path: string, make: () => LedgerStore): LedgerInfo =>
  ledger.replaceWithNew(make, ledgerInfo, () => files.takeAway(path));

type LedgerOperation = Exclude<Extract<OperationName, `ledger.${string}`>, "ledger.import" | "ledger.export">;

export const ledgerHandlers: HandlersOf<LedgerOperation> = {
  "ledger.info": (_input, { ledger }) => ledgerInfo(ledger.store()),
  "ledger.open": ({ path }, context) => {
    // A second opening would find the file held, by ourselves.
    if (context.ledger.isOpen(path)) return ledgerInfo(context.ledger.store());
    return show(context, () => context.files.open(path));
  },
  "ledger.create": ({ path, programme, copyOf }, context) =>
    showNew(context, path, () =>
      copyOf === undefined
        ? context.files.create(path, programme)
        : context.files.fromDocument(path, withoutRecords(demonstrations[copyOf](), programme)),
    ),
  "ledger.demo": ({ path, which }, context) =>
    showNew(context, path, () => context.files.fromDocument(path, demonstrations[which]())),
  "ledger.copy": ({ path }, { ledger }) => {
    ledger.store().copyTo(path);
    return { written: path };
  },
  "ledger.verify": (_input, { ledger }) => ledger.store().verify(),
  "ledger.books": ({ digest }, { ledger }) => ledger.store().booksOf(digest),
  "ledger.asOf": ({ asOfAt }, context) => {
    const label = asOfAt === null ? "As-of date: the last record" : `As-of date: ${formatMinute(asOfAt)}`;
    return commitStep(context, planStep(context, label, { asOfAt }));
  },
};
