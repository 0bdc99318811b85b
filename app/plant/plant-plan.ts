/** A plant's output as rows of a plan: tanker flights as loads become ready, or a direct inflow into a depot's tanks. */
import { PlanningError } from "../ground/failure.ts";
import type { PlanSnapshot } from "../entity/plan.ts";
import type { Change, Entity } from "../entity/entities.ts";
import type { CraftPropellant } from "../entity/craft.ts";
import { freshFlight } from "../entity/flight.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { loadReadyInstants } from "./ready-loads.ts";
import { type PlantOutput, plantOutput } from "./water-plant.ts";

type Source = Entity<"source">;

const refuse = (message: string, field: string): never => {
  throw new PlanningError("refused", message, field);
};

const plantOf = (source: Source): NonNullable<Source["plant"]> =>
  source.plant ?? refuse(`${source.name} is not described as a plant.`, "plant");

/** The ledger's propellants that the plant makes. */
const madeHere = (plan: PlanSnapshot): { readonly hydrogenId: string; readonly oxygenId: string } => {
  const idOf = (fluid: "H2" | "O2", name: string): string =>
    plan.propellants.find((each) => each.fluid === fluid)?.id ??
    refuse(`No propellant of this ledger is ${name} (property table ${fluid}).`, "propellants");
  return { hydrogenId: idOf("H2", "hydrogen"), oxygenId: idOf("O2", "oxygen") };
};

/** Shares of a pair by mass. */
const sharesOf = (output: PlantOutput): { readonly hydrogen: number; readonly oxygen: number } => ({
  hydrogen: output.propellantHydrogenKg / output.propellantKg,
  oxygen: output.propellantOxygenKg / output.propellantKg,
});

/** The most pairs that a class takes at the mixture ratio, kg. Throws "refused" if it does not carry both. */
const pairsPerFlight = (
  output: PlantOutput,
  craftClass: Entity<"craftClass">,
  made: ReturnType<typeof madeHere>,
): number => {
  const shares = sharesOf(output);
  const takes = (propellantId: string, share: number): number =>
    (craftClass.propellants.find((line) => line.propellantId === propellantId)?.loadKg ?? 0) / share;
  const most = Math.min(takes(made.hydrogenId, shares.hydrogen), takes(made.oxygenId, shares.oxygen));
  return most > 0 ? most : refuse(`${craftClass.name} does not carry both hydrogen and oxygen.`, "craftId");
};

const newKeys = (plan: PlanSnapshot, stem: string): (() => string) => {
  const taken = new Set(plan.flights.flatMap(({ id, key }) => [id, key]));
  let count = 0;
  return () => {
    do count += 1;
    while (taken.has(`${stem}-${count}`));
    return `${stem}-${count}`;
  };
};

const gram = (kg: number): number => Math.floor(kg * 1000) / 1000;

interface FlightsRequest {
  readonly source: Source;
  readonly craftId: string;
  readonly depotId: string;
}

/**
 * One flight for each full load that is ready between the as-of instant and the end of the plan. Throws "refused" where
 * the plant makes nothing, or the craft does not carry both propellants.
 */
export const flightsFromPlant = (plan: PlanSnapshot, request: FlightsRequest): readonly Entity<"flight">[] => {
  const { source, craftId, depotId } = request;
  const plant = plantOf(source);
  const output = plantOutput(plant);
  if (!(output.propellantKg > 0)) return refuse(`${source.name} makes no propellant.`, "plant");
  const craft = plan.craft.find(({ id }) => id === craftId);
  const craftClass = plan.craftClasses.find(({ id }) => id === craft?.classId);
  if (craft === undefined || craftClass === undefined) return refuse(`There is no craft ${craftId}.`, "craftId");
  const made = madeHere(plan);
  const loadKg = pairsPerFlight(output, craftClass, made);
  const shares = sharesOf(output);
  const nextKey = newKeys(plan, `${source.id}-load`.slice(0, 40));
  return loadReadyInstants(output, plant.duty, loadKg)
    .map((departAt) => ({ departAt, arriveAt: departAt + Math.round(craftClass.tripDays * DAY_MS) }))
    .filter(({ departAt, arriveAt }) => departAt >= plan.asOfAt && arriveAt <= plan.horizonAt)
    .map(({ departAt, arriveAt }, index) => {
      const key = nextKey();
      return {
        id: `${key}.${plan.planCase.id}`.slice(0, 64),
        planCaseId: plan.planCase.id,
        key,
        name: `${source.name} load ${index + 1}`.slice(0, 80),
        craftId,
        origin: { kind: "source", sourceId: source.id },
        depotId,
        departAt,
        arriveAt,
        berthDays: craftClass.berthDays,
        loads: [
          { propellantId: made.hydrogenId, loadedKg: gram(loadKg * shares.hydrogen) },
          { propellantId: made.oxygenId, loadedKg: gram(loadKg * shares.oxygen) },
        ],
        ...freshFlight,
      };
    });
};

