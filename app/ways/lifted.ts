/**
 * What a way takes from the ground, by sortie: propellant, what is lost of it on the way and at the depot, and hardware. Masses are counted
 * as loaded on the craft that flies to the depot; what throws those to the Moon is in no way. The same cargo and crew fly
 * every way, so they are not counted. Tanker flights are counted in parts, since what one leaves serves the next sortie.
 */
import type { CraftClass } from "../entity/craft.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Lander } from "../entity/lander.ts";
import type { Mission, Profile } from "../entity/profile.ts";
import type { Propellant } from "../entity/propellant.ts";
import { neededBefore } from "../sortie/aboard.ts";
import { sortieSheet, type SortieSheet } from "../sortie/sheet.ts";
import { stagesOf } from "../sortie/stage.ts";
import { type DepotWaiting, lostWaiting } from "./depot-waiting.ts";
import { handedOver } from "./handed-over.ts";
import { isExpended, type VehicleWay } from "./vehicle-way.ts";

/** Kilograms from the ground for one sortie. */
export interface Lifted {
  /** What comes into the craft's tanks. */
  readonly propellantKg: number;
  /** Boil-off on the way, residuals, chilldown and transfer losses of tankers; boil-off of a craft launched whole. */
  readonly onTheWayKg: number;
  /** Boil-off of the depot's tanks while it waits there, with what tankers lose in bringing that. */
  readonly atDepotKg: number;
  /** Of the craft and of what it drops. */
  readonly craftKg: number;
  /** Used up by tanker flights or by what carries the craft to the depot, as far as it is stated. */
  readonly carrierKg: number;
  readonly totalKg: number;
  /** In parts. */
  readonly tankerFlights: number;
  /** New craft of the class. */
  readonly newCraft: number;
  /** In the ledger's unit; null: not all of it is stated. */
  readonly cost: number | null;
}

export interface WayLifted {
  readonly way: VehicleWay;
  readonly isExpended: boolean;
  readonly sheet: SortieSheet;
  /** Of the first sortie: with the craft itself, and with what stays in its tanks for the next one. */
  readonly first: Lifted;
  /** Of every further one. */
  readonly each: Lifted;
  /** What is not stated and hence not counted, in words. */
  readonly notCounted: readonly string[];
}

export interface LiftedBy {
  readonly tanker: CraftClass;
  readonly mission: Mission;
  readonly propellants: readonly Pick<Propellant, "id" | "name" | "densityKgPerM3">[];
  /** How the propellant of a sortie waits at the depot; null: not known, hence not counted. */
  readonly waiting: DepotWaiting | null;
}

interface Need {
  readonly propellantId: string;
  readonly kg: number;
}

/** What the depot needs for it from tankers; refuses a propellant that the tanker does not bring. */
const byTanker = (needs: readonly Need[], { tanker, propellants, waiting }: LiftedBy) => {
  const handed = new Map(handedOver(tanker).map((line) => [line.propellantId, line]));
  let [propellantKg, onTheWayKg, atDepotKg, flights] = [0, 0, 0, 0];
  for (const { propellantId, kg } of needs) {
    if (kg <= 0) continue;
    const line = handed.get(propellantId);
    if (!line || line.handedKg <= 0) {
      const name = propellants.find(({ id }) => id === propellantId)?.name.toLowerCase() ?? propellantId;
      throw new PlanningError("refused", `${tanker.name} brings no ${name}`, "tanker");
    }
    const rate = waiting?.lines.find((each) => each.propellantId === propellantId);
    const waitingKg = lostWaiting(kg, rate?.kPerDay ?? 0, rate?.cKgPerDay ?? 0, waiting?.days ?? 0);
    const perHanded = line.loadedKg / line.handedKg;
    propellantKg += kg;
    onTheWayKg += kg * (perHanded - 1);
    atDepotKg += waitingKg * perHanded;
    flights = Math.max(flights, (kg + waitingKg) / line.handedKg);
  }
  return { propellantKg, onTheWayKg, atDepotKg, flights };
};

/** What is lifted aboard a craft launched whole, so that its load is there after the tanker's usual time on the way. */
const launchedWhole = (lander: Lander, sheet: SortieSheet, tanker: CraftClass) => {
  const stages = stagesOf(lander);
  let [propellantKg, groundKg] = [0, 0];
  sheet.stages.forEach(({ lines }, s) => {
    for (const { propellantId, loadKg } of lines) {
      const tank = stages[s]?.tanks.find((each) => each.propellantId === propellantId);
      propellantKg += loadKg;
      groundKg += neededBefore(loadKg, tank?.kPerDay ?? 0, tank?.cKgPerDay ?? 0, 0, tanker.tripDays);
    }
  });
  return { propellantKg, onTheWayKg: groundKg - propellantKg, atDepotKg: 0, flights: 0 };
};

