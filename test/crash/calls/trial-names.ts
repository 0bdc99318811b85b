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
] as const;
export type TrialName = (typeof trialNames)[number];
