/** Which circumstance is common to the replications in which a sortie does not go as planned. */
import type { CommonCause } from "./answer.ts";
import { shareOf } from "./estimate.ts";
import type { RiskModel } from "./risk-model.ts";
import { COUNT, LOST_CLASS, SLIP_CLASSES, SLIP_EDGES, type Tally } from "./tally.ts";

/** The most that are told of one sortie. */
const MAX_CAUSES = 5;

/** Fewer bad replications than this say nothing of what they have in common. */
const FEWEST_BAD = 30;

interface Candidate extends CommonCause {
  /** How much more often it is met where the sortie does not go. */
  readonly excess: number;
}

const candidate = (
  what: CommonCause["what"],
  {
    bad,
    badN,
    all,
    allN,
  }: { readonly bad: number; readonly badN: number; readonly all: number; readonly allN: number },
): Candidate => ({
  what,
  ofBad: shareOf(bad, badN),
  ofAll: shareOf(all, allN),
  excess: bad / badN - all / allN,
});

/** Of one flight, cases from a slip class on; a lost flight is late for good: it counts with every lateness. */
const badFrom = new Float64Array(SLIP_CLASSES);
const allFrom = new Float64Array(SLIP_CLASSES);

const sumFrom = (sums: Float64Array, column: Uint32Array, row: number): void => {
  let sum = 0;
  for (let index = LOST_CLASS; index > 0; index -= 1) {
    sum += column[row + index] as number;
    sums[index] = sum;
  }
};

/** The strongest of a flight's circumstances: lost, or later than one of the edges. */
const ofFlight = (model: RiskModel, tally: Tally, sortie: number, flight: number): Candidate => {
  const badN = tally.badCount[sortie] as number;
  const allN = tally.counts[COUNT.banded] as number;
  const flightId = model.plan.flightIds[flight] ?? "";
  sumFrom(badFrom, tally.badSlips, (sortie * tally.shape.flights + flight) * SLIP_CLASSES);
  sumFrom(allFrom, tally.allSlips, flight * SLIP_CLASSES);
  let strongest = LOST_CLASS;
  let excess = (badFrom[LOST_CLASS] as number) / badN - (allFrom[LOST_CLASS] as number) / allN;
  for (let first = 1; first < LOST_CLASS; first += 1) {
    const other = (badFrom[first] as number) / badN - (allFrom[first] as number) / allN;
    if (other <= excess) continue;
    excess = other;
    strongest = first;
  }
  return candidate(
    strongest === LOST_CLASS
      ? { kind: "flight lost", flightId }
      : { kind: "flight late", flightId, moreThanDays: SLIP_EDGES[strongest - 1] as number },
    { bad: badFrom[strongest] as number, badN, all: allFrom[strongest] as number, allN },
  );
};

/** Strongest first; only what is met clearly more often (3 standard errors) than in general. */
export const commonCauses = (model: RiskModel, tally: Tally, sortie: number): readonly CommonCause[] => {
  const badN = tally.badCount[sortie] as number;
  if (badN < FEWEST_BAD) return [];
  const allN = tally.counts[COUNT.banded] as number;
  const { coolers, tanks, flights } = tally.shape;
  const others = coolers + tanks;
  const loadAt = model.plan.sortieLoadAt[sortie] as number;
  const found: Candidate[] = [];
  for (let flight = 0; flight < flights; flight += 1) {
    if ((model.plan.flightArriveAt[flight] as number) > loadAt) continue;
    found.push(ofFlight(model, tally, sortie, flight));
  }
  const other = (what: CommonCause["what"], index: number): void => {
    const bad = tally.badOthers[sortie * others + index] as number;
    found.push(candidate(what, { bad, badN, all: tally.allOthers[index] as number, allN }));
  };
  model.coolers.forEach(({ tank }, index) =>
    other({ kind: "cooler failed", tankId: model.plan.tankIds[tank] ?? "" }, index),
  );
  model.tanks.forEach(({ boilOff }, tank) => {
    if (boilOff.sigma > 0) other({ kind: "boil-off high", tankId: model.plan.tankIds[tank] ?? "" }, coolers + tank);
  });
  return found
    .filter(({ excess, ofBad }) => excess > 3 * ofBad.standardError)
    .toSorted((a, b) => b.excess - a.excess)
    .slice(0, MAX_CAUSES)
    .map(({ what, ofBad, ofAll }) => ({ what, ofBad, ofAll }));
};