/** Hardware that a sortie starts with, and what of it does not come home, kg. */
const hardwareOf = ({ steps }: Pick<Profile, "steps">, sheet: SortieSheet) => {
  let [attachedKg, lostKg] = [0, 0];
  for (const step of steps) {
    if (step.kind === "jettison") {
      attachedKg += step.massKg;
      lostKg += step.massKg;
    }
    if (step.kind !== "leave cache") continue;
    attachedKg += step.tankKg;
    const isKept = steps.some(
      (other) => other.kind === "take up cache" && other.cache === step.cache && other.keepsTank,
    );
    if (!isKept) lostKg += step.tankKg;
  }
  const dry = (isLost: boolean): number =>
    sheet.stages.reduce((sum, { fate, dryKg }) => (!isLost || fate !== "comes home" ? sum + dryKg : sum), 0);
  // A craft that is dropped at the end takes the cache's tank with it, kept or not.
  const isWhole = sheet.stages[0]?.fate !== "comes home";
  const wholeKg = dry(false) + attachedKg;
  return { wholeKg, lostKg: isWhole ? wholeKg : dry(true) + lostKg };
};

/** The sum of what is known; null where something that is used has no price, or the units differ. */
const costOf = (flights: number, newCraft: number, tanker: CraftClass, craftClass: CraftClass): number | null => {
  const parts: readonly (readonly [number, CraftClass])[] = [
    [flights, tanker],
    [newCraft, craftClass],
  ];
  const used = parts.filter(([count]) => count > 0);
  if (new Set(used.map(([, row]) => row.costUnit)).size > 1) return null;
  let sum = 0;
  for (const [count, { costPerFlight }] of used) {
    if (costPerFlight === null) return null;
    sum += count * costPerFlight;
  }
  return sum;
};

/**
 * Computes a way. Throws "refused" with the reason where it cannot be flown, or where the tanker does not bring what it
 * takes.
 */
export const liftedBy = (way: VehicleWay, by: LiftedBy): WayLifted => {
  const { craftClass, profile, brought } = way;
  const { tanker } = by;
  const { lander } = craftClass;
  if (lander === null) throw new PlanningError("refused", `${craftClass.name} has no description of a lander`);
  const sheet = sortieSheet(lander, profile, by.mission, by.propellants);
  const { wholeKg, lostKg } = hardwareOf(profile, sheet);
  const isSpent = isExpended(profile);
  const sum = (
    { propellantKg, onTheWayKg, atDepotKg, flights }: ReturnType<typeof byTanker>,
    craftKg: number,
    newCraft: number,
  ): Lifted => {
    const carrierKg = flights * (tanker.hardwareKg ?? 0) + newCraft * (craftClass.hardwareKg ?? 0);
    return {
      propellantKg,
      onTheWayKg,
      atDepotKg,
      craftKg,
      carrierKg,
      totalKg: propellantKg + onTheWayKg + atDepotKg + craftKg + carrierKg,
      tankerFlights: flights,
      newCraft,
      cost: costOf(flights, newCraft, tanker, craftClass),
    };
  };
  const notCounted = [
    ...(brought === "filled at the depot" && tanker.hardwareKg === null
      ? [`the dry mass that a flight of ${tanker.name} uses up is not stated`]
      : []),
    ...(craftClass.hardwareKg === null ? [`what carries a new ${craftClass.name} to the depot is not stated`] : []),
  ];
  if (brought === "launched whole") {
    const whole = sum(launchedWhole(lander, sheet, tanker), wholeKg, 1);
    return { way, isExpended: isSpent, sheet, first: whole, each: whole, notCounted };
  }
  const loads = sheet.lines.map(({ propellantId, loadKg }) => ({ propellantId, kg: loadKg }));
  const used = sheet.lines.map(({ propellantId, loadKg, returnKg }) => ({ propellantId, kg: loadKg - returnKg }));
  const first = sum(byTanker(loads, by), wholeKg, 1);
  const each = isSpent ? first : sum(byTanker(used, by), lostKg, 0);
  return { way, isExpended: isSpent, sheet, first, each, notCounted };
};

/** What so many sorties take in all: the first, and the others alike. */
export const overCampaign = ({ first, each }: Pick<WayLifted, "first" | "each">, sorties: number): Lifted => {
  const add = (figure: (lifted: Lifted) => number): number =>
    sorties < 1 ? 0 : figure(first) + (sorties - 1) * figure(each);
  return {
    propellantKg: add(({ propellantKg }) => propellantKg),
    onTheWayKg: add(({ onTheWayKg }) => onTheWayKg),
    atDepotKg: add(({ atDepotKg }) => atDepotKg),
    craftKg: add(({ craftKg }) => craftKg),
    carrierKg: add(({ carrierKg }) => carrierKg),
    totalKg: add(({ totalKg }) => totalKg),
    tankerFlights: Math.max(0, Math.ceil(add(({ tankerFlights }) => tankerFlights) - 1e-9)),
    newCraft: add(({ newCraft }) => newCraft),
    cost: first.cost === null || each.cost === null ? null : add(({ cost }) => cost ?? 0),
  };
};
