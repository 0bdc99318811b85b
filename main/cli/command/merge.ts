/** `merge`: the records of another ledger of the same programme, brought into this one. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import type { Choice } from "../../../app/merge/merge-choices.ts";
import type { MergeView } from "../../../app/merge/merge-view.ts";
import { argument, type CliCommand, type CommandHost, ledgerPath, optionText, STREAM } from "../cli-command.ts";
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

const look = async (host: CommandHost, path: string, choice: Choice | null) => {
  const open = await host.ask("merge.preview", { path, decisions: [], takeCases: [] });
  const decisions = decided(open, choice);
  const view = decisions.length === 0 ? open : await host.ask("merge.preview", { path, decisions, takeCases: [] });
  return { view, decisions };
};

/** The service reads the other side from a file: what was piped in becomes one for as long. */
const withPiped = async <T>(bytes: Buffer, use: (path: string) => Promise<T>): Promise<T> => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-merge-"));
  try {
    const path = join(folder, "standard-input.json");
    writeFileSync(path, bytes, { mode: 0o600 });
    return await use(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const mergeFrom = async (
  host: CommandHost,
  ledger: string,
  path: string,
  options: Readonly<Record<string, unknown>>,
) => {
  const choice = choiceOf(optionText(options, "conflicts"));
  await host.ask("ledger.open", { path: ledger });
  const { view, decisions } = await look(host, path, choice);
  const { outcome, fingerprint } = view;
  const holds = view.undecided.length === 0 && outcome.blocked.length === 0;
  const isWritten = holds && !outcome.isNothing && options["dryRun"] !== true;
  if (isWritten) await host.ask("merge.take", { path, decisions, takeCases: [], fingerprint });
  const state = isWritten ? "written" : outcome.isNothing && holds ? "nothing to do" : "not written";
  return { holds, json: { ...view, isWritten }, text: mergeText(view, state) };
};

export const mergeCommand = {
  name: "merge",
  summary: "Bring the records of another site's copy of a ledger in; exit status 1 while conflicts are not decided",
  examples: [
    { line: "merge tarn.coldstock copy.coldstock --dry-run", does: "say what the other site's copy would bring" },
    { line: "merge tarn.coldstock copy.coldstock", does: "and bring it in" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger that takes the records")
      .argument(
        "<other>",
        "the other ledger, or a document exported from it (.json); it is only read; -: a document from the standard input",
      )
      .option("--conflicts <side>", "decide all conflicts alike: ours or theirs")
      .option("--dry-run", "say what would be written, and write nothing");
  },
  act: async (host, given, options) => {
    const name = argument(given, 1);
    if (name === STREAM)
      return await withPiped(host.input(), (path) => mergeFrom(host, ledgerPath(given), path, options));
    return await mergeFrom(host, ledgerPath(given), resolve(name), options);
  },
} satisfies CliCommand;
