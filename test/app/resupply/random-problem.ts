/** Random small resupply problems: from the property generator, and the demonstrations shaken. Seeded. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as fc from "fast-check";
import { demoBeck } from "../../../app/demo/beck.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import type { Entity } from "../../../app/entity/entities.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import type { Lane, Problem } from "../../../app/resupply/problem.ts";
import { hullsOf, portsOf } from "../../../app/resupply/resources.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { chance } from "../../bench/chance.ts";
import { randomPlan } from "../../property/random-plan.ts";

const DAY = 86_400_000;
type CraftClass = Entity<"craftClass">;

const demonstration = (which: "tarn" | "beck"): PlanSnapshot => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-resupply-"));
  try {
    const document = which === "tarn" ? demoTarn() : demoBeck();
    const id = which === "tarn" ? "baseline" : "first-plan";
    return planView(loadDocument(join(folder, "x.coldstock"), document), id).plan;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const known = new Map<string, PlanSnapshot>();
/** A demonstration's plan case. */
export const demoPlan = (which: "tarn" | "beck"): PlanSnapshot => {
  const plan = known.get(which) ?? demonstration(which);
  known.set(which, plan);
  return plan;
};

export const laneOf = (craftClass: CraftClass, depotId: string, cost = 1): Lane => ({
  craftClass,
  depotId,
  planned: null,
  originDepotId: null,
  tripMs: Math.round(craftClass.tripDays * DAY),
  berthMs: craftClass.berthDays * DAY,
  cost,
});

export interface Asking {
  readonly plan: PlanSnapshot;
  readonly lanes: readonly Lane[];
  readonly instants: readonly number[];
  readonly goal?: Problem["goal"];
  readonly mostAtOnce?: number;
  readonly lost?: Problem["lost"];
  /** Hulls of the class of each lane, and days from the end of the stay to the next departure. */
  readonly hulls?: readonly (number | null)[];
  readonly turnaroundDays?: readonly number[];
}

/** A problem of these, with the ports of every depot that a lane goes to. */
export const problemOf = (asking: Asking): Problem => {
  const { plan, lanes, instants } = asking;
  const depots = [...new Set(lanes.map(({ depotId }) => depotId))];
  const hulls = lanes.flatMap(({ craftClass }, lane) => {
    const count = asking.hulls?.[lane] ?? null;
    return count === null
      ? []
      : [hullsOf(plan, lanes, craftClass.id, count, (asking.turnaroundDays?.[lane] ?? 0) * DAY)];
  });
  return {
    plan,
    lanes,
    instants,
    isOpen: new Uint8Array(instants.length * lanes.length).fill(1),
    goal: asking.goal ?? "supplied",
    mostAtOnce: asking.mostAtOnce ?? 1,
    resources: [...depots.map((id) => portsOf(plan, lanes, id)), ...hulls],
    purses: [],
    lost: asking.lost ?? 0,
  };
};

/** Two depots, up to three tanks, every handover, outages, over-full tanks, firm flights between depots. */
export const smallProblem = (seed: number, count = 7): Asking => {
  const next = chance(seed);
  const [base] = fc.sample(randomPlan({ days: 20, flights: 3, sorties: 4, constantLoss: true, betweenDepots: true }), {
    seed,
    numRuns: 1,
  });
  if (base === undefined) throw new Error("no plan");
  const share = 0.15 + 0.45 * next();
  let plan: PlanSnapshot = {
    ...base,
    sorties: base.sorties.map((row) => ({
      ...row,
      demand:
        row.demand.kind === "stated"
          ? {
              kind: "stated" as const,
              lines: row.demand.lines.map((line) => ({
                ...line,
                loadKg: line.loadKg * share,
                returnKg: line.returnKg * share,
              })),
            }
          : row.demand,
    })),
    tanks: base.tanks.map((row) => (next() < 0.75 ? { ...row, ownerId: "tarn" } : row)),
    flights: base.flights.map((row) =>
      next() < 0.5 && row.status === "planned" ? { ...row, status: "firm" as const } : row,
    ),
  };
  // Landers apart, so that a lander away is not most of what is tried.
  if (next() < 0.8) {
    const ids = [1, 2, 3, 4, 5, 6].map((n) => `heron-${n}`);
    plan = {
      ...plan,
      sorties: plan.sorties.map((row, n) => ({ ...row, landerId: ids[n % 6] ?? "" })),
      craft: [
        ...plan.craft.filter(({ id }) => !id.startsWith("heron")),
        ...ids.map((id) => ({ id, classId: "heron", name: id, note: "", engineChanges: [] })),
      ],
    };
  }
  const tanker = plan.craftClasses.find(({ role }) => role === "tanker");
  if (tanker === undefined) throw new Error("no tanker");
  const berths = [0.25, 1, 2.5];
  const made = (id: string, loadKg: number, rateKgPerDay: number | null): CraftClass => ({
    ...tanker,
    id,
    name: id,
    tripDays: 0.25,
    berthDays: berths[Math.floor(next() * 3)] ?? 1,
    propellants: tanker.propellants.map((line) => ({ ...line, loadKg, rateKgPerDay })),
  });
  const classes = [
    made("A", 100 + 500 * next(), tanker.propellants[0]?.rateKgPerDay ?? null),
    made("B", 60 + 250 * next(), next() < 0.5 ? null : 150 + 800 * next()),
  ];
  const days = new Set<number>();
  while (days.size < count) days.add(Math.round((0.5 + 19 * next()) * 4) / 4);
  if (seed % 7 === 3)
    plan = {
      ...plan,
      opening: plan.opening.map((row) => ({
        ...row,
        massKg: 1.3 * (plan.tanks.find(({ id }) => id === row.tankId)?.maximumFillKg ?? 0),
      })),
    };
  plan = { ...plan, craftClasses: [...plan.craftClasses, ...classes] };
  // Now and then the second class goes to the other depot.
  const other = next() < 0.3 ? "corrie" : "tarn";
  return {
    plan,
    lanes: classes.map((row, n) => laneOf(row, n === 0 ? "tarn" : other)),
    instants: [...days].toSorted((a, b) => a - b).map((day) => plan.asOfAt + day * DAY),
    goal: next() < 0.7 ? "supplied" : "flies",
    hulls: [1 + (seed % 2), seed % 3 === 0 ? null : 1],
    turnaroundDays: [1 + (seed % 3), 0.5],
  };
};

