/** Files, exports and dependencies that nothing uses (knip, settings in package.json). */
import type { Gate, Look } from "../gate.ts";
import { linesOf, root, runTool } from "../program.ts";
import { fixtureFolder } from "../source-files.ts";

const look = async (folder: string): Promise<Look> => {
  const reporter = `${root}/test/check/knip-reporter.js`;
  const { status, text } = await runTool(
    "knip",
    ["--no-progress", "--directory", folder, "--reporter", reporter, "--reporter", "compact"],
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

export const deadCodeGate: Gate = {
  name: "dead code",
  fix: "take out what nothing uses (npx knip shows it)",
  look: () => look(root),
  bites: [
    {
      name: "dead-code",
      look: () => look(fixtureFolder("dead-code")),
      mustFind: [/orphan\.ts/, /nobodyCallsThis/, /left-out-package/],
    },
  ],
};
