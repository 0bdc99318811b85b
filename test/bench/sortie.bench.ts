/** How long a sortie sheet takes, with stated Δv and with integrated landing. */
import { heronCached, heronDirect, heronIntegrated, heronLander, heronMission } from "../../app/demo/heron.ts";
import { wrenLander, wrenTwoStages } from "../../app/demo/wren.ts";
import { demoTarn } from "../../app/demo/tarn.ts";
import { depotWaiting } from "../../app/ways/depot-waiting.ts";
import { movesMost } from "../../app/ways/break-even.ts";
import { vehicleWays } from "../../app/ways/vehicle-way.ts";
import { waysAcross } from "../../app/ways/ways-across.ts";
import { planeCurve } from "../../app/sortie/plane-curve.ts";
import { sortieSheet } from "../../app/sortie/sheet.ts";
import { type Bench, medianOf } from "./bench.ts";

const propellants = [
  { id: "hydrogen", densityKgPerM3: 70.8 },
  { id: "oxygen", densityKgPerM3: 1141 },
  { id: "hydrazine", densityKgPerM3: 1008 },
];

/** The coast to the orbit stays above 2 km: which turn takes least is searched for. */
const leastAscent = {
  ...heronIntegrated,
  steps: heronIntegrated.steps.map((step) =>
    step.kind === "burn" && step.deltaV.kind === "computed ascent"
      ? { ...step, deltaV: { ...step.deltaV, coastAboveKm: 2 } }
      : step,
  ),
};

const sheetOf = (profile: typeof heronDirect) => (): void => {
  sortieSheet(heronLander, profile, heronMission, propellants);
};

/** A site that the lander reaches from a polar orbit, a stay of six days. */
const withSite = {
  ...heronDirect,
  landing: {
    site: "Marsh",
    latitudeDeg: -85,
    longitudeDeg: 30,
    orbitKm: 100,
    inclinationDeg: 90,
    passes: "north" as const,
    landsAfterPassDays: 0,
    dogLegLimitDeg: 2,
  },
};

const { entities } = demoTarn();
const craftClasses = entities.craftClass ?? [];
const ways = vehicleWays({ craftClasses, profiles: entities.profile ?? [] });
const tanker = craftClasses.find(({ role }) => role === "tanker");
if (tanker === undefined) throw new Error("the demonstration has no tanker");
const by = {
  tanker,
  mission: heronMission,
  propellants: entities.propellant ?? [],
  waiting: depotWaiting({
    depots: entities.depot ?? [],
    sorties: entities.sortie ?? [],
    tanks: entities.tank ?? [],
    lossPeriods: entities.lossPeriod ?? [],
  }),
};

export const bench: Bench = {
  name: "sortie",
  run: () => [
    { name: "sortie sheet, stated Δv", value: medianOf(15, sheetOf(heronDirect), 50), unit: "ms", limit: 0.2 },
    {
      name: "sortie sheet with a cache",
      value: medianOf(15, sheetOf(heronCached), 50),
      unit: "ms",
      limit: 0.2,
      ratioTo: "sortie sheet, stated Δv",
    },
    {
      name: "sortie sheet of two stages",
      value: medianOf(15, () => void sortieSheet(wrenLander, wrenTwoStages, heronMission, propellants), 50),
      unit: "ms",
      limit: 0.3,
    },
    {
      name: "sortie sheet, descent and ascent integrated",
      value: medianOf(15, sheetOf(heronIntegrated)),
      unit: "ms",
      limit: 20,
    },
    {
      name: "sortie sheet, the ascent with least propellant",
      value: medianOf(15, sheetOf(leastAscent)),
      unit: "ms",
      limit: 20,
      ratioTo: "sortie sheet, descent and ascent integrated",
    },
    {
      name: "ways across vehicles, with what moves the break-even most",
      value: medianOf(7, () => {
        const found = waysAcross(ways, by, 12);
        const [one, other] = [found.reference, found.ways.at(-1)?.lifted];
        if (one && other) movesMost(one.way, other.way, by);
      }),
      unit: "ms",
      limit: 200,
    },
    {
      name: "load over the day of lift-off, 30 days in quarters",
      value: medianOf(7, () => {
        planeCurve(heronLander, withSite, heronMission, { untilDays: 30, steps: 120 });
      }),
      unit: "ms",
      limit: 50,
    },
  ],
};