/** The same with flights between the two depots to choose from, each way or one, in transit over several instants. */
export const transferProblem = (seed: number, lost: Problem["lost"] = 0): Problem => {
  const next = chance(seed + 500_000);
  const asking = smallProblem(seed, 3 + (seed % 2));
  const { plan } = asking;
  const [first] = asking.lanes;
  if (first === undefined) throw new Error("no lane");
  const ways = next() < 0.3 ? (["out", "back"] as const) : (["out"] as const);
  const between = ways.map((way, n): Lane => {
    const tripDays = 0.25 * (1 + Math.floor(8 * next()));
    const berthDays = 0.25 + 2 * next();
    const craftClass: CraftClass = {
      ...first.craftClass,
      id: `between-${n}`,
      name: `between-${n}`,
      tripDays,
      berthDays,
      propellants: first.craftClass.propellants.map((line) => ({
        ...line,
        loadKg: 50 + 400 * next(),
        chilldownKg: next() < 0.5 ? 0 : 20 * next(),
        rateKgPerDay: next() < 0.5 ? null : 150 + 800 * next(),
      })),
    };
    const [from, to] = way === "out" ? ["corrie", "tarn"] : ["tarn", "corrie"];
    return { ...laneOf(craftClass, to), originDepotId: from, cost: next() < 0.5 ? 1 : 2 };
  });
  const lanes = [...asking.lanes.map((lane) => ({ ...lane, cost: 3 })), ...between];
  const departures = between.map((lane) => {
    const found = new Set<number>();
    while (found.size < 3) found.add(plan.asOfAt + 0.25 * Math.round(4 * (0.25 + 17 * next())) * DAY);
    return { lane, at: [...found] };
  });
  const arrivals = departures.flatMap(({ lane, at }) => at.map((departAt) => departAt + lane.tripMs));
  const instants = [...new Set([...asking.instants, ...departures.flatMap(({ at }) => at), ...arrivals])].toSorted(
    (a, b) => a - b,
  );
  const isOpen = Uint8Array.from({ length: instants.length * lanes.length }, (_, cell) => {
    const at = instants[Math.floor(cell / lanes.length)] ?? 0;
    const lane = lanes[cell % lanes.length];
    const own = departures.find((row) => row.lane === lane);
    return (own === undefined ? asking.instants : own.at).includes(at) ? 1 : 0;
  });
  const crafted = { ...plan, craftClasses: [...plan.craftClasses, ...between.map(({ craftClass }) => craftClass)] };
  // A stock at the other depot, and little at this one, is what makes moving worth a flight.
  const far = plan.tanks
    .filter(({ ownerId }) => ownerId === "tarn")
    .map((row) => ({ ...row, id: `far-${row.id}`, ownerId: "corrie" }));
  const share = next();
  const stocked: PlanSnapshot = {
    ...crafted,
    tanks: [...crafted.tanks, ...far],
    opening: [
      ...crafted.opening.map((row) => ({ ...row, massKg: row.massKg * share })),
      ...far.map((row) => ({ tankId: row.id, massKg: row.maximumFillKg * next() })),
    ],
    lossPeriods: [
      ...crafted.lossPeriods,
      ...crafted.lossPeriods
        .filter(({ tankId }) => far.some(({ id }) => id === `far-${tankId}`))
        .map((row) => ({ ...row, id: `far-${row.id}`, tankId: `far-${row.tankId}` })),
    ],
  };
  return { ...problemOf({ ...asking, plan: stocked, lanes, instants, hulls: [], lost }), isOpen };
};

