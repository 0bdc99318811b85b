/** app has no clock, no random source and no console: time and chance come in as arguments. */
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, isScript, projectFiles } from "../source-files.ts";
import { impurities } from "../syntax.ts";

const lookAt = (files: readonly SourceFile[]): Look => {
  const scripts = files.filter((file) => isScript(file.path) && file.path.startsWith("app/"));
  return {
    files: scripts.length,
    faults: scripts.flatMap((file) =>
      impurities(file).map(({ what, line }) => `${file.path}:${line}: app may not use ${what}`),
    ),
  };
};

export const purityGate: Gate = {
  name: "purity of app",
  fix: "take the instant or the random stream as an argument",
  look: async () => lookAt(projectFiles()),
  bites: [
    {
      name: "purity",
      look: async () => lookAt(fixtureFiles("purity")),
      mustFind: [/:3:.*Date\.now/, /:4:.*new Date\(\)/, /:5:.*Math\.random/, /:6:.*console\.log/, /:7:.*Date\(\)/],
    },
  ],
};
