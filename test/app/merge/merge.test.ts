/** Merging the records of another site, from cases worked by hand. */
import { expect, it } from "vitest";
import { day, handLedger, stepWith, temporaryFolder } from "../records/hand-ledger.ts";
import { planLines } from "../../../app/merge/outcome-words.ts";
import { type Site, balances, kgOn, lookAt, merge, twoSites } from "./sites.ts";

const folder = temporaryFolder();

const depart = (site: Site, kg: number): void =>
  site.record("record.departure", {
    flightId: "base.drover-1",
    at: day(10),
    loads: [{ propellantId: "lh2", loadedKg: kg }],
    note: "",
  });
const arrive = (site: Site, kg: number, at = day(15)): void =>
  site.record("record.arrival", {
    flightId: "base.drover-1",
    at,
    taken: [{ tankId: "mere-lh2", massKg: kg }],
    handoverLoss: [],
    leftAboard: [],
    vented: [],
    note: "",
  });
let gauges = 0;
const gauge = (site: Site, at: number, kg: number, tankId = "mere-lox", takeIntoBooks = true): string => {
  const id = `gauge-${site.name.toLowerCase()}-${(gauges += 1)}`;
  site.record("record.reading", { id, tankId, at, massKg: kg, sigmaKg: 10, takeIntoBooks, note: "" });
  return id;
};
const close = (site: Site, at: number): void =>
  site.record("record.closing", { depotId: "mere", at, measured: [], note: "" });
const lastEntry = ({ store }: Site, kind: string): string =>
  store.document().entries.findLast((row) => row.kind === kind)?.id ?? "";
const flight = ({ store }: Site) => store.entities().flight.find((row) => row.id === "base.drover-1");
const isClean = (site: Site): void => expect(site.store.verify()).toMatchObject({ isSound: true, faults: [] });

it("brings in what only the other site recorded, with who wrote it down and when", () => {
  const { north, south } = twoSites(folder);
  depart(south, 500);
  arrive(south, 480);
  const { view } = merge(north, south);
  expect(view).toMatchObject({ incomingCount: 2, conflicts: [], authors: ["South"] });
  expect(view.outcome).toMatchObject({ entries: 2, takenBack: 0, bookedAnew: 0, blocked: [] });
  expect(kgOn(north, "tank/mere-lh2")).toBe(1480);
  expect(kgOn(north, "in-flight loss/drover")).toBe(20);
  expect(flight(north)).toMatchObject({ status: "arrived", departAt: day(10), arriveAt: day(15) });
  expect(north.store.document().entries.at(-1)).toMatchObject({ author: "South", kind: "arrival" });
  expect(north.store.history(0, 1)[0]).toMatchObject({
    label: "Merge records of South.coldstock",
    reason: "merged from South.coldstock, programme Hand, records of South",
    author: "North",
  });
  isClean(north);
});

it("finds nothing to do when it is merged again, and leaves what only ours has", () => {
  const { north, south } = twoSites(folder);
  depart(south, 500);
  gauge(north, day(12), 3990);
  merge(north, south);
  const before = balances(north);
  const { view, step } = merge(north, south);
  expect(view).toMatchObject({ incomingCount: 0, conflicts: [], onlyHere: 1 });
  expect(view.outcome.isNothing).toBe(true);
  expect(step.entries).toEqual([]);
  expect(balances(north)).toEqual(before);
});

it("takes the same record entered at both sites for one", () => {
  const { north, south } = twoSites(folder);
  for (const site of [north, south]) depart(site, 500);
  arrive(south, 500);
  const { view } = merge(north, south);
  expect(view).toMatchObject({ incomingCount: 1, conflicts: [] });
  expect(kgOn(north, "source/ground")).toBe(-1500);
  expect(kgOn(north, "tank/mere-lh2")).toBe(1500);
});

it("asks where both sites recorded the same flight, and shows both masses", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  arrive(north, 480);
  arrive(south, 470, day(16));
  const [conflict, ...others] = lookAt(north, south).view.conflicts;
  expect(others).toEqual([]);
  expect(conflict).toMatchObject({ about: "Drover 1", bothWords: null });
  expect(conflict?.ours).toMatchObject([{ title: "Arrival of Drover 1", author: "North", at: day(15) }]);
  expect(conflict?.theirs).toMatchObject([{ title: "Arrival of Drover 1", author: "South", at: day(16) }]);
  expect(conflict?.masses.find(({ label }) => label === "Mere lh2")).toMatchObject({ oursKg: 480, theirsKg: 470 });
});

