/** The command line inside the packaged program: `coldstock cli check tarn.coldstock`. It opens no window and needs no screen. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { outsideArchive } from "./outside-archive.ts";

/** The words after "cli", where that is the first word given; switches of Electron's own may stand before it. */
export const commandWords = (argv: readonly string[], isPackaged: boolean): readonly string[] | null => {
  // A runtime that is not the program itself is told first where the program is.
  const first = isPackaged || argv[1] === "cli" ? 1 : 2;
  const place = argv.findIndex((word, index) => index >= first && !word.startsWith("-"));
  return argv[place] === "cli" ? argv.slice(place + 1) : null;
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
