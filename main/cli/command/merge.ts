/** `merge`: the records of another ledger of the same programme, brought into this one. */
import { resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Choice } from "../../../app/merge/merge-choices.ts";
import type { MergeView } from "../../../app/merge/merge-view.ts";
import { argument, type CliCommand, type Desk, optionText } from "../cli-command.ts";
import { mergeText } from "../merge-text.ts";

const choices: Readonly<Record<string, Choice>> = { ours: "keep ours", theirs: "take theirs" };

const choiceOf = (text: string | undefined): Choice | null => {
  if (text === undefined) return null;
  const choice = Object.hasOwn(choices, text) ? choices[text] : undefined;
  if (choice === undefined)
    throw new PlanningError("invalid input", "Conflicts are decided for ours or theirs.", "--conflicts");
  return choice;
};

const decided = (view: MergeView, choice: Choice | null) =>
  choice === null ? [] : view.conflicts.map(({ id: conflictId }) => ({ conflictId, choice }));

const look = async (desk: Desk, path: string, choice: Choice | null) => {
  const open = await desk.ask("merge.preview", { path, decisions: [], takeCases: [] });
  const decisions = decided(open, choice);
  const view = decisions.length === 0 ? open : await desk.ask("merge.preview", { path, decisions, takeCases: [] });
  return { view, decisions };
};

export const mergeCommand: CliCommand = {
  name: "merge",
  summary: "Bring the records of another desk's copy of a ledger in; exit status 1 while conflicts are not decided",
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger that takes the records")
      .argument("<other>", "the other ledger, or a document exported from it (.json); it is only read")
      .option("--conflicts <side>", "decide all conflicts alike: ours or theirs")
      .option("--dry-run", "say what would be written, and write nothing");
  },
  act: async (desk, given, options) => {
    const choice = choiceOf(optionText(options, "conflicts"));
    const path = resolve(argument(given, 1));
    await desk.ask("ledger.open", { path: resolve(argument(given, 0)) });
    const { view, decisions } = await look(desk, path, choice);
    const { outcome, fingerprint } = view;
    const holds = view.undecided.length === 0 && outcome.blocked.length === 0;
    const isWritten = holds && !outcome.isNothing && options["dryRun"] !== true;
    if (isWritten) await desk.ask("merge.take", { path, decisions, takeCases: [], fingerprint });
    const state = isWritten ? "written" : outcome.isNothing && holds ? "nothing to do" : "not written";
    return { holds, json: { ...view, isWritten }, text: mergeText(view, state) };
  },
};
