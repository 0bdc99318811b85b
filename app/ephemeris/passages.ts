/** Periapsis and apoapsis passages of an ephemeris: where the range stops falling, or stops rising. */
import { PlanningError } from "../ground/failure.ts";
import { MOON_RADIUS_M } from "../orbits/moon.ts";
import { rangeRateAt } from "./interpolate.ts";
import { utcOfTai } from "./leap-seconds.ts";
import type { Oem, OemSegment } from "./read-oem.ts";

export interface Passage {
  readonly kind: "periapsis" | "apoapsis";
  /** UTC, whole ms. */
  readonly at: number;
  /** Above the mean surface of the Moon, km. */
  readonly heightKm: number;
}

/** Between two states the sign is looked at so often, so that an apsis and the next do not both hide in one step. */
const LOOKS = 4;
/** A range that changes by less than this share has no apsides worth the name. */
const ROUND = 1e-4;

/** The instant at which r·v changes its sign between two, by halving to a tenth of a millisecond. */
const crossing = (segment: OemSegment, before: number, fromMs: number, untilMs: number, rises: boolean): number => {
  let [low, high] = [fromMs, untilMs];
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if (rangeRateAt(segment, before, middle).radialKm2PerS < 0 === rises) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const ofSegment = (segment: OemSegment, add: (passage: Passage) => void, see: (rangeKm: number) => void): void => {
  const { taiMs } = segment;
  let previous = rangeRateAt(segment, 0, taiMs[0] as number).radialKm2PerS;
  for (let before = 0; before + 1 < taiMs.length; before += 1) {
    const [startMs, endMs] = [taiMs[before] as number, taiMs[before + 1] as number];
    for (let look = 1; look <= LOOKS; look += 1) {
      const fromMs = startMs + ((endMs - startMs) * (look - 1)) / LOOKS;
      const untilMs = startMs + ((endMs - startMs) * look) / LOOKS;
      const { radialKm2PerS, rangeKm } = rangeRateAt(segment, before, untilMs);
      see(rangeKm);
      if (previous < 0 !== radialKm2PerS < 0) {
        const rises = previous < 0;
        const at = crossing(segment, before, fromMs, untilMs, rises);
        if (at >= segment.usableFromMs && at <= segment.usableUntilMs)
          add({
            kind: rises ? "periapsis" : "apoapsis",
            at: Math.round(utcOfTai(at)),
            heightKm: rangeRateAt(segment, before, at).rangeKm - MOON_RADIUS_M / 1000,
          });
      }
      previous = radialKm2PerS;
    }
  }
};

/** Two passages of one kind this near are the same one, seen from two segments that meet there, ms. */
const SAME_MS = 1000;

/**
 * All passages of a message in order of time. Throws "invalid input" for an orbit so round that it has none worth the
 * name, and for a message in which there is none.
 */
export const passagesOf = (oem: Oem): readonly Passage[] => {
  const found: Passage[] = [];
  let [least, most] = [Infinity, 0];
  const add = (passage: Passage): void => {
    const last = found.findLast(({ kind }) => kind === passage.kind);
    if (last === undefined || passage.at - last.at > SAME_MS) found.push(passage);
  };
  for (const segment of oem.segments)
    ofSegment(segment, add, (rangeKm) => {
      least = Math.min(least, rangeKm);
      most = Math.max(most, rangeKm);
    });
  if (most - least < ROUND * most)
    throw new PlanningError(
      "invalid input",
      `The orbit of ${oem.objectName} is round to ${((most - least) * 1000).toFixed(0)} m: it has no periapsis or apoapsis to tell windows by. State a period instead.`,
    );
  if (found.length === 0)
    throw new PlanningError("invalid input", `The ephemeris of ${oem.objectName} covers no periapsis and no apoapsis.`);
  return found.toSorted((a, b) => a.at - b.at);
};
