/** Plans without flights that a resupply search is measured on: the family of eight seeds, and the reference campaign with three classes. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity } from "../../app/entity/entities.ts";
import { type ResupplyAsked, usualAsked } from "../../app/resupply/asked.ts";
import { chance } from "./chance.ts";
import { REFERENCE, campaign, referenceCampaign } from "./reference-campaign.ts";

const DAY = 86_400_000;
const SLOT_DAYS = 14;

/** By propellant of the family: what a sortie draws (kg), tank, reserve, level at the start, losses. */
const FAMILY = [
  { id: "lh2", drawKg: 4190, maximumKg: 24_000, reserveKg: 1980, openingKg: 18_000, k: 0.0012, c: 3 },
  { id: "lox", drawKg: 19_978, maximumKg: 60_000, reserveKg: 7200, openingKg: 50_000, k: 0.0002, c: 2 },
  { id: "storable", drawKg: 1, maximumKg: 9000, reserveKg: 1450, openingKg: 5860, k: 0, c: 0.1 },
] as const;
/** By class: loads, kg, of which 0.97 reach the tanks. */
const CLASSES = { H: [3500, 16_000, 0], L: [6500, 5000, 0], S: [1000, 7000, 4000] } as const;

const base = referenceCampaign();

/** `slots` fortnights with `count` sorties; the same seed gives the same plan. */
export const familyPlan = (seed: number, slots = 130, count = 40): PlanSnapshot => {
  const next = chance(seed);
  const days = slots * SLOT_DAYS;
  const start = base.asOfAt;
  const at = (day: number): number => start + Math.round(day * DAY);
  const drawn = Array.from({ length: count }, (_, n) => {
    const share = 0.6825 + 0.635 * next();
    const day = 40 + (n * (days - 60)) / count + (next() - 0.5) * 16;
    return { share, day, storable: 612 + 415 * next() };
  }).toSorted((a, b) => a.day - b.day);
  const tanker = base.craftClasses.find(({ role }) => role === "tanker")!;
  const lander = base.craftClasses.find(({ role }) => role === "lander")!;
  const line = tanker.propellants[0]!;
  const carriesOnly = (id: string, loadKg: number, lossFraction: number) => ({
    ...line,
    propellantId: id,
    capacityKg: 1e6,
    loadKg,
    returnKg: 0,
    kPerDay: 0,
    cKgPerDay: 0,
    residualKg: 0,
    chilldownKg: 0,
    lossFraction,
    rateKgPerDay: null,
  });
  return {
    ...base,
    horizonAt: at(days),
    planCase: { ...base.planCase, horizonAt: at(days) },
    depots: base.depots.map((row) => ({ ...row, ports: 1 })),
    craftClasses: [
      ...Object.entries(CLASSES).map(([id, loads]) => ({
        ...tanker,
        id,
        name: id,
        tripDays: 0,
        berthDays: 1,
        propellants: FAMILY.map((row, n) => carriesOnly(row.id, loads[n] ?? 0, 0.03)),
      })),
      { ...lander, tripDays: 1, propellants: FAMILY.map((row) => carriesOnly(row.id, 0, 0)) },
    ],
    tanks: FAMILY.map((row): Entity<"tank"> => ({
      ...base.tanks[0]!,
      id: `tank-${row.id}`,
      name: row.id,
      propellantId: row.id,
      maximumFillKg: row.maximumKg,
      heelKg: 0,
      reserveKg: row.reserveKg,
    })),
    lossPeriods: FAMILY.map((row): Entity<"lossPeriod"> => ({
      ...base.lossPeriods[0]!,
      id: `base-${row.id}`,
      tankId: `tank-${row.id}`,
      fromAt: null,
      untilAt: null,
      basis: { kind: "stated", kPerDay: row.k, cKgPerDay: row.c },
    })),
    opening: FAMILY.map((row) => ({ tankId: `tank-${row.id}`, massKg: row.openingKg })),
    flights: [],
    sorties: drawn.map(({ share, day, storable }, n): Entity<"sortie"> => ({
      ...base.sorties[0]!,
      id: `s${String(n).padStart(3, "0")}`,
      key: `s${n}`,
      name: `Sortie ${n + 1}`,
      loadAt: at(day),
      returnAt: at(day + 1),
      demand: {
        kind: "stated",
        lines: FAMILY.map((row) => ({
          propellantId: row.id,
          loadKg: row.id === "storable" ? storable : row.drawKg * share,
          returnKg: 0,
        })),
      },
    })),
  };
};

/** Arrivals at the beginning of every fortnight, a millisecond after it. */
export const familyAsked = (plan: PlanSnapshot, over: Partial<ResupplyAsked> = {}): ResupplyAsked => {
  const slots = Math.round((plan.horizonAt - plan.asOfAt) / DAY / SLOT_DAYS);
  const at = Array.from({ length: slots }, (_, n) => plan.asOfAt + 1 + n * SLOT_DAYS * DAY);
  return { ...usualAsked, arrivals: { kind: "list", at }, isBeforeLoadings: false, ...over };
};

/** The reference campaign without its flights, with three classes of different loads. */
export const bareCampaign = (years = 5, seed = 1): PlanSnapshot => {
  const shape = { ...REFERENCE, plenty: 1.2, years, sorties: 8 * years, flights: 24 * years, rateChanges: 4 * years };
  const plan = campaign(shape, seed);
  const loads = new Map(plan.flights[0]!.loads.map(({ propellantId, loadedKg }) => [propellantId, loadedKg]));
  const tanker = plan.craftClasses.find(({ id }) => id === "packhorse")!;
  const made = (id: string, share: number, mix: Readonly<Record<string, number>>) => ({
    ...tanker,
    id,
    name: id,
    propellants: tanker.propellants.map((line) => ({
      ...line,
      loadKg: (loads.get(line.propellantId) ?? 0) * share * (mix[line.propellantId] ?? 1),
    })),
  });
  return {
    ...plan,
    flights: [],
    craftClasses: [
      ...plan.craftClasses.filter(({ id }) => id !== "packhorse"),
      made("A", 1, {}),
      made("B", 0.9, { lh2: 1.5, lox: 0.9, storable: 0.2 }),
      made("C", 1, { lh2: 0.4, lox: 1.2, storable: 2 }),
    ],
  };
};
