/** The names of what is tried with failing calls (`trials.ts`), apart: the test needs no more of them. */
export const trialNames = [
  "first edit of an opening",
  "edit of the plan",
  "journal entry",
  "undo",
  "redo",
  "import",
  "new ledger",
  "save a copy",
  "merge",
  "report, new",
  "report, in the place of another",
  "keep a state",
  "go back",
  "open an older form",
  "upload",
] as const;
/** A ledger of an older form, beside the one that the trials copy. */
export const OLDER = "older-form.coldstock";
/** Done without the service, whose threads could not stand that plain writing fails, too. */
export const plainlyWritten: readonly string[] = ["report, new", "report, in the place of another", "upload"];
/** What reads a whole ledger, or makes one, before it comes to act: of these the reading does not fail. */
export const readsMuch: readonly string[] = [...plainlyWritten, "import", "new ledger", "go back"];
export type TrialName = (typeof trialNames)[number];
