/** The whole answer: what is proposed holds in the forecast; what cannot be asked or held is said in words, with numbers. */
import { describe, expect, it } from "vitest";
import type { PlanSnapshot } from "../../../app/entity/plan.ts";
import { forecast } from "../../../app/forecast/forecast.ts";
import type { ResupplyAnswer } from "../../../app/resupply/answer.ts";
import { answerSentences, unheldSentence } from "../../../app/resupply/answer-words.ts";
import { type ResupplyAsked, usualAsked } from "../../../app/resupply/asked.ts";
import { planResupply } from "../../../app/resupply/plan-resupply.ts";
import { loadLinearSolver } from "../../../main/service/linear-solver.ts";
import { demoPlan } from "./random-problem.ts";

const solve = await loadLinearSolver();
const quiet = { tell: () => undefined, shouldStop: () => false };
const ask = (plan: PlanSnapshot, over: Partial<ResupplyAsked> = {}): ResupplyAnswer =>
  planResupply(plan, { ...usualAsked, ...over }, solve, quiet);

/** The plan that a person gets who takes the answer. */
const taken = (plan: PlanSnapshot, { changes, craft }: ResupplyAnswer): PlanSnapshot => {
  const gone = new Set(changes.filter(({ kind }) => kind === "left out").map(({ flight }) => flight.id));
  const added = changes.filter(({ kind }) => kind === "added").map(({ flight }) => flight);
  return {
    ...plan,
    craft: [...plan.craft, ...craft],
    flights: [...plan.flights.filter(({ id }) => !gone.has(id)), ...added],
  };
};
const statuses = (plan: PlanSnapshot): readonly string[] => forecast(plan).sorties.map(({ status }) => status);

const tarn = demoPlan("tarn");

describe("the demonstration's short sortie", () => {
  it("is cured by one flight, as the forecast confirms; it cannot be done with none", () => {
    expect(statuses(tarn)).toContain("short");
    const answer = ask(tarn);
    expect(answer.bracket).toEqual({ lower: 1, upper: 1 });
    expect(answer.isProved).toBe(true);
    expect(answer.standing).toBe("plan");
    expect(statuses(taken(tarn, answer)).every((status) => status === "supplied")).toBe(true);
    expect(answerSentences(tarn, answer)[0]).toMatch(/^1 flight supplies every sortie; it cannot be done with none/);
  });

  it("is cured in a plan in which planned flights may go, with no more flights than before and one", () => {
    const answer = ask(tarn, { mayReplace: true });
    expect(answer.standing).toBe("plan");
    expect(answer.proposed?.flights).toBeLessThanOrEqual((answer.present.flights ?? 0) + 1);
    expect(statuses(taken(tarn, answer)).every((status) => status === "supplied")).toBe(true);
  });

  it("stopped at once it answers without a claim", () => {
    const answer = planResupply(tarn, usualAsked, solve, { tell: () => undefined, shouldStop: () => true });
    expect(answer.isStopped).toBe(true);
    expect(answer.isProved).toBe(false);
  });
});

