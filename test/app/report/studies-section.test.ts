/** The section of kept studies: what was asked, staleness, figure and table, per cent, what is cut, and what cannot be read. */
import { describe, expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import { finishedText, parseFinished } from "../../../app/report/finished.ts";
import { onPaper } from "../../../app/report/format/on-paper.ts";
import { cellForPeople, headingOf } from "../../../app/report/format/cell-text.ts";
import type { Block, Table } from "../../../app/report/model.ts";
import { studyBlocks } from "../../../app/report/section/studies.ts";
import type { ReportedStudy } from "../../../app/report/context.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import type { Cell } from "../../../app/study/columns.ts";
import type { StudyAnswer } from "../../../app/study/study-answer.ts";
import { packRows } from "../../../app/study/study-table.ts";
import { exampleContext } from "./example.ts";

const answerOf = (rows: readonly (readonly Cell[])[], count = rows.length): StudyAnswer => ({
  planCaseId: "base",
  planCase: "Baseline",
  inputHash: "0".repeat(64),
  asked: parseStudy({
    name: "Losses",
    inputs: [{ quantity: "loss factor", values: { kind: "range", from: 0, to: count - 1, count } }],
    design: { kind: "grid" },
    ask: [{ kind: "risk", runs: 1024 }],
  }),
  inputs: [{ words: "loss factor", unit: "", today: 1 }],
  columns: [
    { name: "loss factor", unit: "" },
    { name: "all fly when planned", unit: "" },
    { name: "all fly when planned: error", unit: "" },
    { name: "Sortie 1: flies when planned", unit: "", sortieId: "sortie-1" },
    { name: "Sortie 1: delay P50", unit: "days", sortieId: "sortie-1" },
  ],
  points: rows.length,
  from: 0,
  rows: packRows(rows, 5),
  rankings: [],
});

const kept = (number: number, answer: StudyAnswer | null, more: Partial<ReportedStudy> = {}, isStale = false) =>
  ({
    study: {
      number,
      keptAt: Date.UTC(2031, 0, 2),
      author: "A. Planner",
      planCaseId: "base",
      caseName: "Baseline",
      name: "Losses",
      points: answer?.points ?? 7,
      program: "0.1.0",
      planHash: "1".repeat(64),
      answerHash: "2".repeat(64),
      isStale,
    },
    answer,
    cannot: null,
    ...more,
  }) satisfies ReportedStudy;

const few = answerOf([
  [0, 0.95, 0.007, 0.99, 0],
  [1, 0.5, 0.0156, 0.75, 3.25],
  [2, 0, 0, 0.25, null],
]);

const blocksOf = (...studies: readonly ReportedStudy[]): readonly Block[] =>
  studyBlocks({ ...exampleContext(), studies });
const tableIn = (blocks: readonly Block[]): Table => {
  const table = blocks.find((block) => block.kind === "table");
  if (table?.kind !== "table") throw new Error("no table");
  return table;
};
const cautions = (blocks: readonly Block[]): readonly string[] =>
  blocks.flatMap((block) => (block.kind === "caution" ? [block.text] : []));

describe("a kept study on paper", () => {
  const blocks = blocksOf(kept(4, few));

  test("probabilities are per cent, with the unit in the heading and in the figure's words", () => {
    const table = tableIn(blocks);
    expect(table.columns.map((column) => headingOf(column, "t").replaceAll("\u202f", " "))).toEqual([
      "Loss factor",
      "All fly when planned, %",
      "All fly when planned: error, %",
      "Sortie 1: flies when planned, %",
      "Sortie 1: delay P50, days",
    ]);
    expect(table.rows.map((row) => row.map((cell) => cellForPeople(cell, "t")))).toEqual([
      ["0", "95.0", "0.7", "99.0", "0.00"],
      ["1", "50.0", "1.6", "75.0", "3.25"],
      ["2", "0.0", "0.0", "25.0", ""],
    ]);
    const chart = blocks.find((block) => block.kind === "chart");
    // 0.5 ± 1.96 × 0.0156 is 46.9 to 53.1 %.
    expect(chart?.description.replaceAll("\u202f", " ")).toContain("1: 50 % (46.9 % to 53.1 %)");
  });

  test("it says where the plan ceases to hold, and nothing of staleness as long as it is fresh", () => {
    const facts = blocks.flatMap((block) => (block.kind === "facts" ? block.items : []));
    expect(facts.find(({ term }) => term === "Holds")?.text).toBe(
      "At 1 of 3 points (all fly when planned in nine runs of ten). It begins or ceases to hold between 0 and 1.",
    );
    expect(cautions(blocks)).toEqual([]);
    expect(cautions(blocksOf(kept(4, few, {}, true)))).toEqual([expect.stringMatching(/^Study 4 is stale\./)]);
  });
});

test("three are told in full, older ones by name; one that cannot be read says why and keeps none of the others out", () => {
  const damaged = kept(5, null, { cannot: "The kept study 5 is damaged: its rows cannot be unpacked." });
  const blocks = blocksOf(damaged, kept(4, few), kept(3, few), kept(2, null), kept(1, null, {}, true));
  expect(blocks.flatMap((block) => (block.kind === "table" ? [block.id] : []))).toEqual(["study-4", "study-3"]);
  expect(cautions(blocks)).toEqual(["The kept study 5 is damaged: its rows cannot be unpacked."]);
  const list = blocks.find((block) => block.kind === "list");
  expect(list?.items.map((item) => item.slice(0, 7))).toEqual(["Study 2", "Study 1"]);
  expect(list?.items[1]).toMatch(/stale\.$/);
});

test("a long table is cut on paper and whole elsewhere; beyond what a report holds it is cut there too, and both are said", () => {
  const long = (count: number) =>
    blocksOf(kept(1, answerOf(Array.from({ length: count }, (_, at) => [at, 1, 0, 1, 0]))));
  const model = { ...buildReport(exampleContext()), sections: [{ id: "s", title: "S", blocks: long(200) }] };
  const shown = tableIn(onPaper(model).sections[0]?.blocks ?? []);
  expect([tableIn(long(200)).rows.length, tableIn(long(200)).columns.length]).toEqual([200, 5]);
  expect([shown.rows.length, shown.columns.length]).toEqual([24, 3]);
  expect(shown.caption).toContain("the first 24 of 200 points and 3 of 5 columns; in the workbook and as CSV all");
  const beyond = tableIn(long(10_003));
  expect(beyond.rows).toHaveLength(10_000);
  expect(beyond.caption).toMatch(/the first 10.000 points, with all columns; the other 3 are in the ledger alone/);
});

test("an issue with a study is read back as it was kept; one from before studies is, too", () => {
  const context = exampleContext();
  const finished = (studies: readonly ReportedStudy[]) => ({
    report: buildReport({ ...context, studies }),
    calendar: "",
    sorties: [],
  });
  for (const each of [finished([kept(4, few)]), finished([])])
    expect(parseFinished(finishedText(each))).toEqual(JSON.parse(JSON.stringify(each)));
  const { report } = finished([]);
  const sections = report.sections.filter(({ id }) => id !== "studies");
  expect(
    parseFinished(finishedText({ ...finished([]), report: { ...report, sections } })).report.sections,
  ).toHaveLength(sections.length);
});
