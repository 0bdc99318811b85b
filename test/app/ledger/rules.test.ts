/** What a plan may not be: each rule broken once, through the store, so that no door is open beside the rules. */
import { afterAll, describe, expect, test } from "vitest";
import { PlanningError } from "../../../app/ground/failure.ts";
import { applyChanges, settleChanges } from "../../../app/entity/apply-changes.ts";
import { changeLine } from "../../../app/ledger/change-line.ts";
import type { Change, Entity, EntityKind } from "../../../app/entity/entities.ts";
import { planFaults } from "../../../app/ledger/rules/check-plan.ts";
import { recordDeparture } from "../../../app/records/record-departure.ts";
import { day, handLedger, handPlan, recorder, stepWith, temporaryFolder } from "../records/hand-ledger.ts";

const store = handLedger(temporaryFolder());
afterAll(() => store.close());

const refusal = (changes: readonly Change[]): PlanningError => {
  const before = store.header().revision;
  try {
    store.commit(stepWith({ changes }));
  } catch (error) {
    expect(store.header().revision).toBe(before);
    if (error instanceof PlanningError) return error;
    throw error;
  }
  throw new Error("it was taken");
};

/** The first row of a kind (or the one with this id), with something else in it. */
const put = <K extends EntityKind>(kind: K, other: Partial<Entity<K>>, id?: string): Change => {
  const rows = handPlan[kind] as readonly Entity<K>[];
  const row = rows.find((candidate) => candidate.id === id) ?? rows[0];
  return { op: "put", kind, value: { ...row, ...other } } as unknown as Change;
};
const remove = (kind: EntityKind, id: string): Change => ({ op: "remove", kind, id });
const load = (propellantId: string, loadedKg: number) => ({ propellantId, loadedKg });
const line = {
  loadKg: 1,
  returnKg: 0,
  kPerDay: 0,
  cKgPerDay: 0,
  residualKg: 0,
  chilldownKg: 0,
  lossFraction: 0,
  rateKgPerDay: null,
};

describe("refused, with words and the field", () => {
  test.each<[string, Change, RegExp, string | null]>([
    ["no such depot", put("flight", { depotId: "nowhere" }), /no depot nowhere/, "depotId"],
    ["no such case", put("flight", { planCaseId: "x" }), /no plan case x/, "planCaseId"],
    ["no such propellant", put("flight", { loads: [load("xenon", 1)] }), /no propellant xenon/, "loads.0.propellantId"],
    ["arrives first", put("flight", { arriveAt: day(9) }), /arrives before it departs/, "arriveAt"],
    ["a lander as tanker", put("flight", { craftId: "wren" }), /Wren is not a tanker/, "craftId"],
    [
      "too much aboard",
      put("flight", { loads: [load("lh2", 601)] }),
      /holds 600 kg of lh2, not 601/,
      "loads.0.loadedKg",
    ],
    ["loaded twice", put("flight", { loads: [load("lh2", 1), load("lh2", 2)] }), /twice/, "loads.1.propellantId"],
    ["to where it comes from", put("flight", { origin: { kind: "depot", depotId: "mere" } }), /comes from/, "depotId"],
    ["a key twice", put("flight", { id: "another" }), /key drover-1/, "key"],
    ["an instant of another age", put("flight", { departAt: -5 }), /lies in 1970 or later/, "departAt"],
    ["not a number", put("flight", { berthDays: Number.NaN }), /number/i, "berthDays"],
    ["returns first", put("sortie", { returnAt: day(30) }), /returns before/, "returnAt"],
    ["a tanker as lander", put("sortie", { landerId: "drover" }), /Drover is not a lander/, "landerId"],
    ["another case's campaign", put("sortie", { campaignId: "other.survey" }), /another plan case/, "campaignId"],
    [
      "more home than loaded",
      put("sortie", { demand: { kind: "stated", lines: [{ propellantId: "lh2", loadKg: 5, returnKg: 6 }] } }),
      /more lh2 is to come home/,
      "demand.lines.0.returnKg",
    ],
    ["fuller than full", put("tank", { volumeM3: 50 }), /50 m³ with 3 % ullage hold 3433\.800 kg/, "maximumFillKg"],
    ["a heel above the fill", put("tank", { heelKg: 5001 }), /heel/, "heelKg"],
    ["a reserve above the fill", put("tank", { reserveKg: 5001 }), /reserve/, "reserveKg"],
    ["a tanker's tank", put("tank", { id: "new", ownerKind: "craft", ownerId: "drover" }), /not a lander/, "ownerId"],
    ["another propellant in a used tank", put("tank", { propellantId: "lox" }), /keeps its propellant/, null],
    [
      "a window without a reference",
      put("depot", { windowPeriodDays: 6 }),
      /both a period and a reference/,
      "windowReferenceAt",
    ],
    ["a period that ends first", put("lossPeriod", { fromAt: day(5), untilAt: day(5) }), /ends before/, "untilAt"],
    [
      "a class that loads more than it holds",
      put("craftClass", { propellants: [{ ...line, propellantId: "lh2", capacityKg: 0.5 }] }),
      /more than its tank holds/,
      "propellants.0.loadKg",
    ],
  ])("%s", (_what, change, message, property) => {
    const error = refusal([change]);
    expect(error.message).toMatch(message);
    expect(error.field).toBe(property === null ? null : `changes.0.value.${property}`);
  });

  test("a class that its flights no longer fit", () => {
    const propellants = handPlan.craftClass[0]!.propellants.map((row) => ({ ...row, capacityKg: 400, loadKg: 400 }));
    const error = refusal([put("craftClass", { propellants })]);
    expect(error.message).toMatch(/Drover 1: Drover holds 400 kg of lh2, not 500 kg/);
  });

  test("depots that hand round at one instant", () => {
    const depots = ["a", "b"].map((id) => put("depot", { id, name: id }));
    const hop = (id: string, from: string, to: string) =>
      put("flight", {
        id,
        key: id,
        name: id,
        origin: { kind: "depot", depotId: from },
        depotId: to,
        arriveAt: day(10),
      });
    expect(refusal([...depots, hop("there", "a", "b"), hop("back", "b", "a")]).message).toMatch(/circle of depots/);
    store.commit(stepWith({ changes: [...depots, hop("there", "a", "b")] }));
    store.undo("Ada", day(300));
  });

  test.each<[string, Change, RegExp]>([
    ["a depot with tanks", remove("depot", "mere"), /Mere cannot be removed: the tank Mere lh2 refers to it/],
    ["a propellant in use", remove("propellant", "lox"), /Oxygen cannot be removed: the craft class/],
    ["a case with a plan", remove("planCase", "other"), /other cannot be removed: the campaign Survey/],
    ["nothing", remove("flight", "nothing"), /no flight nothing/],
  ])("to remove %s", (_what, change, message) => {
    const error = refusal([change]);
    expect(error.message).toMatch(message);
    expect(error.field).toBe("changes.0.id");
  });
});

