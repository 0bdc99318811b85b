/** A programme in outline: the few figures with which a ledger can give its first true answer. No React. */
import type { Propellant } from "../../app/entity/propellant.ts";
import { filledFromVolume } from "../forms/tank-volume.ts";

/** How much the planner says; null: not yet. */
export type Said = number | null;

export interface OutlinePropellant {
  readonly what: Pick<Propellant, "name" | "symbol" | "fluid" | "densityKgPerM3">;
  /** Inner volume of the depot's tank, m³. */
  readonly volumeM3: Said;
  /** The part of it that stays empty, per cent. */
  readonly ullagePercent: Said;
  /** In it when the plan begins, kg; null: empty. */
  readonly openingKg: Said;
  /** Kept for the unforeseen, kg; null: nothing. */
  readonly reserveKg: Said;
  /** Lost of the level in a day, per cent. */
  readonly lossPercentPerDay: Said;
  /** What each tanker is loaded with at departure, kg; in the order of the tankers. null: nothing of it. */
  readonly broughtKg: readonly Said[];
  /** Aboard the lander for one sortie, kg. */
  readonly neededKg: Said;
  /** Aboard at its return, kg; null: nothing. */
  readonly returnedKg: Said;
}

export interface OutlineTanker {
  readonly name: string;
  readonly transitDays: Said;
  readonly berthDays: Said;
}

export interface Outline {
  readonly depot: string;
  readonly lander: string;
  readonly daysAway: Said;
  /** When the plan begins, ms UTC: opening levels hold then. */
  readonly beginsAt: Said;
  readonly propellants: readonly OutlinePropellant[];
  readonly tankers: readonly OutlineTanker[];
}

/** The fields of an outline that only some figures may be left out of, by where they stand: "propellants.0.volumeM3". */
export type OutlineFaults = Readonly<Record<string, string>>;

const NEEDED = "Required.";

/** What is missing or contradicts itself, by field, in words; empty: it is whole. */
export const outlineFaults = (outline: Outline): OutlineFaults => {
  const faults: Record<string, string> = {};
  const need = (field: string, isThere: boolean): void => {
    if (!isThere) faults[field] = NEEDED;
  };
  need("depot", outline.depot !== "");
  need("lander", outline.lander !== "");
  need("beginsAt", outline.beginsAt !== null);
  need("daysAway", outline.daysAway !== null);
  outline.tankers.forEach((tanker, index) => {
    need(`tankers.${index}.name`, tanker.name !== "");
    need(`tankers.${index}.transitDays`, tanker.transitDays !== null);
    need(`tankers.${index}.berthDays`, tanker.berthDays !== null);
  });
  outline.propellants.forEach((row, index) => {
    const at = `propellants.${index}`;
    need(`${at}.volumeM3`, row.volumeM3 !== null);
    need(`${at}.ullagePercent`, row.ullagePercent !== null);
    need(`${at}.lossPercentPerDay`, row.lossPercentPerDay !== null);
    need(`${at}.neededKg`, row.neededKg !== null);
    const fillKg = maximumFillKg(row);
    for (const field of ["openingKg", "reserveKg"] as const)
      if (fillKg !== null && (row[field] ?? 0) > fillKg) faults[`${at}.${field}`] = "More than the tank holds.";
    if ((row.returnedKg ?? 0) > (row.neededKg ?? Infinity))
      faults[`${at}.returnedKg`] = "More than was aboard at the start.";
    if (outline.propellants.some((other, otherIndex) => otherIndex < index && other.what.name === row.what.name))
      faults[`${at}.what`] = "Chosen twice.";
    if (row.broughtKg.every((kg) => (kg ?? 0) === 0)) faults[`${at}.broughtKg.0`] = "No tanker brings any.";
  });
  return faults;
};

/** What the tank may be filled to, whole kg: volume under the ullage at the propellant's density; null: not said yet. */
export const maximumFillKg = ({ volumeM3, ullagePercent, what }: OutlinePropellant): number | null =>
  volumeM3 === null || ullagePercent === null
    ? null
    : filledFromVolume({ volumeM3, ullagePercent }, what.densityKgPerM3);
