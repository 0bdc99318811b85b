/** The losses section: the books to the gram in every form, the comparison, and what is said without records. */
import { strictCsv } from "../../../app/format/csv-form.ts";
import { expect, test } from "vitest";
import { fitTank } from "../../../app/losses/fit/fit-tank.ts";
import { buildReport } from "../../../app/report/build.ts";
import { tableToCsv } from "../../../app/report/format/csv.ts";
import type { Table } from "../../../app/report/model.ts";
import { exampleContext } from "./example.ts";
import { outsideOf, wordsOf } from "../picture/shapes-of.ts";

const sectionOf = (context: ReturnType<typeof exampleContext>) =>
  buildReport(context).sections.find((section) => section.id === "losses")!;

test("the statement's grams arrive in the table and, digit for digit, in the CSV", () => {
  const tables = sectionOf(exampleContext()).blocks.filter((block): block is Table => block.kind === "table");
  expect(tables.map((table) => table.id)).toEqual([
    "losses-happened-tarn-hydrogen",
    "losses-tarn-hydrogen",
    "losses-compared",
  ]);
  expect(tables[0]!.caption).toContain("as happened");
  expect(tables[0]!.rows[0]).toContainEqual({ kind: "grams", grams: 177_654 });
  expect(tables[1]!.caption).toContain("as booked");
  const [month, all] = tables[1]!.rows;
  expect(month).toContainEqual({ kind: "grams", grams: 187_654 });
  expect(month).toContainEqual({ kind: "text", text: "2030-12" });
  expect(all!.slice(1)).toEqual(month!.slice(1));
  expect(tableToCsv(tables[1]!, "kg", strictCsv)).toContain("187.654");
});

test("loss by cause stands beside the figures as a picture, within its frame, with the sum of each cause", () => {
  const charts = sectionOf(exampleContext()).blocks.flatMap((block) => (block.kind === "chart" ? [block] : []));
  expect(charts.map(({ id }) => id)).toEqual(["losses-chart-tarn-hydrogen"]);
  const words = wordsOf(charts[0]!.picture);
  expect(words).toContain("boil-off");
  expect(words).toContain("177.7\u202fkg");
  expect(words).toContain("unaccounted");
  expect(outsideOf(charts[0]!.picture)).toEqual([]);
});

test("measured rates stand with their interval beside the plan's; what cannot be fitted is said", () => {
  const readings = [9000, 8995, 8991, 8985].map((massKg, i) => ({
    id: `r${i}`,
    tankId: "tarn-hydrogen",
    at: Date.UTC(2031, 0, 1 + 10 * i),
    massKg,
    sigmaKg: 1,
    entryId: null,
    isWithdrawn: false,
    note: "",
  }));
  const question = {
    request: {
      tankId: "tarn-hydrogen",
      fromAt: 0,
      untilAt: Date.UTC(2031, 5, 1),
      fitted: "c" as const,
      rateChanges: "apart" as const,
      held: null,
      leftOutIds: [],
    },
    periods: [],
    fallback: { kPerDay: 0, cKgPerDay: 0.7 },
    readings,
    transfers: [],
    holdsKg: 17_000,
  };
  const { blocks } = sectionOf({
    ...exampleContext(),
    fits: [
      { tankId: "tarn-hydrogen", fit: fitTank(question), cannot: null },
      { tankId: "tarn-oxygen", fit: null, cannot: "There are too few readings: 1." },
    ],
  });
  const table = blocks.find((block): block is Table => block.kind === "table" && block.id === "losses-measured")!;
  const figures = table.rows[0]!.flatMap((cell) => (cell.kind === "number" ? [cell.value] : []));
  // By hand, equal weights over 0, 10, 20, 30 days: slope Σ(t − 15)(y − ȳ)/500 = −245/500, so 0.49 kg/day; χ² = 0.70 of
  // 2 degrees is under 1 each, so half the interval is by the stated σ of 1 kg: 1.95996/√500 = 0.08765.
  expect(figures.slice(0, 5)).toEqual([
    4,
    expect.closeTo(0.49, 6),
    expect.closeTo(0.49 - 0.08765, 3),
    expect.closeTo(0.49 + 0.08765, 3),
    0.7,
  ]);
  expect(JSON.stringify(blocks)).toContain("There are too few readings: 1.");
});

test("without records in the period it says so", () => {
  const { blocks } = sectionOf({ ...exampleContext(), losses: null });
  expect(blocks).toEqual([{ kind: "paragraph", text: "Nothing is recorded in the period of this report." }]);
});
