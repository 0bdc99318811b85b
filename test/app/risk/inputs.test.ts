/** Which input holds for what, how it is said, and what the records offer. */
import { describe, expect, test } from "vitest";
import type { Reading } from "../../../app/ledger/journal.ts";
import type { Uncertainty } from "../../../app/entity/risk-input.ts";
import { inputsInForce } from "../../../app/risk/inputs-in-force.ts";
import { inputTitle, lawWords } from "../../../app/risk/input-words.ts";
import { observedInputs } from "../../../app/risk/observed.ts";
import { day, flight, smallPlan, sortie, tank } from "../forecast/small-plan.ts";

const plan = smallPlan({
  tanks: [tank("a"), tank("b")],
  flights: [flight("f0", 5, 10, 1000), flight("f1", 20, 25, 1000)],
  sorties: [sortie("s", 50, 1000)],
});
const row = (id: string, uncertainty: Uncertainty, source: string | null = "stated") => ({
  id,
  planCaseId: "case",
  uncertainty,
  source,
  note: "",
});
const slip = (of: Extract<Uncertainty, { quantity: "flight slip" }>["of"], meanDays: number): Uncertainty => ({
  quantity: "flight slip",
  of,
  law: { kind: "exponential", noneShare: 0, meanDays },
});

describe("the narrowest that is stated counts", () => {
  const stated = {
    ...plan,
    riskInputs: [
      row("all", slip({ kind: "every" }, 1)),
      row("class", slip({ kind: "craft class", craftClassId: "packhorse" }, 2)),
      row("one", slip({ kind: "flight", flightId: "f1" }, 3), null),
    ],
  };
  const inputs = inputsInForce(stated, []);
  test("flight before class before every", () => {
    expect(inputs.lawOf("flight slip", "f0").inputId).toBe("class");
    expect(inputs.lawOf("flight slip", "f1").inputId).toBe("one");
  });
  test("what holds for nothing is not in force; what nothing is stated of has its default, assumed", () => {
    const slips = inputs.list.filter(({ uncertainty }) => uncertainty.quantity === "flight slip");
    expect(slips.map(({ inputId, subjectIds }) => [inputId, subjectIds])).toEqual([
      ["class", ["f0"]],
      ["one", ["f1"]],
    ]);
    const loss = inputs.list.find(({ uncertainty }) => uncertainty.quantity === "flight loss");
    expect(loss).toMatchObject({ inputId: "default:flight loss", source: null, isDefault: true });
  });
});

test("a level that was read is as uncertain as its last reading that the books took, and that is no assumption", () => {
  const reading = (over: Partial<Reading>): Reading => ({
    id: "r",
    tankId: "a",
    at: day(0),
    massKg: 1,
    sigmaKg: 70,
    entryId: "e",
    isWithdrawn: false,
    note: "",
    ...over,
  });
  const inputs = inputsInForce(plan, [
    reading({ at: day(-3), sigmaKg: 20 }),
    reading({ at: day(-2), sigmaKg: 30 }),
    reading({ at: day(-1), sigmaKg: 40, isWithdrawn: true }),
    reading({ at: day(-1), sigmaKg: 50, entryId: null }),
    reading({ at: day(9), sigmaKg: 60 }),
  ]);
  expect(inputs.lawOf("opening level", "a").law).toEqual({ kind: "mass", sigmaKg: 30 });
  expect(inputs.list.find(({ inputId }) => inputId === "reading:a")?.source).toBe("gauge reading of 2030-12-30");
  expect(inputs.lawOf("opening level", "b").law).toEqual({ kind: "share of maximum fill", sigma: 0.02 });
});

test("laws in words", () => {
  const words = (law: Extract<Uncertainty, { quantity: "flight slip" }>["law"]) =>
    lawWords({ quantity: "flight slip", of: { kind: "every" }, law });
  expect(words({ kind: "exponential", noneShare: 0.4, meanDays: 12 })).toBe(
    "40\u202f% none, else exponential, mean 12 days",
  );
  expect(words({ kind: "observed", days: [0, 0, 4, 31] })).toBe("as observed: 2 of 4 late, by 4 to 31 days");
  expect(words({ kind: "by lead time", noneShare: 0, perDay: 0.31 })).toBe(
    "exponential, mean 0.31 day for each day of lead time",
  );
  expect(
    lawWords({ quantity: "flight loss", of: { kind: "every" }, law: { kind: "trials", successes: 14, trials: 15 } }),
  ).toBe("14 of 15 succeeded");
  expect(inputTitle(slip({ kind: "craft class", craftClassId: "packhorse" }, 1), () => "Packhorse")).toBe(
    "Flight slip, Packhorse",
  );
});

test("the ledger's own flights, offered: late against the date first planned, and lost", () => {
  const flown = (id: string, departDay: number, status: "arrived" | "lost") =>
    flight(id, departDay, departDay + 5, 1, { status });
  const records = {
    ...plan,
    flights: [
      flown("a", 10, "arrived"),
      flown("b", 24, "arrived"),
      flown("c", 61, "lost"),
      flown("d", 70, "arrived"),
      flight("e", 90, 95, 1),
    ],
  };
  const firstPlanned = new Map([
    ["a", day(10)],
    ["b", day(20)],
    ["c", day(30)],
  ]);
  const [slips, losses] = observedInputs(records, { firstPlannedDepartures: () => firstPlanned });
  expect(slips?.words).toBe("these 3 flights: 2 late, by 4 to 31 days");
  expect(slips).toMatchObject({ leftOut: 1, uncertainty: { law: { kind: "observed", days: [0, 4, 31] } } });
  expect(losses?.words).toBe("these 4 flights: 1 lost");
  expect(losses?.uncertainty).toMatchObject({ law: { kind: "trials", successes: 3, trials: 4 } });
});