it("keeps ours, or takes theirs by counter-entry: nothing is deleted", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  arrive(north, 480);
  arrive(south, 470, day(16));
  merge(north, south, "keep ours");
  expect(kgOn(north, "tank/mere-lh2")).toBe(1480);
  const entries = north.store.document().entries.length;
  merge(north, south, "take theirs");
  expect(kgOn(north, "tank/mere-lh2")).toBe(1470);
  expect(flight(north)).toMatchObject({ status: "arrived", arriveAt: day(16) });
  const after = north.store.document().entries;
  expect(after.length).toBe(entries + 2);
  expect(after.find((row) => row.kind === "reversal")).toMatchObject({
    note: "merged from South.coldstock, programme Hand, records of South",
  });
  isClean(north);
  expect(lookAt(north, south).view).toMatchObject({ conflicts: [], incomingCount: 0 });
});

it("keeps two gauges read at one instant: ours in the books, theirs beside them", () => {
  const { north, south } = twoSites(folder);
  gauge(north, day(20), 3990);
  const theirs = gauge(south, day(20), 3985);
  const { view } = merge(north, south, "keep both");
  expect(view.conflicts[0]?.bothWords).toBe("Ours stays in the books; their reading is kept beside them.");
  expect(kgOn(north, "tank/mere-lox", "lox")).toBe(3990);
  expect(north.store.readings()).toContainEqual(expect.objectContaining({ id: theirs, massKg: 3985, entryId: null }));
  expect(lookAt(north, south).view).toMatchObject({ conflicts: [], incomingCount: 0 });
  isClean(north);
});

it("books a stated level anew where their records come in before it; the level stands", () => {
  // Oxygen has no loss model here: the whole of 4,000 − 3,900 kg is unaccounted; with 60 kg vented before, 40 kg is.
  const { north, south } = twoSites(folder);
  const reading = gauge(north, day(20), 3900);
  south.entry({
    id: "vent-south",
    at: day(5),
    kind: "vent",
    subjectKey: null,
    note: "relief valve",
    postings: [
      { account: { kind: "tank", ownerId: "mere-lox" }, propellantId: "lox", grams: -60_000 },
      { account: { kind: "vented", ownerId: "mere" }, propellantId: "lox", grams: 60_000 },
    ],
  });
  const { view } = merge(north, south);
  expect(view.outcome).toMatchObject({ entries: 1, takenBack: 0, bookedAnew: 1 });
  expect(kgOn(north, "tank/mere-lox", "lox")).toBe(3900);
  expect(kgOn(north, "unaccounted/mere", "lox")).toBe(40);
  expect(kgOn(north, "vented/mere", "lox")).toBe(60);
  const booked = north.store.readings().find((row) => row.id === reading)?.entryId;
  expect(north.store.entry(booked ?? "")).toMatchObject({ kind: "reading", at: day(20) });
  // And the other way round: their vent is here, the reading comes in.
  merge(south, north);
  expect(balances(south)).toEqual(balances(north));
  isClean(south);
});

it("books boil-off once where both sites booked it over spans that overlap", () => {
  // 1 %/day on 1,000 kg: 1,000·e^(−0.2) = 818.731 kg on day 20, 1,000·e^(−0.3) = 740.818 kg on day 30.
  const { north, south } = twoSites(folder);
  close(north, day(20));
  close(south, day(30));
  const { conflicts } = lookAt(north, south).view;
  expect(conflicts).toMatchObject([{ words: "Boil-off was booked at both sites over spans that overlap." }]);
  merge(north, south, "keep both");
  expect(kgOn(north, "tank/mere-lh2")).toBe(740.818);
  expect(kgOn(north, "boil-off/mere")).toBe(259.182);
  expect(kgOn(north, "unaccounted/mere")).toBe(0);
  isClean(north);
});

it("takes a record back here that they took back, and says no to what stands on it", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  south.takeBack(lastEntry(south, "departure"));
  merge(north, south);
  expect(kgOn(north, "source/ground")).toBe(-1000);
  expect(flight(north)).toMatchObject({ status: "planned" });
  const again = twoSites(folder, (first) => depart(first, 500));
  again.south.takeBack(lastEntry(again.south, "departure"));
  arrive(again.north, 500);
  expect(lookAt(again.north, again.south).view.conflicts).toMatchObject([
    { words: "It was reversed there, and went on here.", bothWords: null },
  ]);
  merge(again.north, again.south, "take theirs");
  expect(kgOn(again.north, "tank/mere-lh2")).toBe(1000);
  expect(flight(again.north)).toMatchObject({ status: "planned" });
  isClean(again.north);
});

