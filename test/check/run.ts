/**
 * `npm run check [-- word …]`: every gate over the project, and every gate over a fixture that must fail, so that a gate
 * that has gone blind is seen. Says how many files each looked at, and how to mend what it found.
 */
import type { Bite, Gate } from "./gate.ts";
import { arrowGate } from "./gates/arrows.ts";
import { deadCodeGate } from "./gates/dead-code.ts";
import { houseGate } from "./gates/house.ts";
import { licenceGate } from "./gates/licences.ts";
import { floorGate } from "./gates/floors.ts";
import { formatGate, lintGate } from "./gates/ox.ts";
import { promiseGate } from "./gates/promises.ts";
import { purityGate } from "./gates/purity.ts";
import { typeGates } from "./gates/types.ts";

const gates: readonly Gate[] = [
  ...typeGates,
  lintGate,
  formatGate,
  deadCodeGate,
  arrowGate,
  floorGate,
  promiseGate,
  purityGate,
  houseGate,
  licenceGate,
];

interface Outcome {
  readonly gate: Gate;
  readonly files: number;
  readonly faults: readonly string[];
}

const MAX_SHOWN = 60;

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** What the fixture should have shown and did not. */
const blindSpots = async (bite: Bite): Promise<readonly string[]> => {
  const { files, faults } = await bite.look();
  if (files === 0) return [`the gate looked at no file of the fixture ${bite.name}`];
  return bite.mustFind
    .filter((pattern) => !faults.some((fault) => pattern.test(fault)))
    .map((pattern) => `the gate does not bite: fixture ${bite.name} must give ${pattern.source}`);
};

const outcomeOf = async (gate: Gate): Promise<Outcome> => {
  try {
    const [{ files, faults }, ...blind] = await Promise.all([gate.look(), ...gate.bites.map(blindSpots)]);
    const nothing = files === 0 ? ["the gate looked at no file"] : [];
    return { gate, files, faults: [...nothing, ...faults, ...blind.flat()] };
  } catch (error) {
    return { gate, files: 0, faults: [`the gate could not run: ${wordsOf(error)}`] };
  }
};

const show = ({ gate, files, faults }: Outcome): void => {
  const proof = `${gate.bites.reduce((sum, bite) => sum + bite.mustFind.length, 0)} faults of its fixture found`;
  if (faults.length === 0) {
    console.log(`ok    ${gate.name}: ${files} files, ${proof}`);
    return;
  }
  console.log(`FAULT ${gate.name}: ${files} files`);
  for (const fault of faults.slice(0, MAX_SHOWN)) console.log(`        ${fault}`);
  if (faults.length > MAX_SHOWN) console.log(`        … and ${faults.length - MAX_SHOWN} more`);
  console.log(`      mend: ${gate.fix}`);
};

const words = process.argv.slice(2);
const chosen = gates.filter((gate) => words.length === 0 || words.some((word) => gate.name.includes(word)));
if (chosen.length === 0) {
  console.error(`No gate of that name. There are: ${gates.map((gate) => gate.name).join(", ")}`);
  process.exit(2);
}
const from = performance.now();
const outcomes = await Promise.all(chosen.map(outcomeOf));
outcomes.forEach(show);
const failed = outcomes.filter((outcome) => outcome.faults.length > 0);
const seconds = ((performance.now() - from) / 1000).toFixed(1);
console.log(`${outcomes.length - failed.length} of ${outcomes.length} gates hold (${seconds} s)`);
process.exitCode = failed.length === 0 ? 0 : 1;
