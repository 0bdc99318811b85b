/** A ledger in and out as a document; rows of a plan in from CSV. */
import { PlanningError } from "../../../app/contract/failure.ts";
import type { HandlersOf } from "../context.ts";

const notYet = (): never => {
  throw new PlanningError("refused", "Reading this kind of file is not part of this build.");
};

export const exchangeHandlers: HandlersOf<"ledger.export" | "ledger.import" | "csv.preview" | "csv.import"> = {
  "ledger.export": (_input, { session }) => session.store().document(),
  "ledger.import": notYet,
  "csv.preview": notYet,
  "csv.import": notYet,
};
