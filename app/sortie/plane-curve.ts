/**
 * The load of a sortie over the day of its lift-off: what the site lies off the plane then, with boil-off and consumables
 * of the longer or shorter stay counted in. Integrated burns keep the Δv that they have at the profile's own stay, and dog-legs the thrust over mass.
 */
import { PlanningError } from "../ground/failure.ts";
import { type Landing, surfaceStayOf } from "./landing.ts";
import type { Lander } from "../entity/lander.ts";
import type { Mission, ProfileStep } from "../entity/profile.ts";
import { type FlownProfile, solveOffPlane } from "./solve-off-plane.ts";
import { crossings, type OffPlane, phaseOf, stepsOffPlane } from "./off-plane.ts";
import { type Solution, solve } from "./solve.ts";

/** One possible lift-off. */
export interface PlanePoint {
  /** After landing, days. */
  readonly stayDays: number;
  /** How far the site lies off the plane then, degrees. */
  readonly offDeg: number;
  /** What that adds to the ascent, m/s, and how. */
  readonly extraMPerS: number;
  readonly takes: OffPlane["liftOff"]["takes"];
  /** All propellant aboard at departure, kg. */
  readonly loadKg: number;
  /** What must be loaded on the ground for it, kg; null: not known of every propellant. */
  readonly launchedKg: number | null;
}

export interface PlaneCurve {
  /** At the profile's own stay. */
  readonly own: PlanePoint;
  /** By rising stay; a stay for which no load is enough is left out. */
  readonly points: readonly PlanePoint[];
  /** The point that takes least: loaded on the ground, where that is known, else aboard at departure. */
  readonly cheapest: PlanePoint;
}

/** Integrated burns as they came out, so that the curve has not to fly each of them again. */
const frozen = (steps: readonly ProfileStep[], { flown }: Solution): ProfileStep[] =>
  steps.map((step, i) => {
    const seen = flown[i];
    if (step.kind !== "burn" || !seen) return step;
    const { allowanceMPerS } = step.deltaV;
    return { ...step, deltaV: { kind: "stated", mPerS: seen.deltaVMPerS, allowanceMPerS, basis: "integrated" } };
  });

/** The steps with a surface stay of `days`: its stays are stretched alike; with none of any length, the first takes all. */
const withStay = (
  steps: readonly ProfileStep[],
  indexes: readonly number[],
  own: number,
  days: number,
): ProfileStep[] =>
  steps.map((step, i) => {
    if (step.kind !== "stay" || !indexes.includes(i)) return step;
    return { ...step, days: own > 0 ? (step.days * days) / own : i === indexes[0] ? days : 0 };
  });

const loadOf = ({ compiled, masses }: Solution): number =>
  compiled.propellantIds.reduce((sum, _, p) => sum + (masses.stock[p] ?? 0), 0);

/** What the load takes on the ground; null where a propellant that is loaded has no figure. */
const launchedOf = ({ compiled, masses }: Solution, perKg: ReadonlyMap<string, number>): number | null => {
  let sum = 0;
  for (const [p, id] of compiled.propellantIds.entries()) {
    const loadKg = masses.stock[p] ?? 0;
    if (loadKg <= 0) continue;
    const ratio = perKg.get(id);
    if (ratio === undefined) return null;
    sum += loadKg * ratio;
  }
  return sum;
};

const NOTHING_KNOWN: ReadonlyMap<string, number> = new Map();

/** What a point costs: on the ground where that is known. */
export const costOf = ({ loadKg, launchedKg }: PlanePoint): number => launchedKg ?? loadKg;

