/** From how many sorties on one way takes less from the ground than another, and which input moves that number most. */
import type { CraftClass } from "../entity/craft.ts";
import { PlanningError } from "../ground/failure.ts";
import type { Lander } from "../entity/lander.ts";
import type { ProfileStep } from "../entity/profile.ts";
import { type LiftedBy, liftedBy, type WayLifted } from "./lifted.ts";
import type { VehicleWay } from "./vehicle-way.ts";

type Costs = Pick<WayLifted, "first" | "each">;

export type BreakEven =
  /** Up to so many sorties (in parts) `early` takes less, beyond it the other one. */
  | { readonly kind: "at"; readonly sorties: number; readonly early: "a" | "b" }
  /** One takes less however many there are; null: both take the same. */
  | { readonly kind: "never"; readonly less: "a" | "b" | null };

/** Two ways that grow by the same amount with every sortie differ by less than this, kg. */
const SAME_KG = 1e-6;

/** Where first + (n − 1)·each is the same for both, with n of 1 or more. */
export const breakEven = (a: Costs, b: Costs): BreakEven => {
  const start = a.first.totalKg - b.first.totalKg;
  const growth = a.each.totalKg - b.each.totalKg;
  const isEqual = (kg: number): boolean => Math.abs(kg) <= SAME_KG;
  if (isEqual(growth)) return { kind: "never", less: isEqual(start) ? null : start < 0 ? "a" : "b" };
  const sorties = 1 - start / growth;
  // The one that starts lower and grows more is overtaken; else it stays lower for ever.
  if (sorties <= 1) return { kind: "never", less: growth < 0 ? "a" : "b" };
  return { kind: "at", sorties, early: start < 0 ? "a" : "b" };
};

/** An input that is varied: what it is of a pair of ways with it multiplied. */
interface Input {
  readonly name: string;
  readonly vary: (pair: Pair, factor: number) => Pair;
}

interface Pair {
  readonly a: VehicleWay;
  readonly b: VehicleWay;
  readonly by: LiftedBy;
}

const withLander = (way: VehicleWay, change: (lander: Lander) => Lander): VehicleWay => {
  const { lander } = way.craftClass;
  return lander === null ? way : { ...way, craftClass: { ...way.craftClass, lander: change(lander) } };
};

type Further = NonNullable<Lander["furtherStages"]>[number];

/** Every stage changed alike: the lander's own, and the further ones. */
const eachStage = (lander: Lander, own: (stage: Lander) => Lander, further: (stage: Further) => Further): Lander => {
  const changed = own(lander);
  return lander.furtherStages ? { ...changed, furtherStages: lander.furtherStages.map(further) } : changed;
};

const dry = (way: VehicleWay, factor: number): VehicleWay =>
  withLander(way, (lander) =>
    eachStage(
      lander,
      (own) => ({ ...own, dryKg: own.dryKg * factor }),
      (stage) => ({ ...stage, dryKg: stage.dryKg * factor }),
    ),
  );

const ispOf = <E extends Lander["engines"] | null>(engines: E, factor: number): E =>
  engines === null
    ? engines
    : { ...engines, ispFullS: engines.ispFullS * factor, ispMinimumS: engines.ispMinimumS * factor };

const isp = (way: VehicleWay, factor: number): VehicleWay =>
  withLander(way, (lander) =>
    eachStage(
      lander,
      (own) => ({ ...own, engines: ispOf(own.engines, factor) }),
      (stage) => ({ ...stage, engines: ispOf(stage.engines, factor) }),
    ),
  );

const losing = <T extends { readonly kPerDay: number; readonly cKgPerDay: number }>(
  lines: readonly T[],
  factor: number,
) => lines.map((line) => ({ ...line, kPerDay: line.kPerDay * factor, cKgPerDay: line.cKgPerDay * factor }));

const aboard = (way: VehicleWay, factor: number): VehicleWay => {
  const varied = withLander(way, (lander) =>
    eachStage(
      lander,
      (own) => ({ ...own, tanks: losing(own.tanks, factor) }),
      (stage) => ({ ...stage, tanks: losing(stage.tanks, factor) }),
    ),
  );
  const steps = way.profile.steps.map((step): ProfileStep => {
    if (step.kind === "stay") return { ...step, losses: losing(step.losses, factor) };
    return step.kind === "leave cache" ? { ...step, tanks: losing(step.tanks, factor) } : step;
  });
  return { ...varied, profile: { ...way.profile, steps } };
};

