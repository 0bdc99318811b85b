/** Prints the page by the system's own dialog. */
import type { WebContents } from "electron";
import { PlanningError } from "../../app/ground/failure.ts";

/** What Electron says when the person closed the dialog. */
const CLOSED = /cancel/i;

/** Whether it was printed; false: the person closed the dialog. Rejects with "refused" where the system cannot print. */
export const printPage = async (contents: Pick<WebContents, "print">): Promise<boolean> =>
  await new Promise((resolve, reject) => {
    contents.print({ printBackground: true }, (isPrinted, because) => {
      if (isPrinted || CLOSED.test(because)) resolve(isPrinted);
      else
        reject(
          new PlanningError(
            "refused",
            `The page could not be printed (${because}). Check the printer, or save the report as PDF and print that.`,
          ),
        );
    });
  });
