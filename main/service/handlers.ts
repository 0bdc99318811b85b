/** All handlers in one table. An operation of the contract without a handler does not compile. */
import type { OperationName } from "../../app/contract/contract.ts";
import type { HandlersOf } from "./context.ts";
import { copiesHandlers } from "./handler/copies.ts";
import { exchangeHandlers } from "./handler/exchange.ts";
import { journalHandlers } from "./handler/journal.ts";
import { ledgerHandlers } from "./handler/ledger.ts";
import { lossesHandlers } from "./handler/losses.ts";
import { mergeHandlers } from "./handler/merge.ts";
import { planHandlers } from "./handler/plan.ts";
import { recordHandlers } from "./handler/record.ts";
import { reportHandlers } from "./handler/report.ts";
import { riskHandlers } from "./handler/risk.ts";
import { resupplyHandlers } from "./handler/resupply.ts";
import { resupplyRiskHandlers } from "./handler/resupply-risk.ts";
import { rowsHandlers } from "./handler/rows.ts";
import { serviceHandlers } from "./handler/service.ts";
import { studyHandlers } from "./handler/study.ts";
import { waysHandlers } from "./handler/ways.ts";
import { supplyHandlers } from "./handler/supply.ts";

export const handlers: HandlersOf<OperationName> = {
  ...serviceHandlers,
  ...ledgerHandlers,
  ...copiesHandlers,
  ...planHandlers,
  ...supplyHandlers,
  ...riskHandlers,
  ...waysHandlers,
  ...resupplyHandlers,
  ...resupplyRiskHandlers,
  ...recordHandlers,
  ...journalHandlers,
  ...lossesHandlers,
  ...exchangeHandlers,
  ...mergeHandlers,
  ...rowsHandlers,
  ...reportHandlers,
  ...studyHandlers,
};
