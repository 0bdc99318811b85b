/** A report of a plan case, as a file. */
import { writeReport } from "../../report/write-report.ts";
import type { HandlersOf } from "../context.ts";

export const reportHandlers: HandlersOf<"report.write"> = {
  "report.write": (asked, { environment, session, progress, signal }) =>
    writeReport(session.store(), asked, {
      author: environment.author(),
      issuedAt: environment.now(),
      onPart: (share) => {
        signal.throwIfAborted();
        progress(share, "writing the report");
      },
    }),
};
