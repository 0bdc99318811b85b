/** One site reads a gauge while a tanker hands over; the other site records the arrival. Joined, what was measured stands. */
import { expect, it } from "vitest";
import { day, temporaryFolder } from "../records/hand-ledger.ts";
import { type Site, kgOn, lookAt, merge, twoSites } from "./sites.ts";

const folder = temporaryFolder();

const sites = () =>
  twoSites(folder, (first) =>
    first.record("record.departure", {
      flightId: "base.drover-1",
      at: day(11),
      loads: [{ propellantId: "lh2", loadedKg: 500 }],
      note: "",
    }),
  );
const read = (site: Site, id = "gauge"): void =>
  site.record("record.reading", {
    id,
    tankId: "mere-lh2",
    at: day(19),
    massKg: 1000,
    sigmaKg: 10,
    takeIntoBooks: true,
    note: "",
  });
const arrive = (site: Site): void =>
  site.record("record.arrival", {
    flightId: "base.drover-1",
    sinceAt: day(17),
    at: day(21),
    taken: [{ tankId: "mere-lh2", massKg: 480 }],
    handoverLoss: [],
    leftAboard: [],
    vented: [],
    note: "",
  });
const booksOf = (site: Site) => ({
  stated: site.store.statedLevels().find(({ tankId }) => tankId === "mere-lh2"),
  nowKg: kgOn(site, "tank/mere-lh2"),
  isSound: site.store.verify().isSound,
});
/** Half of the 480 kg had flowed by the reading and is in it; the other half comes on top. */
const standing = { stated: { tankId: "mere-lh2", at: day(19), massKg: 1000 }, nowKg: 1240, isSound: true };

it("says no where one site read the gauge and the other recorded the arrival: nobody knows what had flowed", () => {
  const { north, south } = sites();
  read(north);
  arrive(south);
  for (const [here, there] of [[north, south] as const, [south, north] as const])
    expect(lookAt(here, there, "keep both").view.outcome.blocked).toEqual([
      "Arrival of Drover 1 was still flowing into Mere lh2 until 2031-01-22 00:00 UTC when the tank was measured at the other site on 2031-01-20 00:00 UTC: what had flowed by then is not known here. Take the reading back there or here, merge, and record it again.",
    ]);
});

it("takes both once the reading is recorded again where the arrival is known", () => {
  const { north, south } = sites();
  read(north);
  arrive(south);
  north.withdraw("gauge");
  merge(north, south, "keep both");
  read(north, "gauge-again");
  expect(booksOf(north)).toEqual(standing);
});

it("where both sites read the gauge and one recorded the arrival", () => {
  const { north, south } = sites();
  read(north);
  read(south);
  arrive(south);
  merge(north, south, "take theirs");
  expect(booksOf(north)).toEqual(standing);
});