describe("what cannot be held or asked", () => {
  it("a limit of no flights: which sortie, by how much, and how many flights would do", () => {
    const answer = ask(tarn, { mostFlights: 0 });
    expect(answer.standing).toBe("partly");
    expect(answer.unheld.length).toBeGreaterThan(0);
    expect(answer.unheld[0]?.missingKg).toBeGreaterThan(0);
    expect(answer.cures).toContainEqual({ kind: "flights", most: 1 });
    expect(answer.binds).toContainEqual({ kind: "flights", ownerId: null });
    expect(answerSentences(tarn, answer).join(" ")).toContain("What binds: the most flights allowed");
    const [first] = answer.unheld;
    expect(first === undefined ? "" : unheldSentence(tarn, first, answer)).toMatch(/is short by [\d.]+\s(t|kg) of /);
  });

  it("a blackout, or a date with no arrival before it: it is named as what binds, and lifted alone it does", () => {
    const blackouts = [{ fromAt: tarn.asOfAt, untilAt: tarn.horizonAt + 1 }];
    const some = { arrivals: { kind: "every" as const, days: 5 }, isBeforeLoadings: false };
    const late = tarn.sorties.findLast(({ status }) => status === "planned");
    const dark = ask(tarn, { ...some, blackouts: [{ fromAt: tarn.asOfAt, untilAt: (late?.loadAt ?? 0) + 1 }] });
    expect(dark.standing).toBe("partly");
    expect(dark.binds).toEqual([{ kind: "blackouts", ownerId: null }]);
    expect(answerSentences(tarn, dark).join(" ")).toContain(
      "What binds: the blackouts. Without it everything can be held.",
    );
    // Nothing to choose at all is refused in words.
    expect(() => ask(tarn, { ...some, blackouts })).toThrow(/no instant/);
  });

  it("firm flights that fill every port: the ports bind, or so many more would do", () => {
    const tanker = tarn.flights.find(({ status }) => status === "planned");
    if (tanker === undefined) throw new Error("no planned flight");
    const sitting = Array.from({ length: tarn.depots[0]?.ports ?? 0 }, (_, n) => ({
      ...tanker,
      id: `sits-${n}`,
      key: `sits-${n}`,
      name: `Sits ${n}`,
      status: "firm" as const,
      departAt: tarn.asOfAt,
      arriveAt: tarn.asOfAt + 3_600_000,
      berthDays: 2000,
      loads: [],
    }));
    const full = { ...tarn, flights: [...tarn.flights, ...sitting] };
    // They fly one hull, all at once: said with the numbers, for no proposal mends it.
    const said = answerSentences(full, ask(full)).join(" ");
    if (sitting.length > 1)
      expect(said).toMatch(/Firm flights contradict each other: .* cannot fly Sits 0 and Sits 1 at once/);
    const answer = ask(full);
    expect(answer.standing).toBe("partly");
    expect(answer.binds.some(({ kind, ownerId }) => kind === "ports" && ownerId === tarn.depots[0]?.id)).toBe(true);
    expect(answer.cures.some(({ kind }) => kind === "port")).toBe(true);
  });

  it("firm flights that ask for more ports than there are: how many, where and when", () => {
    const tanker = tarn.flights.find(({ status }) => status === "planned");
    if (tanker === undefined) throw new Error("no planned flight");
    const ports = tarn.depots[0]?.ports ?? 0;
    const firm = Array.from({ length: ports + 1 }, (_, n) => ({
      ...tanker,
      id: `firm-${n}`,
      key: `firm-${n}`,
      name: `Firm ${n}`,
      status: "firm" as const,
    }));
    const answer = ask({ ...tarn, flights: [...tarn.flights, ...firm] });
    expect(answer.contradictions.length).toBeGreaterThan(0);
    expect(answerSentences(tarn, answer).join(" ")).toContain(
      `Firm flights contradict each other: ${ports + 1} flights`,
    );
  });

  it("a budget below any plan: which sortie, that the budget binds, and the least that would do", () => {
    const priced = {
      ...tarn,
      craftClasses: tarn.craftClasses.map((row, n) => ({ ...row, costPerFlight: 20 + 7 * n, costUnit: "M" })),
    };
    const answer = ask(priced, { least: "cost", budget: 5 });
    expect(answer.standing).toBe("partly");
    expect(answer.binds).toContainEqual({ kind: "budget", ownerId: null });
    const [cure] = answer.cures.filter(({ kind }) => kind === "budget");
    if (cure?.kind !== "budget") throw new Error("no budget among the cures");
    expect(ask(priced, { least: "cost", budget: cure.most }).standing).toBe("plan");
    expect(ask(priced, { least: "cost", budget: cure.most - 1 }).standing).toBe("partly");
    expect(answerSentences(priced, answer).join(" ")).toContain(`A budget of ${cure.most}.`);
  });

  it("a demand above the tank", () => {
    const huge: PlanSnapshot = {
      ...tarn,
      tanks: tarn.tanks.map((row) =>
        row.ownerKind === "depot" ? { ...row, maximumFillKg: row.maximumFillKg / 10 } : row,
      ),
    };
    const answer = ask(huge);
    expect(answer.standing).not.toBe("plan");
    const [first] = answer.unheld.filter(({ why }) => why === "maximum fill");
    expect(first === undefined ? "" : unheldSentence(huge, first, answer)).toMatch(
      /full tanks are not enough: they give [\d.,\s]+(t|kg), and [\d.,\s]+(t|kg) is asked of them/u,
    );
    expect(first?.neededKg).toBeGreaterThan(first?.fullKg ?? Infinity);
    expect(answer.unheld.some(({ why }) => why === "maximum fill")).toBe(true);
  });

  it("no class, no instant, a date that has passed, costs that nobody stated", () => {
    const bare = { ...tarn, craftClasses: tarn.craftClasses.filter(({ role }) => role !== "tanker") };
    expect(() => ask(bare)).toThrow(/No tanker class can fly/);
    const never = { arrivals: { kind: "list" as const, at: [] }, isBeforeLoadings: false };
    expect(() => ask(tarn, never)).toThrow(
      /no instant at which a flight could arrive .* takes \d+\.\d days, .* days are left/,
    );
    const elsewhere = { ...tarn, tanks: tarn.tanks.filter(({ ownerKind }) => ownerKind !== "depot") };
    expect(() => ask(elsewhere)).toThrow(/None of the \d+ classes that may fly brings a propellant/);
    expect(() => ask(tarn, { untilAt: tarn.asOfAt })).toThrow(/before the as-of instant/);
    const unpriced = { ...tarn, craftClasses: tarn.craftClasses.map((row) => ({ ...row, costPerFlight: null })) };
    expect(() => ask(unpriced, { least: "cost" })).toThrow(/costs is not stated/);
  });
});
