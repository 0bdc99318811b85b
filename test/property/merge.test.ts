/** What must hold however two sites recorded on their own before their ledgers are merged. */
import { array, assert, constantFrom, integer, nat, pre, property, record } from "fast-check";
import { expect, it } from "vitest";
import { PlanningError } from "../../app/ground/failure.ts";
import type { LedgerDocument } from "../../app/ledger/ledger-view.ts";
import type { Choice } from "../../app/merge/merge-choices.ts";
import { mergeLedgers } from "../../app/merge/merge.ts";
import { type Site, balances, siteWith, lookAt, merge } from "../app/merge/sites.ts";
import { day, handLedger, handPlan, stepWith, temporaryFolder } from "../app/records/hand-ledger.ts";
import { runs } from "../suite/runs.ts";

const folder = temporaryFolder();

/** The hand-made ledger with three flights and two sorties in each of its two cases. */
const common = (): LedgerDocument => {
  const store = handLedger(folder);
  const [flight] = handPlan.flight;
  const [sortie] = handPlan.sortie;
  const more = ["base", "other"].flatMap((planCaseId) => [
    ...[2, 3].map((n) => ({
      op: "put" as const,
      kind: "flight" as const,
      value: { ...flight!, planCaseId, id: `${planCaseId}.drover-${n}`, key: `drover-${n}`, name: `Drover ${n}` },
    })),
    {
      op: "put" as const,
      kind: "sortie" as const,
      value: {
        ...sortie!,
        planCaseId,
        campaignId: `${planCaseId}.survey`,
        id: `${planCaseId}.second`,
        key: "second",
        name: "Second",
      },
    },
  ]);
  store.commit(stepWith({ label: "More", changes: more }));
  const document = store.document();
  store.close();
  return document;
};

interface Deed {
  readonly what: number;
  readonly which: number;
  readonly day: number;
  readonly kg: number;
}

const tanks = [
  ["mere-lh2", "lh2"],
  ["mere-lox", "lox"],
] as const;
const sorties = ["base.first", "base.second"];
let readings = 0;

/** A site states a level once an instant: of two, nothing would say which was meant to stand. */
const isStated = ({ store }: Site, tankIds: readonly string[], at: number): boolean => {
  const { entries } = store.document();
  const gone = new Set(entries.map(({ reversesId }) => reversesId));
  return entries.some(
    ({ id, at: when, kind, postings }) =>
      when === at &&
      !gone.has(id) &&
      ["opening", "reading", "closing"].includes(kind) &&
      postings.some(({ account }) => tankIds.includes(account.ownerId)),
  );
};

/** What a site may do; what its ledger refuses is not done. */
const deeds: readonly ((site: Site, deed: Deed) => void)[] = [
  (site, { which, day: n, kg }) =>
    site.record("record.departure", {
      flightId: `base.drover-${(which % 3) + 1}`,
      at: day(n),
      loads: [{ propellantId: "lh2", loadedKg: kg }],
      note: "",
    }),
  (site, { which, day: n, kg }) =>
    site.record("record.arrival", {
      flightId: `base.drover-${(which % 3) + 1}`,
      at: day(n + 5),
      taken: [{ tankId: "mere-lh2", massKg: kg * 0.9 }],
      handoverLoss: [{ propellantId: "lh2", massKg: kg * 0.01 }],
      leftAboard: [],
      vented: [],
      note: "",
    }),
  (site, { which, day: n }) =>
    site.record("record.loss", { flightId: `base.drover-${(which % 3) + 1}`, at: day(n), note: "" }),
  (site, { which, day: n, kg }) => {
    const [tankId] = tanks[which % 2]!;
    const id = `r-${site.name.toLowerCase()}-${(readings += 1)}`;
    const takeIntoBooks = which < 4;
    if (takeIntoBooks && isStated(site, [tankId], day(n))) return;
    site.record("record.reading", {
      id,
      tankId,
      at: day(n),
      massKg: kg,
      sigmaKg: 5,
      takeIntoBooks,
      note: "",
    });
  },
  (site, { day: n, kg, which }) => {
    if (isStated(site, ["mere-lh2", "mere-lox"], day(n))) return;
    site.record("record.closing", {
      depotId: "mere",
      at: day(n),
      measured: which < 2 ? [{ tankId: "mere-lh2", massKg: kg, sigmaKg: 4 }] : [],
      note: "",
    });
  },
  (site, { which, day: n, kg }) => {
    const [tankId, propellantId] = tanks[which % 2]!;
    site.entry({
      id: site.recorder.newId(),
      at: day(n),
      kind: "vent",
      subjectKey: null,
      note: "",
      postings: [
        { account: { kind: "tank", ownerId: tankId }, propellantId, grams: -kg * 100 },
        { account: { kind: "vented", ownerId: "mere" }, propellantId, grams: kg * 100 },
      ],
    });
  },
  (site, { which, day: n, kg }) =>
    site.record("record.loading", {
      sortieId: sorties[which % 2]!,
      at: day(n),
      drawn: [{ tankId: "mere-lox", massKg: kg }],
      handoverLoss: [],
      note: "",
    }),
  (site, { which, day: n, kg }) =>
    site.record("record.return", {
      sortieId: sorties[which % 2]!,
      at: day(n + 3),
      aboard: [{ propellantId: "lox", massKg: kg * 0.1 }],
      note: "",
    }),
  (site, { which }) => {
    const inForce = site.store.document().entries;
    const gone = new Set(inForce.map(({ reversesId }) => reversesId));
    const open = inForce.filter(({ id, kind }) => kind !== "opening" && kind !== "reversal" && !gone.has(id));
    const entry = open[which % Math.max(1, open.length)];
    if (entry !== undefined) site.takeBack(entry.id);
  },
  (site, { which }) => {
    const open = site.store.readings().filter(({ isWithdrawn }) => !isWithdrawn);
    const reading = open[which % Math.max(1, open.length)];
    if (reading !== undefined) site.withdraw(reading.id);
  },
  (site) => site.store.undo(site.name, day(301)),
  (site) => site.store.redo(site.name, day(302)),
];

