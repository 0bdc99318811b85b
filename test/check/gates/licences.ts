/** Every package that the program is made of has a licence under which it may be handed out, and they are not many. */
import { isAllowedLicence, productionPackages } from "../../../main/notices/production-packages.ts";
import type { Gate, Look } from "../gate.ts";
import { type SourceFile, fixtureFiles, projectFiles } from "../source-files.ts";

/** Each one more is somebody else who can change what the program does. */
const MAX_PACKAGES = 100;

const tooMany = (count: number, most: number): readonly string[] =>
  count > most ? [`the program is made of ${count} packages; ${most} are the most`] : [];

const lookAt = (files: readonly SourceFile[], most: number): Look => {
  const lock = files.find(({ path }) => path === "package-lock.json");
  const packages = lock === undefined ? [] : productionPackages(lock.text);
  return {
    files: packages.length,
    faults: [
      ...tooMany(packages.length, most),
      ...packages
        .filter(({ licence }) => !isAllowedLicence(licence))
        .map(({ name, version, licence }) => `${name} ${version}: ${licence === "" ? "states no licence" : licence}`),
    ],
  };
};

export const licenceGate: Gate = {
  name: "licences",
  fix: "take another package or fewer, or add the licence to main/notices/production-packages.ts after reading it",
  look: async () => lookAt(projectFiles(), MAX_PACKAGES),
  bites: [
    {
      name: "licences",
      look: async () => lookAt(fixtureFiles("licences"), 3),
      mustFind: [
        /^the program is made of \d+ packages; 3 are the most$/,
        /^closed 1\.0\.0: UNLICENSED$/,
        /^silent 1\.0\.0: states no licence$/,
        /^both 1\.0\.0: MIT AND GPL-3\.0/,
        /^inner 2\.0\.0: AGPL/,
      ],
    },
  ],
};