/** Solves single stays of a profile, integrated burns frozen. null: the profile has no site, or no stay to change. */
const stayer = (
  lander: Lander,
  profile: FlownProfile,
  mission: Mission,
  perKg = NOTHING_KNOWN,
): { readonly ownDays: number; readonly at: (days: number) => PlanePoint | null } | null => {
  const where: Landing | null | undefined = profile.landing;
  const stay = surfaceStayOf(profile.steps);
  if (!where || !stay || stay.stayIndexes.length === 0) return null;
  const { solution, offPlane } = solveOffPlane(lander, profile, mission);
  const [down, up] = [profile.steps[stay.descentIndex], profile.steps[stay.ascentIndex]];
  if (down?.kind !== "burn" || up?.kind !== "burn") return null;
  // The dog-legs of every stay by the thrust over mass of this one: one solution a stay is then enough.
  const descent = phaseOf(lander, down, stay.descentIndex, solution, offPlane?.landing.mPerS ?? 0);
  const ascent = phaseOf(lander, up, stay.ascentIndex, solution, offPlane?.liftOff.mPerS ?? 0);
  const steps = frozen(profile.steps, solution);
  const at = (days: number): PlanePoint | null => {
    try {
      const off = crossings(where, descent, ascent, days);
      const flown = stepsOffPlane(withStay(steps, stay.stayIndexes, stay.days, days), stay, off);
      const solved = solve(lander, { steps: [...flown], reserve: profile.reserve }, mission);
      const { offDeg, mPerS, takes } = off.liftOff;
      return {
        stayDays: days,
        offDeg,
        extraMPerS: mPerS,
        takes,
        loadKg: loadOf(solved),
        launchedKg: launchedOf(solved, perKg),
      };
    } catch (error) {
      if (error instanceof PlanningError && error.code === "refused") return null;
      throw error;
    }
  };
  return { ownDays: stay.days, at };
};

/**
 * The curve from lift-off at once to `untilDays` after landing in equal steps; null: no site is stated, or there is no
 * surface stay to change. `launchedPerKg`: kilograms loaded on the ground per kilogram handed over, by propellant id; the
 * cheapest stay is then the one that takes least there. Throws "refused" where the profile itself cannot be flown.
 */
export const planeCurve = (
  lander: Lander,
  profile: FlownProfile,
  mission: Mission,
  { untilDays, steps }: { readonly untilDays: number; readonly steps: number },
  launchedPerKg = NOTHING_KNOWN,
): PlaneCurve | null => {
  const stays = stayer(lander, profile, mission, launchedPerKg);
  const own = stays?.at(stays.ownDays) ?? null;
  if (stays === null || own === null) return null;
  const points = Array.from({ length: steps + 1 }, (_, i) => stays.at((untilDays * i) / steps)).filter(
    (point) => point !== null,
  );
  return { own, points, cheapest: [own, ...points].reduce((a, b) => (costOf(b) < costOf(a) ? b : a)) };
};

/** A lift-off a day earlier or later that needs less propellant, because the site then lies nearer to the plane. */
export interface CheaperStay {
  readonly own: PlanePoint;
  readonly other: PlanePoint;
  readonly savingKg: number;
}

/** Whether every point knows what it takes on the ground: then the curve is drawn in that. */
export const isCountedOnGround = ({ own, points }: PlaneCurve): boolean =>
  [own, ...points].every(({ launchedKg }) => launchedKg !== null);

/** Less than this is not worth a word, kg. */
const WORTH_KG = 10;

/** The cheaper of a day earlier and a day later, where it needs less and lies nearer to the plane; null: neither does. */
export const cheaperStay = (lander: Lander, profile: FlownProfile, mission: Mission): CheaperStay | null => {
  const stays = stayer(lander, profile, mission);
  const own = stays?.at(stays.ownDays) ?? null;
  if (stays === null || own === null || own.takes === "nothing") return null;
  const others = [stays.ownDays - 1, stays.ownDays + 1].filter((days) => days >= 0).map((days) => stays.at(days));
  const better = others
    .filter((point) => point !== null)
    .filter(({ loadKg, extraMPerS }) => loadKg < own.loadKg - WORTH_KG && extraMPerS < own.extraMPerS);
  const [other] = better.toSorted((a, b) => a.loadKg - b.loadKg);
  return other === undefined ? null : { own, other, savingKg: own.loadKg - other.loadKg };
};
