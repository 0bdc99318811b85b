/** Half a year of invented records at Tarn: an opening, three arrivals of which one late, a sortie, monthly gauging. */
import type { Entity } from "../entity/entities.ts";
import { levelAfter } from "../storage/level.ts";
import { toGrams, toKg } from "../ledger/journal.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { sortieUses, usedOf } from "../records/sortie-uses.ts";
import { type Move, createRecorder } from "./recorder.ts";
import { heronDirect } from "./heron.ts";
import { tarnClasses, tarnCraft, tarnLossPeriods, tarnPropellants, tarnTanks } from "./tarn-hardware.ts";
import { tarnFlights, tarnSorties } from "./tarn-plan.ts";

const at = (iso: string): number => Date.parse(`${iso}:00Z`);

const opening = [
  ["hydrogen", 5400],
  ["oxygen", 22_500],
  ["hydrazine", 800],
] as const;

/**
 * What the gauge was off the true level at each gauging, in units of its standard uncertainty: hydrogen, oxygen,
 * hydrazine. Invented, and chosen to scatter about as a gauge of that uncertainty does. The true level follows the loss model.
 */
const gaugings: readonly (readonly [iso: string, errors: readonly [number, number, number]])[] = [
  ["2031-01-01T12:00", [-0.46, 0.72, 0.31]],
  ["2031-02-01T12:00", [1.02, -1.21, -1.13]],
  ["2031-03-01T12:00", [-1.37, 1.05, 0.88]],
  ["2031-04-01T12:00", [0.61, -0.34, -0.52]],
  ["2031-05-01T12:00", [0.83, 0.58, 1.24]],
  ["2031-06-01T00:00", [-0.39, -0.67, -0.43]],
];

/** One standard uncertainty of the gauge: a share of the maximum fill. */
const sigmaShare = { hydrogen: 0.003, oxygen: 0.0015, hydrazine: 0.001 } as const;

/** What was drawn, lost of it in chilldown and handover, and came home, as it happened. */
const flown = [
  { propellantId: "hydrogen", drawnKg: 6791.8, handoverKg: 162.4, homeKg: 298.3 },
  { propellantId: "oxygen", drawnKg: 37_690.5, handoverKg: 202.9, homeKg: 1254.6 },
  { propellantId: "hydrazine", drawnKg: 503.6, handoverKg: 1.0, homeKg: 23.4 },
] as const;

const baseline = <T extends { readonly planCaseId: string; readonly key: string }>(
  rows: readonly T[],
  key: string,
): T => {
  const row = rows.find((each) => each.planCaseId === "baseline" && each.key === key);
  if (row === undefined) throw new Error(`The demonstration has no ${key}.`);
  return row;
};

const departureMoves = (flight: Entity<"flight">): readonly Move[] =>
  flight.loads.flatMap(({ propellantId, loadedKg }): readonly Move[] => [
    { kind: "source", ownerId: "ground", propellantId, kg: -loadedKg },
    { kind: "transit", ownerId: flight.key, propellantId, kg: loadedKg },
  ]);

/** What the model says of an arrival, rounded to the gram. */
const arrivalMoves = (flight: Entity<"flight">): readonly Move[] => {
  const craftClass = tarnClasses.find(({ id }) => flight.craftId.startsWith(id));
  return flight.loads.flatMap(({ propellantId, loadedKg }): readonly Move[] => {
    const line = craftClass?.propellants.find((each) => each.propellantId === propellantId);
    if (line === undefined) return [];
    const gram = (kg: number): number => Math.round(kg * 1000) / 1000;
    const arrivedKg = gram(
      levelAfter(loadedKg, line.kPerDay, line.cKgPerDay, (flight.arriveAt - flight.departAt) / DAY_MS),
    );
    const handoverKg = gram(line.chilldownKg + (arrivedKg - line.residualKg - line.chilldownKg) * line.lossFraction);
    const takenKg = arrivedKg - line.residualKg - handoverKg;
    return [
      { kind: "transit", ownerId: flight.key, propellantId, kg: -loadedKg },
      { kind: "in-flight loss", ownerId: flight.craftId, propellantId, kg: loadedKg - arrivedKg },
      { kind: "residual", ownerId: flight.craftId, propellantId, kg: line.residualKg },
      { kind: "handover loss", ownerId: "tarn", propellantId, kg: handoverKg },
      { kind: "tank", ownerId: `tarn-${propellantId}`, propellantId, kg: takenKg },
    ];
  });
};

