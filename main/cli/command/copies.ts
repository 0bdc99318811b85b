/** `copies` and `restore`: the copies that are kept of a ledger, and going back to one. */
import { existsSync } from "node:fs";
import { basename } from "node:path";
import { PlanningError } from "../../../app/ground/failure.ts";
import { KEPT_FIRST, copyTitle, goingBackSentences, sinceSentence } from "../../../app/copies/go-back-words.ts";
import type { GoingBack, KeptCopy } from "../../../app/copies/kept-copy.ts";
import { formatMinute } from "../../../app/format/time.ts";
import { argument, type CliCommand, type CommandHost, ledgerPath, optionText } from "../cli-command.ts";
import { type TextColumn, textTable } from "../text-table.ts";

const columns: readonly TextColumn[] = [
  { title: "Copy", align: "start" },
  { title: "Made, UTC", align: "start" },
  { title: "kB", align: "end" },
];

export const copiesCommand = {
  name: "copies",
  summary:
    "List the copies that are kept of a ledger: one of each day on which it was changed, and states that were named",
  examples: [
    { line: "copies tarn.coldstock --keep Before", does: "keep it as it is under a name" },
    { line: "copies tarn.coldstock", does: "list what is kept" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file; it need not be there any more")
      .option("--keep <name>", "first keep the ledger as it is under this name");
  },
  act: async (host, given, options) => {
    const path = ledgerPath(given);
    const name = optionText(options, "keep");
    if (name !== undefined) {
      await host.ask("ledger.open", { path });
      await host.ask("copies.keep", { name });
    }
    const kept = await host.ask("copies.of", { path });
    const rows = kept.copies.map((copy) => [
      copyTitle(copy),
      formatMinute(copy.at),
      String(Math.ceil(copy.bytes / 1000)),
    ]);
    return {
      holds: true,
      json: kept,
      text:
        rows.length === 0
          ? `No copies are kept of ${basename(path)}. They would lie in ${kept.folder}.`
          : `${textTable(columns, rows)}\nThey lie in ${kept.folder}.`,
    };
  },
} satisfies CliCommand;

/** By the date of a day, the name of a state, or the name of the file. */
const chosen = (copies: readonly KeptCopy[], asked: string): KeptCopy => {
  const fitting = copies.filter((copy) => [copy.id, copy.name, copyTitle(copy)].includes(asked));
  const [copy] = fitting;
  if (copy === undefined)
    throw new PlanningError(
      "not found",
      `There is no copy “${asked}”. ${copies.length === 0 ? "None is kept." : `There are: ${copies.map(copyTitle).join(", ")}.`}`,
      "copy",
    );
  if (fitting.length > 1)
    throw new PlanningError(
      "invalid input",
      `More than one state is called “${asked}”. Name the file: ${fitting.map(({ id }) => id).join(", ")}.`,
      "copy",
    );
  return copy;
};

/** null: the ledger cannot be opened; its reason is what is said. */
const lookAt = async (host: CommandHost, path: string, copyId: string): Promise<GoingBack | string> => {
  try {
    if (!existsSync(path)) return "There is no such file.";
    await host.ask("ledger.open", { path });
  } catch (error) {
    if (error instanceof PlanningError && ["not a ledger", "storage"].includes(error.code)) return error.message;
    throw error;
  }
  return await host.ask("copies.look", { copyId });
};

export const restoreCommand = {
  name: "restore",
  summary: "Say what going back to a kept copy would change; with --replace, go back",
  examples: [
    { line: "restore tarn.coldstock Before", does: "say what going back would change" },
    { line: "restore tarn.coldstock Before --replace", does: "go back" },
  ],
  declare: (command) => {
    command
      .argument("<ledger>", "path of the ledger file")
      .argument("<copy>", "the date of a day (2031-02-20) or the name of a state, as `copies` lists them")
      .option("--replace", "go back; the ledger as it is is kept first");
  },
  act: async (host, given, options) => {
    const path = ledgerPath(given);
    const { copies } = await host.ask("copies.of", { path });
    const copy = chosen(copies, argument(given, 1));
    const view = await lookAt(host, path, copy.id);
    const isDone = options["replace"] === true;
    const title = copyTitle(copy);
    if (typeof view === "string") {
      if (isDone) await host.ask("copies.putBack", { path, copyId: copy.id });
      return {
        holds: isDone,
        json: { copy, cannotOpenBecause: view, isDone },
        text: isDone
          ? `${basename(path)} is ${title} again. What stood there is kept beside it, with the ending .put-aside.`
          : `${basename(path)} cannot be opened (${view}) With --replace, ${title} is put in its place, and what stands there is kept beside it.`,
      };
    }
    if (isDone) await host.ask("copies.goBack", { copyId: copy.id, revision: view.revision });
    const sentences = goingBackSentences(view).map((line) => `  ${line}`);
    const words = view.cases.flatMap((one) => one.words.map((line) => `    ${one.name}: ${line}`));
    return {
      holds: isDone || view.isNothing,
      json: { ...view, isDone },
      text: [
        isDone ? `${basename(path)} is ${title} again.` : `Going back to ${title}:`,
        sinceSentence(view),
        ...sentences,
        ...words,
        ...(isDone || view.isNothing ? [] : [`Nothing was changed. With --replace it is. ${KEPT_FIRST}`]),
      ].join("\n"),
    };
  },
} satisfies CliCommand;
