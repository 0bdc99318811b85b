/** A new thing of each kind, with the defaults that the plan suggests; null and a sentence where something must be there first. */
import type { PlanSnapshot } from "../../app/entity/plan.ts";
import type { Entity, EntityKind } from "../../app/entity/entities.ts";
import { DAY_MS } from "../../app/ground/quantity.ts";
import { defaultInputs } from "../../app/risk/default-inputs.ts";
import { type Quantity, quantities } from "../../app/entity/risk-input.ts";
import { nextWindow } from "../../app/entity/windows.ts";
import { freshFlight } from "../../app/entity/flight.ts";
import { freshSortie } from "../../app/entity/sortie.ts";
import { tabledPropellants } from "../names/tabled-propellants.ts";
import { rowsOf } from "../names/entity-words.ts";
import { nextName } from "../names/new-id.ts";

export type Fresh<K extends EntityKind> =
  | { readonly ok: true; readonly value: Entity<K> }
  | { readonly ok: false; readonly missing: string };

interface FreshContext {
  readonly plan: PlanSnapshot;
  /** When it was pointed at; null: soon after the as-of instant. */
  readonly at: number | null;
  /** What is selected: the tank of a loss period, the depot of a tank. */
  readonly nearId: string | null;
}

type Maker<K extends EntityKind> = (context: FreshContext) => Entity<K> | string;

const midnight = (at: number): number => Math.ceil(at / DAY_MS) * DAY_MS;
const NO_ID = "new";

/** The density is one that no rule takes, so that it must be typed. */
export const describedByHand = { name: "", symbol: "", fluid: null, densityKgPerM3: 0 } as const;

/** "Packhorse 4": the stem with the next number that no other of the kind has. */
export const newName = (plan: PlanSnapshot, kind: EntityKind, stem: string): string =>
  nextName(`${stem} 0`, new Set(rowsOf(plan, kind).map((row) => (row as { name?: string }).name ?? "")));

export const newTankName = (owner: string, propellant: string): string => `${owner} ${propellant.toLowerCase()}`;

/** A craft of the role: that of the flight or sortie nearby, else the first. */
const craftOf = (plan: PlanSnapshot, role: "tanker" | "lander", nearId: string | null) => {
  const classes = new Map(plan.craftClasses.map((row) => [row.id, row]));
  const nearCraftId =
    plan.flights.find(({ id }) => id === nearId)?.craftId ?? plan.sorties.find(({ id }) => id === nearId)?.landerId;
  const able = plan.craft.filter(({ classId }) => classes.get(classId)?.role === role);
  const craft = able.find(({ id }) => id === nearCraftId) ?? able[0];
  return craft === undefined ? null : { craft, craftClass: classes.get(craft.classId) };
};

/** What a class is loaded with at departure. */
export const usualLoads = (craftClass: Entity<"craftClass"> | undefined): Entity<"flight">["loads"] =>
  (craftClass?.propellants ?? [])
    .filter(({ loadKg }) => loadKg > 0)
    .map(({ propellantId, loadKg }) => ({ propellantId, loadedKg: loadKg }));

/** The first quantity of which nothing is stated for everything: another word on it would be refused. */
const firstUnstated = (plan: PlanSnapshot): Quantity =>
  quantities.find(
    (quantity) =>
      !plan.riskInputs.some(({ uncertainty }) => uncertainty.quantity === quantity && uncertainty.of.kind === "every"),
  ) ?? "flight slip";

