/** The verdict: the heaviest of what was found, the same sentence for every form. */
import { describe, expect, it } from "vitest";
import { check } from "../../../app/supply/check.ts";
import type { PlanFinding } from "../../../app/supply/answer.ts";
import { weightOf } from "../../../app/supply/weight.ts";
import { carries, day, depot, flight, type SmallPlan, smallPlan, sortie, START, tank } from "../forecast/small-plan.ts";

const of = (wanted: SmallPlan) => check(smallPlan(wanted));

/** 10 t in the tank, a sortie of 6 t on day 30. */
const good: SmallPlan = { opening: { a: 10_000 }, sorties: [sortie("Sortie 1", 30, 6000)] };

describe("the word", () => {
  it("is Go where nothing is found", () =>
    expect(of(good).verdict).toEqual({
      word: "Go",
      sentence: "The sortie can load with the reserve kept.",
      breaks: [],
      conditions: [],
      notes: [],
    }));

  it("says so where there is nothing to judge", () =>
    expect(of({}).verdict).toMatchObject({ word: "Nothing to judge", sentence: "There is no sortie ahead to check." }));

  it("is Go, if the reserve may be used, with the number that is used of it", () => {
    const { verdict, holds } = of({ ...good, tanks: [tank("a", { reserveKg: 5000 })] });
    expect(verdict.word).toBe("Go, if");
    expect(verdict.sentence).toMatch(/^The sortie can load, if Sortie 1 may use the reserve; if the oxygen reserve at/);
    expect(verdict.conditions[0]).toBe("Sortie 1 on 2031-01-31 flies, but uses 1.00\u202ft of the oxygen reserve.");
    expect(holds).toBe(true);
  });

  it.each<[string, SmallPlan, RegExp]>([
    [
      "three tankers at two ports",
      {
        ...good,
        flights: [1, 2, 3].map((n) => flight(`F${n}`, 5, 10, 10, { craftId: `hull-${n}`, loads: [] })),
      },
      /if one of F1, F2 and F3 keeps off tarn's ports on 2031-01-11/,
    ],
    ["a flight that should have gone", { ...good, flights: [flight("F1", -2, 3, 10)] }, /if F1 went as assumed/],
    [
      "two names that are easily taken for one",
      {
        ...good,
        flights: [flight("F1", 5, 10, 10), flight("F2", 15, 20, 10)].map((row, n) => ({
          ...row,
          name: ["Packhorse 4", "packhorse  04 "][n]!,
        })),
      },
      /if "Packhorse 4" and "packhorse {2}04 " are really two/,
    ],
  ])("is Go, if: %s", (_what, wanted, sentence) => {
    const { verdict, holds } = of(wanted);
    expect(verdict.word).toBe("Go, if");
    expect(verdict.sentence).toMatch(sentence);
    expect(holds).toBe(true);
  });

  it("is No-go where a sortie states no propellant: nothing says that it has what it needs", () => {
    const { verdict, sorties, holds } = of({ ...good, sorties: [sortie("Sortie 1", 30, 0)] });
    expect(sorties[0]).toMatchObject({ status: "not stated", lines: [] });
    expect(verdict.word).toBe("No-go");
    expect(verdict.sentence).toBe(
      "Sortie 1 on 2031-01-31 states no propellant: nothing says what it needs, so nothing says that it has it.",
    );
    expect(holds).toBe(false);
  });
});

describe("with many short sorties the headline", () => {
  const many = [1, 2, 3, 4, 5].map((n) => sortie(`Sortie ${n}`, 30 * n, n === 1 ? 6000 : 20_000));
  it("says how many of how many, then the first, then the common cause", () =>
    expect(of({ ...good, sorties: many }).verdict.sentence).toBe(
      "4 of 5 sorties cannot load as planned. First: Sortie 2 cannot load on 2031-03-02: short by 16.00\u202ft of oxygen. It stands down. It cannot load before the end of the forecast (2032-01-01), even if it alone moves. The common cause is too little oxygen at tarn.",
    ));
});

describe("a lander that is away", () => {
  const { verdict, sorties } = of({
    opening: { a: 50_000 },
    sorties: [sortie("Sortie 1", 30, 6000), sortie("Sortie 2", 35, 6000)],
  });
  it("is the reason that is given, and no shortage of nothing", () => {
    expect(sorties[1]).toMatchObject({ status: "short", landerIsAway: true });
    expect(verdict.breaks[0]).toBe(
      "Sortie 2 cannot load on 2031-02-05: heron-1 is away. It stands down. Earliest loading if only this sortie moves: 2031-02-10 00:00 UTC.",
    );
    expect(verdict.sentence).not.toMatch(/short by/);
  });
});

describe("a shortage", () => {
  it.each([
    [0.3, "0.3\u202fkg"],
    [0.04, "0.04\u202fkg"],
    [0.0004, "less than 1\u202fg"],
    [4.6, "4.6\u202fkg"],
    [1234, "1.23\u202ft"],
  ])("of %d kg is never written as nothing", (massKg, words) => {
    const { verdict } = of({ ...good, sorties: [sortie("Sortie 1", 30, 10_000 + massKg)] });
    expect(verdict.sentence).toContain(`short by ${words} of oxygen`);
  });
});

