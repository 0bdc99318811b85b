/** A report of a plan case, as a file. */
import type { HandlersOf } from "../context.ts";

export const reportHandlers: HandlersOf<"report.write"> = {
  "report.write": async (asked, { environment, session, progress, signal }) => {
    const store = session.store();
    // The writers of PDF and workbooks take longer to load than all the rest: not before they are asked for.
    const { writeReport } = await import("../../report/write-report.ts");
    return await writeReport(store, asked, {
      author: environment.author(),
      issuedAt: environment.now(),
      onPart: (share) => {
        signal.throwIfAborted();
        progress(share, "writing the report");
      },
    });
  },
};