const tryAll = (site: Site, list: readonly Deed[]): void => {
  for (const deed of list)
    try {
      deeds[deed.what % deeds.length]!(site, deed);
    } catch (error) {
      if (!(error instanceof PlanningError)) throw error;
    }
};

const anyDeed = record({
  what: nat({ max: deeds.length - 1 }),
  which: nat({ max: 11 }),
  day: nat({ max: 12 }),
  // Whole half kilograms, so that both sites now and then record the same.
  kg: integer({ min: 1, max: 1000 }).map((n) => n / 2),
});
const anyDeeds = array(anyDeed, { maxLength: 9 });

const sumOf = (site: Site, propellantId: string): number =>
  [...balances(site)].reduce((sum, [key, grams]) => (key.endsWith(`/${propellantId}`) ? sum + grams : sum), 0);

const start = common();

/** Runs a property on two sites that did these things; their files are closed afterwards. */
const withSites = (check: (north: Site, south: Site) => void) => (shared: Deed[], first: Deed[], second: Deed[]) => {
  const origin = siteWith("Origin", start);
  tryAll(origin, shared);
  const document = origin.store.document();
  const north = siteWith("North", document);
  const south = siteWith("South", document);
  try {
    tryAll(north, first);
    tryAll(south, second);
    check(north, south);
  } finally {
    for (const site of [origin, north, south]) site.store.close();
  }
};

const RUNS = runs(15);

/** Merges, unless a tank would be overdrawn or the books open later: then it writes nothing. */
const mergeOrNot = (here: Site, there: Site, choice: Choice): boolean => {
  if (lookAt(here, there, choice).view.outcome.blocked.length === 0) {
    merge(here, there, choice);
    return true;
  }
  const before = here.store.header().revision;
  expect(() => merge(here, there, choice)).toThrow(PlanningError);
  expect(here.store.header().revision).toBe(before);
  return false;
};

it("balances to the gram, is sound, and finds nothing to do the second time, whatever was chosen", () => {
  const choices = constantFrom<Choice>("keep ours", "take theirs");
  assert(
    property(anyDeeds, anyDeeds, anyDeeds, choices, (shared, first, second, choice) =>
      withSites((north, south) => {
        const before = north.store.document();
        if (!mergeOrNot(north, south, choice)) return;
        for (const propellantId of ["lh2", "lox"]) expect(sumOf(north, propellantId)).toBe(0);
        expect(north.store.verify()).toMatchObject({ isSound: true, faults: [] });
        const again = lookAt(north, south, choice).view;
        expect(again.incomingCount).toBe(0);
        if (choice === "take theirs") expect(again.conflicts).toEqual([]);
        expect(lookAt(north, south, "keep ours").view.outcome.isNothing).toBe(true);
        // Append-only: what was written stays where it was.
        expect(north.store.document().entries.slice(0, before.entries.length)).toEqual(before.entries);
      })(shared, first, second),
    ),
    { numRuns: RUNS },
  );
});

it("comes to the same books from both sides, where what ours keeps theirs takes", () => {
  assert(
    property(
      anyDeeds,
      anyDeeds,
      anyDeeds,
      withSites((north, south) => {
        const there = siteWith("Southward", south.store.document());
        const before = siteWith("Northward", north.store.document());
        try {
          const isHere = mergeOrNot(north, south, "keep ours");
          const isThere = mergeOrNot(there, before, "take theirs");
          if (isHere && isThere) expect(balances(there)).toEqual(balances(north));
        } finally {
          there.store.close();
          before.store.close();
        }
      }),
    ),
    { numRuns: RUNS },
  );
});

it("loses nothing: what either site had in force is in force, or was decided against", () => {
  assert(
    property(
      anyDeeds,
      anyDeeds,
      anyDeeds,
      withSites((north, south) => {
        const before = north.store.document();
        const { view } = lookAt(north, south);
        pre(view.conflicts.length === 0);
        if (!mergeOrNot(north, south, "keep ours")) return;
        const merged = north.store.document();
        for (const site of [before, south.store.document()]) {
          const left = mergeLedgers(
            { ours: merged, theirs: site, fileName: "x", decisions: [], takeCases: [] },
            north.recorder,
          ).view;
          expect({ incoming: left.incomingCount, conflicts: left.conflicts }).toEqual({ incoming: 0, conflicts: [] });
        }
      }),
    ),
    { numRuns: RUNS },
  );
});

it("is undone as one step, to the gram", () => {
  assert(
    property(
      anyDeeds,
      anyDeeds,
      anyDeeds,
      withSites((north, south) => {
        const before = balances(north);
        const plan = north.store.entities();
        if (lookAt(north, south, "take theirs").view.outcome.isNothing) return;
        if (!mergeOrNot(north, south, "take theirs")) return;
        north.store.undo("North", day(303));
        expect(balances(north)).toEqual(before);
        expect(north.store.entities()).toEqual(plan);
      }),
    ),
    { numRuns: RUNS },
  );
});