it("does not bring back what we took back", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  north.takeBack(lastEntry(north, "departure"));
  gauge(south, day(3), 3999);
  const { view } = merge(north, south);
  expect(view).toMatchObject({ incomingCount: 1, conflicts: [] });
  expect(kgOn(north, "source/ground")).toBe(-1000);
});

it("withdraws a reading that they withdrew, with its booking", () => {
  let id = "";
  const { north, south } = twoSites(folder, (first) => {
    id = gauge(first, day(20), 3500);
  });
  south.withdraw(id);
  merge(north, south);
  expect(north.store.readings()).toMatchObject([{ id, isWithdrawn: true }]);
  expect(kgOn(north, "tank/mere-lox", "lox")).toBe(4000);
  isClean(north);
});

it("asks about one id that says two things, and takes theirs under an id of its own", () => {
  const { north, south } = twoSites(folder);
  for (const [site, kg] of [
    [north, 3990],
    [south, 3980],
  ] as const)
    site.record("record.reading", {
      id: "gauge-by-hand",
      tankId: "mere-lox",
      at: day(20),
      massKg: kg,
      sigmaKg: 10,
      takeIntoBooks: false,
      note: "",
    });
  expect(lookAt(north, south).view.conflicts).toHaveLength(1);
  merge(north, south, "take theirs");
  expect(north.store.readings()).toMatchObject([
    { id: "gauge-by-hand", massKg: 3990, isWithdrawn: true },
    { massKg: 3980, isWithdrawn: false },
  ]);
  expect(lookAt(north, south).view).toMatchObject({ conflicts: [], incomingCount: 0 });
});

it("asks about one journal entry that says two things under one id", () => {
  const { north, south } = twoSites(folder);
  const document = south.store.document();
  const heavier = document.entries.map((entry) =>
    entry.kind === "opening" && entry.postings[0]?.propellantId === "lox"
      ? {
          ...entry,
          postings: entry.postings.map((row) => ({ ...row, grams: row.grams + Math.sign(row.grams) * 5000 })),
        }
      : entry,
  );
  const other: Site = { ...south, store: { ...south.store, document: () => ({ ...document, entries: heavier }) } };
  const [conflict, ...more] = lookAt(north, other).view.conflicts;
  expect(more).toEqual([]);
  expect(conflict?.masses.find(({ label }) => label === "level of Mere lox")).toMatchObject({
    oursKg: 4000,
    theirsKg: 4005,
  });
  merge(north, other, "take theirs");
  expect(kgOn(north, "tank/mere-lox", "lox")).toBe(4005);
  expect(lookAt(north, other).view).toMatchObject({ conflicts: [], incomingCount: 0 });
  isClean(north);
});

it("names the tank that would be overdrawn, and the record that does it", () => {
  const { north, south } = twoSites(folder);
  gauge(north, day(5), 100);
  south.entry({
    id: "vent-large",
    at: day(6),
    kind: "vent",
    subjectKey: null,
    note: "",
    postings: [
      { account: { kind: "tank", ownerId: "mere-lox" }, propellantId: "lox", grams: -500_000 },
      { account: { kind: "vented", ownerId: "mere" }, propellantId: "lox", grams: 500_000 },
    ],
  });
  const { view, step } = lookAt(north, south);
  expect(view.outcome.blocked).toEqual([
    "Mere lox would hold -400 kg in the books on 2031-01-07 00:00 UTC. Vent: Mere lox (South) draws more than is there.",
  ]);
  const before = balances(north);
  expect(() => north.store.commit(step)).toThrow(/Mere lox would hold -400 kg/);
  expect(balances(north)).toEqual(before);
});

it("is one step: undo takes it back entry by entry, redo brings it back, and it can be merged again after an undo", () => {
  const { north, south } = twoSites(folder);
  const before = balances(north);
  depart(south, 500);
  arrive(south, 480);
  const reading = gauge(south, day(20), 3900);
  merge(north, south);
  const merged = balances(north);
  north.store.undo("North", day(301));
  expect(balances(north)).toEqual(before);
  expect(flight(north)).toMatchObject({ status: "planned" });
  expect(north.store.readings()).toEqual([]);
  north.store.redo("North", day(302));
  expect(balances(north)).toEqual(merged);
  expect(lookAt(north, south).view).toMatchObject({ incomingCount: 0, conflicts: [] });
  north.store.undo("North", day(303));
  merge(north, south);
  expect(balances(north)).toEqual(merged);
  expect(north.store.readings()).toMatchObject([{ id: reading, massKg: 3900 }]);
  expect(lookAt(north, south).view).toMatchObject({ incomingCount: 0, conflicts: [] });
  isClean(north);
});

