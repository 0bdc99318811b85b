/** A flight arrived: what it carried is parted into what each tank took and what was lost, left aboard or vented. */
import type { RecordInput } from "./record-input.ts";
import { PlanningError } from "../ground/failure.ts";
import { findEntity } from "../entity/entity-index.ts";
import { type Posting, accountId, toGrams, toKg } from "../ledger/journal.ts";
import type { Step } from "../ledger/books.ts";
import { entryOf, gathered, gramsByPropellant, line } from "./postings.ts";
import { type RecordBooks, type Recorder, stepOf } from "./recorder.ts";
import { withRestatement } from "./restate.ts";
import { flightEverywhere, flightIn, tankOf } from "./subject.ts";

const nameOf = (books: RecordBooks, propellantId: string) =>
  findEntity(books.entities(), "propellant", propellantId)?.name ?? propellantId;

/** A part of what a tank took, flowing evenly. */
interface Flow {
  readonly tankId: string;
  readonly fromAt: number;
  readonly untilAt: number;
  readonly grams: number;
}

/** The flows of a metered handover, tank by tank, in whole grams that add up to what each tank took. */
const flowsOf = (input: RecordInput<"record.arrival">, sinceAt: number): readonly Flow[] => {
  const isWithin = ({ fromAt, untilAt }: { fromAt: number; untilAt: number }): boolean =>
    fromAt < untilAt && sinceAt <= fromAt && untilAt <= input.at;
  return input.taken.flatMap(({ tankId, massKg }) => {
    const said = (input.course ?? []).filter((row) => row.tankId === tankId && row.massKg > 0 && isWithin(row));
    const rows = said.length > 0 ? said : [{ tankId, fromAt: sinceAt, untilAt: input.at, massKg: 1 }];
    const whole = rows.reduce((sum, row) => sum + row.massKg, 0);
    const grams = toGrams(massKg);
    let given = 0;
    let share = 0;
    return rows.flatMap(({ fromAt, untilAt, massKg: part }) => {
      share += part;
      const until = Math.round((grams * share) / whole);
      const own = until - given;
      given = until;
      return own > 0 ? [{ tankId, fromAt, untilAt, grams: own }] : [];
    });
  });
};

/** Whatever of the load is neither taken, lost in the handover, left aboard nor vented was lost on the way. */
export const recordArrival = (books: RecordBooks, input: RecordInput<"record.arrival">, recorder: Recorder): Step => {
  const entities = books.entities();
  const flight = flightIn(entities, input.flightId, ["departed"]);
  if (Math.min(input.at, input.sinceAt ?? input.at) < flight.departAt)
    throw new PlanningError("refused", `${flight.name} cannot arrive before it departed.`, "at");
  const lost = gramsByPropellant(input.handoverLoss, "handoverLoss");
  const aboard = gramsByPropellant(input.leftAboard, "leftAboard");
  const vented = gramsByPropellant(input.vented, "vented");
  const taken = input.taken.map(({ tankId, massKg }, i) => ({
    tank: tankOf(entities, tankId, flight.depotId, `taken.${i}.tankId`),
    grams: toGrams(massKg),
  }));
  const propellantIds = new Set([
    ...flight.loads.map((load) => load.propellantId),
    ...taken.map(({ tank }) => tank.propellantId),
    ...[lost, aboard, vented].flatMap((grams) => [...grams.keys()]),
  ]);
  const lines = [...propellantIds].flatMap((id) => {
    const carried = toGrams(books.balanceKg(accountId({ kind: "transit", ownerId: flight.key }), id));
    const given = taken.filter(({ tank }) => tank.propellantId === id);
    const [h, a, v] = [lost.get(id) ?? 0, aboard.get(id) ?? 0, vented.get(id) ?? 0];
    const said = given.reduce((sum, { grams }) => sum + grams, 0) + h + a + v;
    if (said > carried)
      throw new PlanningError(
        "refused",
        `${flight.name} left with ${toKg(carried)} kg of ${nameOf(books, id)}; taken, lost, left aboard and vented come to ${toKg(said)} kg.`,
        "taken",
      );
    return [
      line("transit", flight.key, id, -carried),
      ...given.map(({ tank, grams }) => line("tank", tank.id, id, grams)),
      line("handover loss", flight.depotId, id, h),
      line("residual", flight.craftId, id, a),
      line("vented", flight.depotId, id, v),
      line("in-flight loss", flight.craftId, id, carried - said),
    ];
  });
  const what = { kind: "arrival", subjectKey: flight.key, note: input.note } as const;
  const flowing = input.sinceAt !== undefined && input.sinceAt < input.at ? flowsOf(input, input.sinceAt) : [];
  const flowed = new Set(flowing.map(({ tankId }) => tankId));
  const isFlow = ({ account }: Posting): boolean => account.kind === "tank" && flowed.has(account.ownerId);
  // What the flows carry leaves the way with them, the rest at the end.
  const atOnce = lines.filter((posting) => posting.grams !== 0 && !isFlow(posting));
  const parts = flowing.map((flow) => {
    const tank = taken.find((row) => row.tank.id === flow.tankId)?.tank;
    return { ...flow, propellantId: tank?.propellantId ?? "" };
  });
  const back = parts.map(({ propellantId, grams }) => line("transit", flight.key, propellantId, grams));
  const entries = [
    ...parts.map(({ tankId, propellantId, grams, fromAt, untilAt }) =>
      entryOf(
        { ...what, at: untilAt, sinceAt: fromAt },
        [line("tank", tankId, propellantId, grams), line("transit", flight.key, propellantId, -grams)],
        recorder,
      ),
    ),
    entryOf(
      { ...what, at: input.at },
      gathered([...atOnce, ...back]).filter((posting) => posting.grams !== 0),
      recorder,
    ),
  ].filter((entry) => entry !== null);
  const changes = flightEverywhere(entities, flight.key, (row) => ({
    ...row,
    status: "arrived",
    arriveAt: input.sinceAt ?? input.at,
  }));
  const draft = { label: `${flight.name} arrived`, changes, entries };
  return stepOf(withRestatement(books, draft, recorder), recorder);
};
