/** Makes the finished report from its inputs, with their hash. */
import { createHash } from "node:crypto";
import type { ReportInputs } from "../../app/report/context.ts";
import { finishReport, hashedInputs } from "../../app/report/finish.ts";
import type { FinishedReport } from "../../app/report/finished.ts";

/** Throws "invalid input" for a section that does not exist. */
export const makeReport = (inputs: ReportInputs): FinishedReport =>
  finishReport(inputs, createHash("sha256").update(hashedInputs(inputs)).digest("hex"));
