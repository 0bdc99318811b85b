/** How long a sortie sheet takes, with stated Δv and with integrated landing. */
import { heronCached, heronDirect, heronIntegrated, heronLander, heronMission } from "../../app/demo/heron.ts";
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
  ],
};