it("follows what left no mark in the books: a flight lost before it loaded", () => {
  const { north, south } = twoSites(folder);
  south.record("record.loss", { flightId: "base.drover-1", at: day(9), note: "" });
  const { view } = merge(north, south);
  expect(view.outcome.statuses).toHaveLength(1);
  const lost = { status: "lost", lostAt: day(9) };
  expect(north.store.entities().flight).toMatchObject([lost, lost]);
  expect(lookAt(north, south).view.outcome.isNothing).toBe(true);
});

it("brings a flight's row along where records speak of one that is not here; the rest of their plan is counted only", () => {
  const { north, south } = twoSites(folder);
  const [row] = south.store.entities().flight;
  const [tank] = south.store.entities().tank;
  south.store.commit(
    stepWith({
      changes: [
        { op: "put", kind: "flight", value: { ...row!, id: "base.drover-2", key: "drover-2", name: "Drover 2" } },
        { op: "put", kind: "tank", value: { ...tank!, reserveKg: 200 } },
      ],
    }),
  );
  south.record("record.departure", {
    flightId: "base.drover-2",
    at: day(11),
    loads: [{ propellantId: "lh2", loadedKg: 400 }],
    note: "",
  });
  const { view } = merge(north, south);
  expect(view.outcome.rowsAlong).toEqual(["flight Drover 2"]);
  expect(view.planDifferences).toEqual([{ kind: "tank", onlyHere: 0, onlyThere: 0, different: 1 }]);
  expect(north.store.entities().flight.find(({ key }) => key === "drover-2")).toMatchObject({ status: "departed" });
  expect(north.store.entities().tank.map(({ reserveKg }) => reserveKg)).toEqual([100, 100]);
  isClean(north);
});

it("says how their plan cases differ as every comparison of plans does; what is recorded on both sides is no difference", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  const [flight] = south.store.entities().flight;
  south.store.commit(
    stepWith({
      changes: [
        { op: "put", kind: "flight", value: { ...flight!, berthDays: 3, note: "a note is no difference" } },
        {
          op: "put",
          kind: "flight",
          value: { ...flight!, id: "base.drover-9", key: "drover-9", name: "Drover 9", status: "planned" },
        },
      ],
    }),
  );
  const { view } = lookAt(north, south);
  expect(planLines(view)).toEqual(["base: Drover 1, there: stays 3 days instead of 2", "base: Drover 9: only there"]);
  expect(planLines(lookAt(south, north).view)).toContain("base: Drover 1, there: stays 2 days instead of 3");
});

it("takes one of their plan cases over as a new case, with what happened as it is here", () => {
  const { north, south } = twoSites(folder, (first) => depart(first, 500));
  const [sortie] = south.store.entities().sortie;
  south.store.commit(
    stepWith({ changes: [{ op: "put", kind: "sortie", value: { ...sortie!, loadAt: day(33), name: "Later" } }] }),
  );
  arrive(north, 500);
  const offers = lookAt(north, south).view.cases;
  expect(offers).toMatchObject([
    { id: "base", isHereToo: true, flights: 1, sorties: 1 },
    { id: "other", isHereToo: true },
  ]);
  north.store.commit(lookAt(north, south, null, ["base"]).step);
  const { planCase, sortie: sorties, flight: flights } = north.store.entities();
  const taken = planCase.find(({ name }) => name === "base (2)");
  expect(sorties.find(({ planCaseId }) => planCaseId === taken?.id)).toMatchObject({ name: "Later", loadAt: day(33) });
  expect(flights.find(({ planCaseId }) => planCaseId === taken?.id)).toMatchObject({ status: "arrived" });
  isClean(north);
});

it("refuses another programme's ledger, and one of no common beginning", () => {
  const { north, south } = twoSites(folder);
  const stranger: Site = {
    ...south,
    store: { ...south.store, document: () => ({ ...south.store.document(), programme: "Else" }) },
  };
  expect(() => lookAt(north, stranger)).toThrow(/South\.coldstock is a ledger of the programme “Else”/);
  const other = handLedger(folder);
  const apart = (): Site => {
    const document = other.document();
    const entities = { ...document.entities, tank: document.entities.tank.map((row) => ({ ...row, name: "Else" })) };
    return { ...south, store: { ...south.store, document: () => ({ ...document, entities }) } };
  };
  expect(() => lookAt(north, apart())).toThrow(/have no record and no plan in common/);
  other.close();
});