describe("weights", () => {
  const unmet = (kind: string) =>
    ({ kind: "sortie check", sortieId: "s", check: { kind, isMet: false } }) as PlanFinding;
  it("an engine over its rating in one sortie cannot be met by any plan; one due for a change can", () => {
    expect(weightOf(unmet("ignitions"))).toBe("breaks");
    const due = { kind: "engine change due", landerId: "l", sortieId: "s", at: START } as PlanFinding;
    expect(weightOf(due)).toBe("conditions");
  });
  it("an older reading far off the books is a note, the latest one conditions", () => {
    const far = {
      kind: "far reading",
      tankId: "a",
      readingId: "r",
      at: START,
      massKg: 1,
      bookKg: 2,
      sigmas: 5,
      others: 0,
    };
    expect(weightOf({ ...far, kind: "far reading", isLatest: true })).toBe("conditions");
    expect(weightOf({ ...far, kind: "far reading", isLatest: false })).toBe("note");
  });
  it("a reading far from the books conditions the verdict and says by how much", () => {
    const plan = smallPlan(good);
    const reading = {
      tankId: "a",
      readingId: "r",
      at: day(0),
      massKg: 9000,
      bookKg: 10_000,
      sigmas: -8,
      isLatest: true,
    };
    const { verdict } = check({ ...plan, farReadings: [{ ...reading, others: 2 }] });
    expect(verdict.sentence).toBe("The sortie can load, if the reading of a on 2031-01-01 is explained.");
    expect(verdict.conditions).toEqual([
      "a read 9.00\u202ft on 2031-01-01 00:00 UTC; the books say 10.00\u202ft: 8.0 σ below (and 2 further readings beyond 4 σ).",
    ]);
  });
});

describe("a load typed in the wrong unit", () => {
  const usual = carries({ loadKg: 17_000 });
  const loaded = (loadedKg: number) =>
    of({ ...good, tanker: [usual], flights: [flight("F1", 5, 10, loadedKg)] }).findings.filter(
      ({ kind }) => kind === "unusual load",
    );
  it("is asked about from twenty times off on, both ways, and conditions the verdict", () => {
    expect(loaded(17)).toEqual([
      { kind: "unusual load", of: "flight", id: "F1", propellantId: "lox", massKg: 17, usualKg: 17_000 },
    ]);
    expect(loaded(850)).toHaveLength(1);
    expect(loaded(851)).toEqual([]);
    expect(loaded(340_000)).toHaveLength(1);
    const { verdict } = of({ ...good, tanker: [usual], flights: [flight("F1", 5, 10, 17)] });
    expect(verdict.sentence).toContain("if F1 is really meant to load 17\u202fkg of oxygen");
    expect(verdict.conditions.join()).toContain("1\u202f000 times less than its class's usual 17.00\u202ft");
  });
});

describe("what a sortie hinges on", () => {
  // Two deliveries of 4 t; s waits for the second, which comes on day 40, within its limit of 30 days.
  const waiting: SmallPlan = {
    opening: { a: 1000 },
    shortPolicy: "wait",
    flights: [flight("f", 10, 20, 4000), flight("g", 35, 40, 4000)],
    sorties: [sortie("s", 30, 8000)],
  };
  it("counts the flight that a waiting sortie waits for: without it, it does not fly", () => {
    const answer = of(waiting);
    expect(answer.sorties[0]).toMatchObject({ status: "short", outcome: "waits and flies" });
    expect(answer.hinges).toEqual([
      { sortieId: "s", flightId: "f", becomes: "does not fly" },
      { sortieId: "s", flightId: "g", becomes: "does not fly" },
    ]);
  });
  it("counts slack to the end of its wait: g may be 20 days late and no minute more", () => {
    const answer = of(waiting);
    expect(answer.slack.find(({ flightId }) => flightId === "g")?.slackDays).toBeCloseTo(20, 9);
    expect(answer.latestDeparture.find(({ flightId }) => flightId === "g")?.at).toBe(day(55));
  });
  it("says of a loss that only delays that the sortie waits", () =>
    expect(of({ ...waiting, flights: [flight("f", 10, 20, 8000), flight("g", 35, 40, 8000)] }).hinges).toEqual([
      { sortieId: "s", flightId: "f", becomes: "waits and flies" },
    ]));
});

it("all flights of a class together may slip less than any of them alone", () => {
  // 8 t are needed on day 30; three deliveries of 4 t on days 10, 12 and 14: any one may be missing, not two.
  const { slack, jointSlack } = of({
    flights: [flight("f", 5, 10, 4000), flight("g", 7, 12, 4000), flight("h", 9, 14, 4000)],
    sorties: [sortie("s", 30, 8000)],
  });
  expect(slack.map(({ slackDays }) => slackDays)).toEqual(["any", "any", "any"]);
  // Together, the second of them must arrive by day 30.
  expect(jointSlack).toEqual([{ classId: "packhorse", flights: 3, slackDays: 18 }]);
});

it("all flights of a class together may slip until a window comes between what one brings and another takes", () => {
  // 60 t come on day 11 and 50 t are taken on day 12: First, which waits for a window (days 10, 20, 30), never has its
  // 60 t, and Second has its 8 t on day 40. Eight days later, First loads on day 20 before the tanker leaves.
  const { jointSlack } = of({
    depots: [depot("tarn", { windowPeriodDays: 10, windowReferenceAt: START }), depot("corrie")],
    landers: ["heron-1", "heron-2"],
    flights: [
      flight("brings", 6, 11, 60_000),
      flight("takes", 12, 17, 50_000, { origin: { kind: "depot", depotId: "tarn" }, depotId: "corrie" }),
    ],
    sorties: [sortie("First", 5, 60_000), sortie("Second", 40, 8000, { landerId: "heron-2" })],
    shortPolicy: "wait",
    holdLimitDays: 30,
  });
  // The tanker that leaves in the minute of the window leaves after the loading: one minute less than eight days.
  expect(jointSlack).toEqual([{ classId: "packhorse", flights: 2, slackDays: 8 - 1 / 1440 }]);
});
