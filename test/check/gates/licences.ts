/** Every package that the program is made of has a licence under which it may be handed out. */
import { isAllowedLicence, productionPackages } from "../../../main/notices/production-packages.ts";
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, projectFiles } from "../source-files.ts";

const lookAt = (files: readonly SourceFile[]): Look => {
  const lock = files.find(({ path }) => path === "package-lock.json");
  const packages = lock === undefined ? [] : productionPackages(lock.text);
  return {
    files: packages.length,
    faults: packages
      .filter(({ licence }) => !isAllowedLicence(licence))
      .map(({ name, version, licence }) => `${name} ${version}: ${licence === "" ? "states no licence" : licence}`),
  };
};

export const licenceGate: Gate = {
  name: "licences",
  fix: "take another package, or add the licence to main/notices/production-packages.ts after reading it",
  look: async () => lookAt(projectFiles()),
  bites: [
    {
      name: "licences",
      look: async () => lookAt(fixtureFiles("licences")),
      mustFind: [
        /^closed 1\.0\.0: UNLICENSED$/,
        /^silent 1\.0\.0: states no licence$/,
        /^both 1\.0\.0: MIT AND GPL-3\.0/,
        /^inner 2\.0\.0: AGPL/,
      ],
    },
  ],
};