/** A flight leaves before it arrives; a minute is what filling the line takes here. */
const LINE_FILL_MS = 60_000;

const lineOf = (propellantId: string, kgPerDay: number): CraftPropellant => ({
  propellantId,
  capacityKg: 1e9,
  loadKg: 0,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: Math.max(1, kgPerDay),
});

/**
 * The plant feeds a depot's tanks itself: a line with the plant's metered rate, and one run of it for each duty period from
 * the as-of instant on. The line loses nothing; while it runs it holds a port, as whatever is connected to a depot does.
 */
export const inflowFromPlant = (plan: PlanSnapshot, source: Source, depotId: string): readonly Change[] => {
  const plant = plantOf(source);
  const output = plantOutput(plant);
  if (!(output.propellantKg > 0)) return refuse(`${source.name} makes no propellant.`, "plant");
  const { hydrogenId, oxygenId } = madeHere(plan);
  const classId = `${source.id}-line`.slice(0, 60);
  const craftId = `${classId}-1`;
  const nextKey = newKeys(plan, `${source.id}-run`.slice(0, 40));
  const craftClass: Entity<"craftClass"> = {
    id: classId,
    name: `${source.name} line`.slice(0, 80),
    role: "tanker",
    propellants: [lineOf(hydrogenId, output.propellantHydrogenKg), lineOf(oxygenId, output.propellantOxygenKg)],
    tripDays: 0,
    berthDays: 0,
    turnaroundDays: 0,
    costPerFlight: null,
    costUnit: "",
    hardwareKg: null,
    note: "A direct line from the plant: no transit, no loss, metered at what the plant makes.",
    lander: null,
  };
  const craft: Entity<"craft"> = { id: craftId, classId, name: craftClass.name, note: "", engineChanges: [] };
  const runs = plant.duty
    .map(({ fromAt, untilAt }) => ({
      fromAt: Math.max(fromAt, plan.asOfAt),
      untilAt: Math.min(untilAt, plan.horizonAt),
    }))
    .filter(({ fromAt, untilAt }) => untilAt > fromAt)
    .map(({ fromAt, untilAt }, index): Entity<"flight"> => {
      const days = (untilAt - fromAt) / DAY_MS;
      const key = nextKey();
      return {
        id: `${key}.${plan.planCase.id}`.slice(0, 64),
        planCaseId: plan.planCase.id,
        key,
        name: `${source.name} run ${index + 1}`.slice(0, 80),
        craftId,
        origin: { kind: "source", sourceId: source.id },
        depotId,
        departAt: fromAt,
        arriveAt: fromAt + LINE_FILL_MS,
        berthDays: days,
        loads: [
          { propellantId: hydrogenId, loadedKg: gram(output.propellantHydrogenKg * days) },
          { propellantId: oxygenId, loadedKg: gram(output.propellantOxygenKg * days) },
        ],
        ...freshFlight,
      };
    });
  if (runs.length === 0)
    return refuse(`${source.name} has no duty between the as-of date and the end of the plan.`, "duty");
  return [
    { op: "put", kind: "craftClass", value: craftClass },
    { op: "put", kind: "craft", value: craft },
    ...runs.map((value): Change => ({ op: "put", kind: "flight", value })),
  ];
};
