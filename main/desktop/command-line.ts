/** The command line inside the packaged program: `coldstock check tarn.coldstock`. It opens no window and needs no screen. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { outsideArchive } from "./outside-archive.ts";

/** What the command line is asked with, by its first word. The commands themselves are loaded only then. */
export const COMMAND_NAMES: ReadonlySet<string> = new Set(
  "as-of check completion copies demo export help import issues losses merge plant report restore risk schedule schema sortie storage study verify views ways windows".split(
    " ",
  ),
);
const FORMER = "cli";

/** The words of a command, where the first word given is one (or "cli" before it); switches of Electron's own may stand before it. */
export const commandWords = (argv: readonly string[], isPackaged: boolean): readonly string[] | null => {
  // A runtime that is not the program itself is told first where the program is.
  const isCommand = (word: string | undefined): boolean =>
    word !== undefined && (word === FORMER || COMMAND_NAMES.has(word));
  const first = isPackaged || isCommand(argv[1]) ? 1 : 2;
  const wordIndex = argv.findIndex((word, index) => index >= first && !word.startsWith("-"));
  if (!isCommand(argv[wordIndex])) return null;
  return argv.slice(argv[wordIndex] === FORMER ? wordIndex + 1 : wordIndex);
};

/** `program`: the built command line; `node`: where one is named (`service-node.ts`), it runs there. Answers the exit status. */
export const runCommand = async (program: string, node: string | null, words: readonly string[]): Promise<number> => {
  if (node === null) {
    const { runCommandLine } = await import("../cli/run.ts");
    const { processTerminal } = await import("../cli/process-terminal.ts");
    return await runCommandLine(words, processTerminal());
  }
  const child = spawn(node, [outsideArchive(program), ...words], { stdio: "inherit" });
  const [status] = (await once(child, "exit")) as [number | null];
  return status ?? 1;
};