test("a tank with records is not removed, and a flight under way stays in its case, but goes with it", () => {
  const mine = handLedger(temporaryFolder());
  const input = { flightId: "base.drover-1", at: day(11), loads: [load("lh2", 400)], note: "" };
  mine.commit(recordDeparture(mine, input, recorder));
  const tryTo = (changes: readonly Change[]) => () => mine.commit(stepWith({ changes }));
  expect(tryTo([remove("lossPeriod", "lh2-base"), remove("tank", "mere-lh2")])).toThrow(/tank with records/);
  expect(tryTo([remove("flight", "other.drover-1")])).toThrow(/records speak of it/);
  const whole = (id: string) => [
    remove("sortie", `${id}.first`),
    remove("flight", `${id}.drover-1`),
    remove("campaign", `${id}.survey`),
    remove("planCase", id),
  ];
  mine.commit(stepWith({ changes: whole("other") }));
  expect(tryTo(whole("base"))).toThrow(/at least one plan case/);
  expect(mine.entities().planCase.map(({ id }) => id)).toEqual(["base"]);
  mine.close();
});

test("the plan by hand has no fault, and a broken one is described whole", () => {
  expect(planFaults(handPlan)).toEqual([]);
  const broken = applyChanges(handPlan, [put("flight", { arriveAt: 0 }), put("tank", { heelKg: 9999 })]);
  expect(planFaults(broken)).toHaveLength(2);
});

describe("applying changes", () => {
  test("keeps each list in order of id, touches no other list, and lets the last word on a row stand", () => {
    const source = (id: string, name: string): Change => put("source", { id, name });
    const after = applyChanges(handPlan, [source("z", "1"), source("a", "2"), source("ground", "3"), source("z", "4")]);
    expect(after.source.map(({ id, name }) => id + name)).toEqual(["a2", "ground3", "z4"]);
    expect(after.flight).toBe(handPlan.flight);
    expect(settleChanges([source("z", "1"), remove("source", "z")])).toEqual([remove("source", "z")]);
  });
});

describe("a change as a person reads it", () => {
  const say = (before: object | null, after: object | null) =>
    changeLine("flight", before as never, after as never, (id) => (id === "mere" ? "Mere" : id));
  test.each<[object | null, object | null, string]>([
    [null, { name: "Drover 1" }, "flight Drover 1: new"],
    [{ name: "Drover 1" }, null, "flight Drover 1: removed"],
    [{ name: "D", berthDays: 2 }, { name: "D", berthDays: 3 }, "flight D: berth 2 days → 3 days"],
    [{ name: "D", depotId: "tarn" }, { name: "D", depotId: "mere" }, "flight D: depot tarn → Mere"],
    [
      { name: "D", departAt: day(0) },
      { name: "D", departAt: day(0.5) },
      "flight D: departs 2031-01-01 → 2031-01-01 12:00 UTC",
    ],
    [{ name: "D", maximumFillKg: null }, { name: "D", maximumFillKg: 5.5 }, "flight D: maximum fill none → 5.5 kg"],
  ])("%o → %o", (before, after, words) => expect(say(before, after)).toBe(words));
});
