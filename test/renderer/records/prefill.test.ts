/** What the record dialogs begin with. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { toGrams } from "../../../app/ledger/journal.ts";
import { plainPostings } from "../../../renderer/entries/plain-entry.ts";
import { arrivalPrefill, loadingPrefill, returnPrefill, wholeGrams } from "../../../renderer/records/prefill.ts";
import { lastSigma } from "../../../renderer/records/last-sigma.ts";
import { flightsFor, sortiesFor, subjectAmong } from "../../../renderer/records/choose-subject.ts";
import { forecastCase } from "../../../renderer/state/case-forecast.ts";
import { day, smallPlan, smallView } from "../timeline/small-plan.ts";

const plan = smallPlan();
const { forecast } = forecastCase(smallView(plan));

it("a mass is brought down to the gram, so that parts never exceed the whole", () =>
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (whole, share) => {
        const parts = wholeGrams(whole * share) + wholeGrams(whole * (1 - share));
        expect(toGrams(parts)).toBeLessThanOrEqual(toGrams(whole));
      },
    ),
  ));

it("an arrival begins with what the forecast has each tank take, and accounts for all of the load", () => {
  const flight = plan.flights[0]!;
  const filled = arrivalPrefill(plan, flight, forecast.flights[0]);
  expect(filled.at).toBe(day(20));
  expect(filled.taken).toEqual([
    { tankId: "hydrogen-tank", massKg: 3000 },
    { tankId: "oxygen-tank", massKg: 12_000 },
  ]);
  expect(filled.vented.every(({ massKg }) => massKg === 0)).toBe(true);
});

it("without a forecast the tanks still stand there, empty", () =>
  expect(arrivalPrefill(plan, plan.flights[0]!, undefined).taken).toEqual([
    { tankId: "hydrogen-tank", massKg: 0 },
    { tankId: "oxygen-tank", massKg: 0 },
  ]));

it("a loading begins with the forecast's draw, a return with what comes home", () => {
  const sortie = plan.sorties[0]!;
  expect(loadingPrefill(plan, sortie, forecast.sorties[0]).drawn).toEqual([
    { tankId: "hydrogen-tank", massKg: 4000 },
    { tankId: "oxygen-tank", massKg: 20_000 },
  ]);
  expect(returnPrefill(plan, sortie, forecast.sorties[0]).map(({ massKg }) => massKg)).toEqual([0, 0]);
});

it("a record speaks only of what its state allows; the one selected is meant, else the first", () => {
  expect(flightsFor(plan, "record.departure").map(({ id }) => id)).toEqual(["flight-1", "flight-2", "flight-3"]);
  // One without a record of its departure can have both recorded in one step; what is under way stands first.
  expect(flightsFor(plan, "record.arrival")).toHaveLength(3);
  const flights = plan.flights.map((row) => (row.id === "flight-3" ? { ...row, status: "departed" as const } : row));
  expect(flightsFor({ ...plan, flights }, "record.arrival")[0]?.id).toBe("flight-3");
  expect(sortiesFor(plan, "record.loading")).toHaveLength(2);
  expect(sortiesFor(plan, "record.return")).toHaveLength(2);
  expect(subjectAmong(plan.flights, "flight-2")?.id).toBe("flight-2");
  expect(subjectAmong(plan.flights, "gone")?.id).toBe("flight-1");
});

it("an opening, a transfer and a vent balance to the gram", () => {
  const [hydrogen, oxygen] = plan.tanks;
  const second = { ...hydrogen!, id: "second" };
  const base = { tank: hydrogen!, toTank: second, sourceId: "ground", massKg: 12.3456 };
  for (const kind of ["opening", "transfer", "vent"] as const) {
    const postings = plainPostings({ ...base, kind })!;
    expect(postings.reduce((sum, { grams }) => sum + grams, 0)).toBe(0);
    expect(Math.abs(postings[0]!.grams)).toBe(12_346);
  }
  expect(plainPostings({ ...base, kind: "transfer", toTank: oxygen! })).toBeNull();
  expect(plainPostings({ ...base, kind: "opening", sourceId: null })).toBeNull();
  expect(plainPostings({ ...base, kind: "vent", massKg: 0.0004 })).toBeNull();
});

it("the gauge's uncertainty is that of its last reading in force", () => {
  const reading = { ...smallView(plan).readings[0]!, tankId: "t" };
  const readings = [
    { ...reading, id: "a", at: 1, sigmaKg: 10 },
    { ...reading, id: "b", at: 3, sigmaKg: 30, isWithdrawn: true },
    { ...reading, id: "c", at: 2, sigmaKg: 20 },
  ];
  expect(lastSigma(readings, "t")).toBe(20);
  expect(lastSigma(readings, "other")).toBeNull();
});