/** On top of margin and allowance, so that stated, transferred and integrated burns are all varied alike. */
const deltaV = (way: VehicleWay, factor: number): VehicleWay => {
  const steps = way.profile.steps.map((step): ProfileStep =>
    step.kind === "burn" ? { ...step, marginPercent: ((1 + step.marginPercent / 100) * factor - 1) * 100 } : step,
  );
  return { ...way, profile: { ...way.profile, steps } };
};

const ofTanker = (pair: Pair, change: (tanker: CraftClass) => CraftClass): Pair => ({
  ...pair,
  by: { ...pair.by, tanker: change(pair.by.tanker) },
});

/** Inputs of both ways, and of each; those of one class are varied in both ways that fly it. */
const inputsOf = ({ a, b }: Pair): readonly Input[] => {
  const classes = [...new Map([a, b].map(({ craftClass }) => [craftClass.id, craftClass])).values()];
  const ofClass = (classId: string, vary: (way: VehicleWay, factor: number) => VehicleWay) => {
    const one = (way: VehicleWay, factor: number): VehicleWay =>
      way.craftClass.id === classId ? vary(way, factor) : way;
    return (pair: Pair, factor: number): Pair => ({ ...pair, a: one(pair.a, factor), b: one(pair.b, factor) });
  };
  return [
    ...classes.flatMap(({ id, name }): Input[] => [
      { name: `dry mass of ${name}`, vary: ofClass(id, dry) },
      { name: `Isp of ${name}`, vary: ofClass(id, isp) },
      { name: `Δv of ${name}`, vary: ofClass(id, deltaV) },
      { name: `boil-off aboard ${name}`, vary: ofClass(id, aboard) },
      {
        name: `what carries a new ${name}`,
        vary: ofClass(id, (way, factor) => ({
          ...way,
          craftClass: {
            ...way.craftClass,
            hardwareKg: way.craftClass.hardwareKg === null ? null : way.craftClass.hardwareKg * factor,
          },
        })),
      },
    ]),
    {
      name: "cargo down",
      vary: (pair, factor) => ({
        ...pair,
        by: { ...pair.by, mission: { ...pair.by.mission, cargoDownKg: pair.by.mission.cargoDownKg * factor } },
      }),
    },
    {
      name: "boil-off of the tanker",
      vary: (pair, factor) =>
        ofTanker(pair, (tanker) => ({ ...tanker, propellants: losing(tanker.propellants, factor) })),
    },
    {
      name: "boil-off at the depot",
      vary: (pair, factor) => {
        const { waiting } = pair.by;
        return waiting === null
          ? pair
          : { ...pair, by: { ...pair.by, waiting: { ...waiting, lines: losing(waiting.lines, factor) } } };
      },
    },
    {
      name: "dry mass that a tanker flight uses up",
      vary: (pair, factor) =>
        ofTanker(pair, (tanker) => ({
          ...tanker,
          hardwareKg: tanker.hardwareKg === null ? null : tanker.hardwareKg * factor,
        })),
    },
  ];
};

/** By how much each input is varied, either way: little, so that the number seldom vanishes. */
export const VARIED_SHARE = 0.02;

/** The break-even number; null: there is none. */
type Found = number | null | "not flown";

/** The break-even number with one input a little less and a little more. */
export interface Moved {
  readonly name: string;
  readonly withLess: Found;
  readonly withMore: Found;
}

const numberOf = (pair: Pair): Found => {
  try {
    const found = breakEven(liftedBy(pair.a, pair.by), liftedBy(pair.b, pair.by));
    return found.kind === "at" ? found.sorties : null;
  } catch (error) {
    if (error instanceof PlanningError && error.code === "refused") return "not flown";
    throw error;
  }
};

/** How far an input moves the number; where there is none at an end, farther than any other. */
const reach = ({ withLess, withMore }: Moved, base: number): number => {
  const from = (end: Found): number =>
    end === null ? Number.POSITIVE_INFINITY : end === "not flown" ? 0 : Math.abs(end - base);
  return from(withLess) + from(withMore);
};

/** Inputs by how far they move the break-even number, the one that moves it most first; those that do nothing left out. */
export const movesMost = (a: VehicleWay, b: VehicleWay, by: LiftedBy): readonly Moved[] => {
  const pair: Pair = { a, b, by };
  const base = numberOf(pair);
  if (typeof base !== "number") return [];
  return inputsOf(pair)
    .map(({ name, vary }) => ({
      name,
      withLess: numberOf(vary(pair, 1 - VARIED_SHARE)),
      withMore: numberOf(vary(pair, 1 + VARIED_SHARE)),
    }))
    .filter((moved) => reach(moved, base) > 1e-9)
    .toSorted((x, y) => reach(y, base) - reach(x, base));
};