/** A demonstration with other openings, dates, demands, flights taken out, now and then a second oxygen tank. */
export const shakenProblem = (seed: number, which: "tarn" | "beck", count = 9): Asking => {
  const next = chance(seed);
  const base = demoPlan(which);
  const span = base.horizonAt - base.asOfAt;
  const scale = 0.6 + 0.5 * next();
  const keepShare = next() * 0.8;
  let plan: PlanSnapshot = {
    ...base,
    opening: base.opening.map((row) => ({ ...row, massKg: row.massKg * (0.5 + next()) })),
    sorties: base.sorties
      .filter(({ status }) => status === "planned")
      .map((row) => {
        const shift = Math.round((next() - 0.5) * 720) * 3_600_000;
        return {
          ...row,
          loadAt: row.loadAt + shift,
          returnAt: row.returnAt + shift,
          demand: { kind: "class" as const },
        };
      }),
    flights: base.flights.filter(({ status }) => status !== "planned" || next() < keepShare),
  };
  plan = { ...plan, planCase: { ...plan.planCase, shortPolicy: next() < 0.5 ? "wait" : "stand down" } };
  if (next() < 0.5) plan = withSecondTank(plan, next);
  let classes = plan.craftClasses.filter(({ role }) => role === "tanker");
  const [first] = classes;
  if (classes.length < 2 && first !== undefined)
    classes = [
      first,
      {
        ...first,
        id: "B",
        name: "B",
        propellants: first.propellants.map((line, n) => ({
          ...line,
          loadKg: line.loadKg * (n > 0 ? 0.5 : 1.2),
          rateKgPerDay: next() < 0.5 ? null : Math.max(1, line.loadKg / 2),
        })),
      },
    ];
  const more = 1 + 1.5 * next();
  classes = classes.map((row) => ({
    ...row,
    id: `${row.id}x`,
    tripDays: Math.min(row.tripDays, 10),
    propellants: row.propellants.map((line) => ({ ...line, loadKg: line.loadKg * (row.tripDays > 50 ? 1 : more) })),
  }));
  plan = {
    ...plan,
    craftClasses: [
      ...plan.craftClasses.map((row) =>
        row.role === "lander"
          ? { ...row, propellants: row.propellants.map((line) => ({ ...line, loadKg: line.loadKg * scale })) }
          : row,
      ),
      ...classes,
    ],
  };
  const at = new Set<number>();
  while (at.size < count)
    at.add(plan.asOfAt + Math.round((10.5 * DAY + next() * (span * 0.9 - 10.5 * DAY)) / 3_600_000) * 3_600_000);
  return {
    plan,
    lanes: classes.map((row) => laneOf(row, which)),
    instants: [...at].toSorted((a, b) => a - b),
    goal: next() < 0.7 ? "supplied" : "flies",
    hulls: [1 + (seed % 2), seed % 3 === 0 ? null : 1],
    turnaroundDays: [20 * (seed % 4), 30],
  };
};

const withSecondTank = (plan: PlanSnapshot, next: () => number): PlanSnapshot => {
  const oxygen = plan.tanks.find(({ ownerKind, propellantId }) => ownerKind === "depot" && propellantId === "oxygen");
  const period = plan.lossPeriods.find(({ tankId }) => tankId === oxygen?.id);
  if (oxygen === undefined || period === undefined) return plan;
  const second = {
    ...oxygen,
    id: "second",
    name: "second",
    maximumFillKg: oxygen.maximumFillKg * 0.5,
    heelKg: oxygen.heelKg * 0.5,
    reserveKg: oxygen.reserveKg * 0.5,
    rank: next() < 0.3 ? 0 : null,
  };
  const basis = { kind: "stated" as const, kPerDay: 0.002 * next(), cKgPerDay: 10 * next() };
  return {
    ...plan,
    tanks: [
      ...plan.tanks.map((row) => (row === oxygen ? { ...row, maximumFillKg: row.maximumFillKg * 0.7 } : row)),
      second,
    ],
    lossPeriods: [
      ...plan.lossPeriods,
      { ...period, id: "second-base", tankId: "second", fromAt: null, untilAt: null, basis },
    ],
    opening: [...plan.opening, { tankId: "second", massKg: second.maximumFillKg * next() }],
  };
};
