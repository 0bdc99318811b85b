/** Half a year of invented records at Tarn: an opening, three arrivals of which one late, a sortie, monthly gauging. */
import type { Entity } from "../ledger/entities.ts";
import { levelAfter } from "../forecast/level.ts";
import { DAY_MS } from "../ledger/quantity.ts";
import { type Move, createRecorder } from "./recorder.ts";
import { tarnClasses, tarnLossPeriods, tarnTanks } from "./tarn-hardware.ts";
import { tarnFlights, tarnSorties } from "./tarn-plan.ts";

const at = (iso: string): number => Date.parse(`${iso}:00Z`);

export const TARN_AS_OF_AT = at("2031-06-01T00:00");

const opening = [
  ["hydrogen", 5400],
  ["oxygen", 22_500],
  ["hydrazine", 800],
] as const;

/** What each gauging was off the loss model, kg: hydrogen, oxygen, hydrazine. */
const gaugings: readonly (readonly [iso: string, errors: readonly [number, number, number]])[] = [
  ["2031-01-01T12:00", [-14.2, 61.5, 0.4]],
  ["2031-02-01T12:00", [-31.7, -48.0, -0.9]],
  ["2031-03-01T12:00", [-9.3, 112.4, 1.1]],
  ["2031-04-01T12:00", [6.8, -75.2, -0.3]],
  ["2031-05-01T12:00", [-17.5, 33.9, 0.6]],
  ["2031-06-01T00:00", [-11.1, -20.6, -0.5]],
];

/** One standard uncertainty of the gauge: a share of the maximum fill. */
const sigmaShare = { hydrogen: 0.003, oxygen: 0.0015, hydrazine: 0.001 } as const;

/** What was loaded above the forecast's demand and came home, as it happened. */
const flown = [
  { propellantId: "hydrogen", drawnKg: 6512.4, handoverKg: 43.1, homeKg: 296.8 },
  { propellantId: "oxygen", drawnKg: 36_980.2, handoverKg: 133.9, homeKg: 1244.5 },
  { propellantId: "hydrazine", drawnKg: 501.3, handoverKg: 1.0, homeKg: 23.4 },
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
  step(sortie.loadAt, () =>
    recorder.move(
      sortie.loadAt,
      "loading",
      "sortie-1",
      "",
      flown.flatMap(({ propellantId, drawnKg, handoverKg }): readonly Move[] => [
        { kind: "tank", ownerId: `tarn-${propellantId}`, propellantId, kg: -drawnKg },
        { kind: "handover loss", ownerId: "tarn", propellantId, kg: handoverKg },
        { kind: "tank", ownerId: `heron-1-${propellantId}`, propellantId, kg: drawnKg - handoverKg },
      ]),
    ),
  );
  step(sortie.returnAt, () =>
    recorder.move(
      sortie.returnAt,
      "return",
      "sortie-1",
      "",
      flown.flatMap(({ propellantId, drawnKg, handoverKg, homeKg }): readonly Move[] => [
        { kind: "tank", ownerId: `heron-1-${propellantId}`, propellantId, kg: homeKg - (drawnKg - handoverKg) },
        { kind: "burned", ownerId: "heron-1", propellantId, kg: drawnKg - handoverKg - homeKg },
      ]),
    ),
  );
  for (const [iso, errors] of gaugings)
    step(at(iso), () =>
      (["hydrogen", "oxygen", "hydrazine"] as const).forEach((propellantId, index) => {
        const tank = tarnTanks.find(({ id }) => id === `tarn-${propellantId}`);
        recorder.read(
          at(iso),
          `tarn-${propellantId}`,
          errors[index] ?? 0,
          (tank?.maximumFillKg ?? 0) * sigmaShare[propellantId],
        );
      }),
    );
  for (const each of steps.toSorted((a, b) => a.at - b.at)) each.write();
  return { entries: recorder.entries, readings: recorder.readings };
};
