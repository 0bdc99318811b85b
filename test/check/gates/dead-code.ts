/**
 * Files, exports and dependencies that nothing uses (knip, settings in package.json); and files and exports of the program
 * that nothing but tests uses (settings in knip-program.json, which names no test).
 */
import type { Gate, Look } from "../gate.ts";
import { linesOf, root, runTool } from "../program.ts";
import { fixtureFolder } from "../source-files.ts";

const look = async (folder: string, further: readonly string[] = []): Promise<Look> => {
  const reporter = `${root}/test/check/knip-reporter.js`;
  const { status, text } = await runTool(
    "knip",
    ["--no-progress", "--directory", folder, "--reporter", reporter, "--reporter", "compact", ...further],
    folder,
  );
  const lines = linesOf(text);
  const counted = lines.map((line) => /^looked at (\d+) files$/.exec(line)?.[1]).find((count) => count !== undefined);
  const faults = lines.filter((line) => !line.startsWith("looked at "));
  return {
    files: Number(counted ?? 0),
    faults: status === 0 ? [] : faults.length > 0 ? faults : [`knip ended with ${status}`],
  };
};

/** The program without its tests, by settings that lie in the folder. */
const lookAtProgram = async (folder: string, config: string): Promise<Look> => {
  const { files, faults } = await look(folder, ["--config", config, "--include", "files,exports,types"]);
  return { files, faults: faults.map((fault) => `${fault} (by tests alone)`) };
};

export const deadCodeGate: Gate = {
  name: "dead code",
  fix: "take out what nothing uses (npx knip shows it), or what tests alone use (npx knip --config test/check/knip-program.json)",
  look: async () => {
    const [all, program] = [await look(root), await lookAtProgram(root, "test/check/knip-program.json")];
    return { files: Math.min(all.files, program.files), faults: [...all.faults, ...program.faults] };
  },
  bites: [
    {
      name: "dead-code",
      look: () => look(fixtureFolder("dead-code")),
      mustFind: [/orphan\.ts/, /nobodyCallsThis/, /left-out-package/],
    },
    {
      name: "what tests alone use",
      look: () => lookAtProgram(fixtureFolder("dead-code"), "knip-program.json"),
      mustFind: [/onlyATestCallsThis.* \(by tests alone\)/],
    },
  ],
};
