/** One desk reads a gauge while a tanker hands over; the other desk records the arrival. Joined, what was measured stands. */
import { expect, it } from "vitest";
import { day, temporaryFolder } from "../records/hand-ledger.ts";
import { type Desk, kgOn, lookAt, merge, twoDesks } from "./desks.ts";

const folder = temporaryFolder();

const desks = () =>
  twoDesks(folder, (first) =>
    first.record("record.departure", {
      flightId: "base.drover-1",
      at: day(11),
      loads: [{ propellantId: "lh2", loadedKg: 500 }],
      note: "",
    }),
  );
const read = (desk: Desk, id = "gauge"): void =>
  desk.record("record.reading", {
    id,
    tankId: "mere-lh2",
    at: day(19),
    massKg: 1000,
    sigmaKg: 10,
    takeIntoBooks: true,
    note: "",
  });
const arrive = (desk: Desk): void =>
  desk.record("record.arrival", {
    flightId: "base.drover-1",
    sinceAt: day(17),
    at: day(21),
    taken: [{ tankId: "mere-lh2", massKg: 480 }],
    handoverLoss: [],
    leftAboard: [],
    vented: [],
    note: "",
  });
const booksOf = (desk: Desk) => ({
  stated: desk.store.statedLevels().find(({ tankId }) => tankId === "mere-lh2"),
  nowKg: kgOn(desk, "tank/mere-lh2"),
  isSound: desk.store.verify().isSound,
});
/** Half of the 480 kg had flowed by the reading and is in it; the other half comes on top. */
const standing = { stated: { tankId: "mere-lh2", at: day(19), massKg: 1000 }, nowKg: 1240, isSound: true };

it("says no where one desk read the gauge and the other recorded the arrival: nobody knows what had flowed", () => {
  const { north, south } = desks();
  read(north);
  arrive(south);
  for (const [here, there] of [[north, south] as const, [south, north] as const])
    expect(lookAt(here, there, "keep both").view.outcome.blocked).toEqual([
      "Arrival of Drover 1 was still flowing into Mere lh2 until 2031-01-22 00:00 UTC when the tank was measured on the other desk on 2031-01-20 00:00 UTC: what had flowed by then is not known here. Take the reading back there or here, merge, and record it again.",
    ]);
});

it("takes both once the reading is recorded again where the arrival is known", () => {
  const { north, south } = desks();
  read(north);
  arrive(south);
  north.withdraw("gauge");
  merge(north, south, "keep both");
  read(north, "gauge-again");
  expect(booksOf(north)).toEqual(standing);
});

it("where both desks read the gauge and one recorded the arrival", () => {
  const { north, south } = desks();
  read(north);
  read(south);
  arrive(south);
  merge(north, south, "take theirs");
  expect(booksOf(north)).toEqual(standing);
});