const makers: { readonly [K in EntityKind]: Maker<K> } = {
  propellant: ({ plan }) => ({
    id: NO_ID,
    // The first of the tables that the plan does not have; after those, one that is described by hand.
    ...(tabledPropellants.find(({ fluid }) => plan.propellants.every((row) => row.fluid !== fluid)) ?? describedByHand),
    position: Math.min(99, Math.max(-1, ...plan.propellants.map(({ position }) => position)) + 1),
  }),
  depot: () => ({
    id: NO_ID,
    name: "",
    orbit: "",
    windowPeriodDays: null,
    windowReferenceAt: null,
    ports: 1,
    note: "",
    windowList: null,
    lunarOrbit: null,
  }),
  source: () => ({ id: NO_ID, name: "", kind: "ground", note: "", plant: null }),
  craftClass: () => ({
    id: NO_ID,
    name: "",
    role: "tanker",
    propellants: [],
    tripDays: 7,
    berthDays: 2,
    note: "",
    lander: null,
    turnaroundDays: 0,
    costPerFlight: null,
    costUnit: "",
    hardwareKg: null,
  }),
  profile: ({ plan, nearId }) => {
    const landers = plan.craftClasses.filter(({ role }) => role === "lander");
    const craftClass = landers.find(({ id }) => id === nearId) ?? landers[0];
    if (craftClass === undefined) return "Add a lander class first: a profile is a way that one flies a sortie.";
    return {
      id: NO_ID,
      classId: craftClass.id,
      name: "",
      steps: [],
      reserve: { kind: "percent of load", percent: 0 },
      note: "",
      landing: null,
    };
  },
  craft: ({ plan, nearId }) => {
    const craftClass = plan.craftClasses.find(({ id }) => id === nearId) ?? plan.craftClasses[0];
    if (craftClass === undefined) return "Add a craft class first: a craft is one serial of a class.";
    return {
      id: NO_ID,
      classId: craftClass.id,
      name: newName(plan, "craft", craftClass.name),
      note: "",
      engineChanges: [],
    };
  },
  tank: ({ plan, nearId }) => {
    const propellant = plan.propellants[0];
    const depot = plan.depots.find(({ id }) => id === nearId) ?? plan.depots[0];
    if (propellant === undefined) return "Add a propellant first: a tank holds one.";
    if (depot === undefined) return "Add a depot first: a tank belongs to one.";
    return {
      id: NO_ID,
      ownerKind: "depot",
      ownerId: depot.id,
      propellantId: propellant.id,
      name: newTankName(depot.name, propellant.name),
      volumeM3: null,
      ullagePercent: 3,
      maximumFillKg: 0,
      heelKg: 0,
      reserveKg: 0,
      rank: null,
    };
  },
  planCase: ({ plan }) => ({ ...plan.planCase, id: NO_ID, name: "", basedOnId: plan.planCase.id }),
  lossPeriod: ({ plan, at, nearId }) => {
    const tank = plan.tanks.find(({ id }) => id === nearId) ?? plan.tanks[0];
    if (tank === undefined) return "Add a tank first: a loss period says what a tank loses.";
    return {
      id: NO_ID,
      tankId: tank.id,
      planCaseId: null,
      fromAt: at,
      untilAt: null,
      basis: { kind: "stated", kPerDay: 0, cKgPerDay: 0 },
      reason: "",
      note: "",
    };
  },
  campaign: ({ plan }) => ({
    id: NO_ID,
    planCaseId: plan.planCase.id,
    key: NO_ID,
    name: "",
    goal: "",
    holdLimitDays: 30,
  }),
  flight: ({ plan, at, nearId }) => {
    const tanker = craftOf(plan, "tanker", nearId);
    const [source] = plan.sources;
    const [depot] = plan.depots;
    if (depot === undefined) return "Add a depot first: a flight goes to one.";
    if (source === undefined) return "Add a source first: a flight brings propellant from one.";
    if (tanker === null) return "Add a tanker class and a tanker first.";
    const { craft, craftClass } = tanker;
    const departAt = midnight(at ?? plan.asOfAt + 30 * DAY_MS);
    return {
      id: NO_ID,
      planCaseId: plan.planCase.id,
      key: NO_ID,
      name: newName(plan, "flight", craftClass?.name ?? "Flight"),
      craftId: craft.id,
      origin: { kind: "source", sourceId: source.id },
      depotId: depot.id,
      departAt,
      arriveAt: departAt + Math.round((craftClass?.tripDays ?? 7) * DAY_MS),
      berthDays: craftClass?.berthDays ?? 2,
      loads: usualLoads(craftClass),
      ...freshFlight,
    };
  },
  sortie: ({ plan, at, nearId }) => {
    const lander = craftOf(plan, "lander", nearId);
    const [depot] = plan.depots;
    const [campaign] = plan.campaigns;
    if (depot === undefined) return "Add a depot first: a sortie loads at one.";
    if (lander === null) return "Add a lander class and a lander first.";
    if (campaign === undefined) return "Add a campaign first: a sortie belongs to one (Plan cases, Campaigns).";
    const wishedAt = midnight(at ?? plan.asOfAt + 60 * DAY_MS);
    const windowAt = nextWindow(depot, wishedAt);
    // After the last window of a list the wish stands; the form says that no window is open then.
    const loadAt = windowAt === Infinity ? wishedAt : windowAt;
    return {
      id: NO_ID,
      planCaseId: plan.planCase.id,
      key: NO_ID,
      campaignId: campaign.id,
      landerId: lander.craft.id,
      depotId: depot.id,
      name: newName(plan, "sortie", "Sortie"),
      loadAt,
      returnAt: loadAt + Math.round((lander.craftClass?.tripDays ?? 14) * DAY_MS),
      demand: { kind: "class" },
      ...freshSortie,
    };
  },
  riskInput: ({ plan }) => ({
    id: NO_ID,
    planCaseId: plan.planCase.id,
    uncertainty: defaultInputs[firstUnstated(plan)].uncertainty,
    source: null,
    note: "",
  }),
};

export const freshEntity = <K extends EntityKind>(kind: K, context: FreshContext): Fresh<K> => {
  const made = (makers[kind] as Maker<K>)(context);
  return typeof made === "string" ? { ok: false, missing: made } : { ok: true, value: made };
};