/** The journal entries and readings, in the order of time. */
export const tarnRecords = () => {
  const recorder = createRecorder(
    tarnLossPeriods,
    "tarn",
    new Map(tarnTanks.map(({ id, propellantId }) => [id, propellantId])),
  );
  const steps: { readonly at: number; readonly write: () => void }[] = [];
  const step = (when: number, write: () => void): void => void steps.push({ at: when, write });

  step(at("2030-12-01T00:00"), () =>
    recorder.move(
      at("2030-12-01T00:00"),
      "opening",
      null,
      "Taken over from the builder.",
      opening.flatMap(([propellantId, kg]): readonly Move[] => [
        { kind: "tank", ownerId: `tarn-${propellantId}`, propellantId, kg },
        { kind: "source", ownerId: "ground", propellantId, kg: -kg },
      ]),
    ),
  );
  for (const key of ["packhorse-1", "drover-1", "packhorse-2"]) {
    const flight = baseline(tarnFlights, key);
    step(flight.departAt, () => recorder.move(flight.departAt, "departure", key, "", departureMoves(flight)));
    step(flight.arriveAt, () => recorder.move(flight.arriveAt, "arrival", key, flight.note, arrivalMoves(flight)));
  }
  const onItsWay = baseline(tarnFlights, "drover-2");
  step(onItsWay.departAt, () =>
    recorder.move(onItsWay.departAt, "departure", "drover-2", "", departureMoves(onItsWay)),
  );

  const sortie = baseline(tarnSorties, "sortie-1");
  const uses = sortieUses(
    { craft: tarnCraft, craftClass: tarnClasses, profile: [heronDirect], propellant: tarnPropellants },
    sortie,
  );
  step(sortie.loadAt, () =>
    recorder.move(
      sortie.loadAt,
      "loading",
      "sortie-1",
      "",
      flown.flatMap(({ propellantId, drawnKg, handoverKg }): readonly Move[] => [
        { kind: "tank", ownerId: `tarn-${propellantId}`, propellantId, kg: -drawnKg },
        { kind: "handover loss", ownerId: "tarn", propellantId, kg: handoverKg },
        { kind: "transit", ownerId: "sortie-1", propellantId, kg: drawnKg - handoverKg },
      ]),
    ),
  );
  step(sortie.returnAt, () =>
    recorder.move(
      sortie.returnAt,
      "return",
      "sortie-1",
      "",
      flown.flatMap(({ propellantId, drawnKg, handoverKg, homeKg }): readonly Move[] => {
        const loadedGrams = toGrams(drawnKg) - toGrams(handoverKg);
        const used = usedOf(uses.get(propellantId), loadedGrams - toGrams(homeKg));
        return [
          { kind: "transit", ownerId: "sortie-1", propellantId, kg: -toKg(loadedGrams) },
          { kind: "tank", ownerId: `heron-1-${propellantId}`, propellantId, kg: homeKg },
          { kind: "boil-off", ownerId: "heron-1", propellantId, kg: toKg(used.boilOffGrams) },
          { kind: "consumed", ownerId: "heron-1", propellantId, kg: toKg(used.consumedGrams) },
          { kind: "burned", ownerId: "heron-1", propellantId, kg: toKg(used.burnedGrams) },
        ];
      }),
    ),
  );
  /** The last error of each gauge, kg: the books follow the gauge, so the next reading is off by the difference. */
  const lastErrorKg = new Map<string, number>();
  for (const [iso, errors] of gaugings)
    step(at(iso), () =>
      (["hydrogen", "oxygen", "hydrazine"] as const).forEach((propellantId, index) => {
        const tank = tarnTanks.find(({ id }) => id === `tarn-${propellantId}`);
        const sigmaKg = (tank?.maximumFillKg ?? 0) * sigmaShare[propellantId];
        const errorKg = Math.round((errors[index] ?? 0) * sigmaKg * 10) / 10;
        recorder.read(at(iso), `tarn-${propellantId}`, errorKg - (lastErrorKg.get(propellantId) ?? 0), sigmaKg);
        lastErrorKg.set(propellantId, errorKg);
      }),
    );
  for (const each of steps.toSorted((a, b) => a.at - b.at)) each.write();
  return { entries: recorder.entries, readings: recorder.readings };
};
