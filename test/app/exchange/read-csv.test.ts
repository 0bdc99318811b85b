/** CSV of flights, sorties and readings: what comes in, and what is said of what does not. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { PlanningError } from "../../../app/contract/failure.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { readCsv } from "../../../app/exchange/read-csv.ts";
import type { EntitySet } from "../../../app/ledger/entities.ts";

const { entities: whole, readings } = demoTarn();
const ofBaseline = <T extends { readonly planCaseId: string | null }>(rows: readonly T[]): readonly T[] =>
  rows.filter(({ planCaseId }) => planCaseId === null || planCaseId === "baseline");
const entities: EntitySet = {
  ...whole,
  lossPeriod: ofBaseline(whole.lossPeriod),
  campaign: ofBaseline(whole.campaign),
  flight: ofBaseline(whole.flight),
  sortie: ofBaseline(whole.sortie),
};
const flights = (text: string) => readCsv("flights", text, entities, "baseline", []);
const HEAD = "name,craft,from,to,departs,arrives,hydrogen kg,note";

test("a good row becomes a flight; what it leaves out comes from the tanker's class", () => {
  const { preview, changes } = flights(
    `${HEAD}\r\nPackhorse 20,Packhorse hull 2,Ground,Tarn,2032-03-01,2032-03-07T06:30Z,1900,"by road, then pad"\r\n`,
  );
  expect(preview).toMatchObject({ rows: 1, goodRows: 1, faults: [], isTaken: false });
  expect(changes[0]).toMatchObject({
    op: "put",
    kind: "flight",
    value: {
      key: "packhorse-20",
      craftId: "packhorse-2",
      arriveAt: Date.UTC(2032, 2, 7, 6, 30),
      berthDays: 3,
      loads: [
        { propellantId: "hydrogen", loadedKg: 1900 },
        { propellantId: "oxygen", loadedKg: 8000 },
        { propellantId: "hydrazine", loadedKg: 130 },
      ],
      note: "by road, then pad",
    },
  });
});

test.each([
  ["2031-02-31", "1900", "departs", /not a date/],
  ["2032-03-09", "1900", null, /arrive/i],
  ["2032-03-01", "plenty", "hydrogen kg", /not a number/],
  ["2032-03-01", "-5", null, /at least 0|more than|loadedKg/i],
  ["2032-03-01", "99999", null, /hold|capacity/i],
])("departs %s with %s kg of hydrogen is refused with its line and reason", (departs, kg, column, reason) => {
  const { preview, changes } = flights(
    `${HEAD}\nGood,Packhorse hull 2,Ground,Tarn,2032-05-01,2032-05-07,1900,\nBad,Packhorse hull 2,Ground,Tarn,${departs},2032-03-07,${kg},\n`,
  );
  expect(changes).toHaveLength(1);
  expect(preview.faults).toHaveLength(1);
  expect(preview.faults[0]).toMatchObject({ line: 3 });
  if (column !== null) expect(preview.faults[0]?.column).toBe(column);
  expect(preview.faults[0]?.reason).toMatch(reason);
});

test("unknown craft and depots are named; a row of the wrong width is a fault", () => {
  const { preview } = flights(`${HEAD}\nA,Nobody,Ground,Elsewhere,2032-03-01,2032-03-07,1,\nB,Packhorse hull 2\n`);
  expect(preview.goodRows).toBe(0);
  expect(preview.faults.map(({ reason }) => reason).join(" ")).toMatch(/tanker “Nobody”.*depot “Elsewhere”.*2 cells/);
});

test("a byte-order mark, semicolons and decimal commas are read as such", () => {
  const { readings: taken, preview } = readCsv(
    "readings",
    "\ufefftank;at;kg;sigma kg\r\nTarn hydrogen;2031-06-01 06:00;5612,5;51\r\n",
    entities,
    "baseline",
    [],
  );
  expect(preview.faults).toEqual([]);
  expect(taken[0]).toMatchObject({ tankId: "tarn-hydrogen", massKg: 5612.5, sigmaKg: 51, at: Date.UTC(2031, 5, 1, 6) });
});

test("a percentage is of the maximum fill; no uncertainty, a level far above the tank and a second reading are refused", () => {
  const at = new Date(readings[0]!.at).toISOString();
  const { readings: taken, preview } = readCsv(
    "readings",
    `tank,at,kg,%,sigma kg\nTarn hydrogen,2031-06-02,,50,51\nTarn hydrogen,2031-06-03,5000,,0\nTarn hydrogen,2031-06-04,90000,,51\n${readings[0]!.tankId},${at},5000,,51\n`,
    entities,
    "baseline",
    readings,
  );
  expect(taken.map(({ massKg }) => massKg)).toEqual([8500]);
  expect(preview.faults.map(({ line }) => line)).toEqual([3, 4, 5]);
});

test("a sortie of a known name is changed in place", () => {
  const { changes, preview } = readCsv(
    "sorties",
    "name,campaign,lander,depot,loads\nSortie 4,South Rim Survey,Heron 1,Tarn,2032-02-27\n",
    entities,
    "baseline",
    [],
  );
  expect(preview.effects).toEqual(["changed sortie Sortie 4, loads 2032-02-27"]);
  expect(changes[0]).toMatchObject({ value: { id: "baseline.sortie-4", demand: { kind: "profile" } } });
});

test("a heading that lacks a column, or has one twice, is refused as a whole", () => {
  expect(() => flights("name,craft\nA,B\n")).toThrow(/lacks: from, to, arrives/);
  expect(() => flights("name,name,craft,from,to,arrives\n")).toThrow(/twice/);
  expect(() => flights("")).toThrow(/empty/);
});

test("a misspelt column is refused by name, not passed over with the class's load in its place", () => {
  expect(() => flights("name,craft,from,to,arrives,hydrogn kg\nA,Packhorse hull 2,Ground,Tarn,2032-03-07,1\n")).toThrow(
    /mean nothing here: “hydrogn kg”.*hydrogen kg/,
  );
  expect(() => readCsv("readings", "tank,at,mass,sigma kg\n", entities, "baseline", [])).toThrow(/“mass”/);
});

test("any text at all gives a preview or a refusal in words, never another error", () => {
  fc.assert(
    fc.property(
      fc.constantFrom("flights" as const, "sorties" as const, "readings" as const),
      fc.oneof(
        fc.string({ maxLength: 400 }),
        fc.string({ maxLength: 200 }).map((tail) => `${HEAD}\n${tail}`),
      ),
      (kind, text) => {
        try {
          const { preview, changes, readings: taken } = readCsv(kind, text, entities, "baseline", []);
          expect(preview.goodRows).toBe(changes.length + taken.length);
        } catch (error) {
          expect(error).toBeInstanceOf(PlanningError);
        }
      },
    ),
    { numRuns: 500 },
  );
});
