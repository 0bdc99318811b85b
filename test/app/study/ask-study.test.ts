/** A study on screen: the same rows as point by point, whatever it is cut into, stopped and gone on with; what does not fit a window is refused. */
import { expect, test } from "vitest";
import { leadStudy, type StudyDone, type StudyPart, studyPart } from "../../../app/study/ask-study.ts";
import type { Cell } from "../../../app/study/columns.ts";
import { rankInputs } from "../../../app/study/ranking.ts";
import { parseStudy } from "../../../app/study/resolve.ts";
import { prepareStudy } from "../../../app/study/study.ts";
import type { StudyAnswer } from "../../../app/study/study-answer.ts";
import { cellAt, joinTables, packRows, rowsIn, type StudyTable } from "../../../app/study/study-table.ts";
import { carries, flight, lossPeriod, smallPlan, sortie, tank } from "../forecast/small-plan.ts";

const plan = smallPlan({
  tanks: [tank("a", { maximumFillKg: 40_000, reserveKg: 1000 })],
  opening: { a: 20_000 },
  tanker: [carries({ capacityKg: 12_000 })],
  flights: [flight("f1", 5, 10, 10_000), flight("f2", 25, 30, 10_000)],
  sorties: [sortie("s1", 20, 15_000), sortie("s2", 40, 15_000)],
  lossPeriods: [lossPeriod("base", "a", 0.001, 50)],
  horizonDay: 60,
});
const asked = (part: object = {}) =>
  parseStudy({
    name: "Losses",
    inputs: [
      { quantity: "loss factor", values: { kind: "range", from: 0, to: 4, count: 9 } },
      { quantity: "reserve", tank: "a", values: { kind: "list", list: [0, 500, 2000] } },
    ],
    design: { kind: "grid" },
    ask: [{ kind: "supply" }, { kind: "verdict" }],
    ...part,
  });
const baseOf = (part: object = {}) => ({ plan, readings: [], asked: asked(part), inputHash: "hash" });
const quiet = { tell: () => undefined, shouldStop: () => false };

/** Runs the parts here; `stopAfter`: only so many parts are whole. */
const leading = (base: ReturnType<typeof baseOf>, threads: number, pointMs: number, stopAfter = Infinity) => {
  let done = 0;
  const partials: StudyAnswer[] = [];
  return {
    partials,
    threads,
    tell: (progress: unknown) => {
      const { partial } = (typeof progress === "function" ? progress() : progress) as { partial?: StudyAnswer };
      if (partial !== undefined) partials.push(partial);
    },
    shouldStop: () => done >= stopAfter,
    runParts: async (parts: readonly StudyPart[], onDone?: (part: StudyDone, place: number) => void) => {
      let at = 0;
      const answers: (StudyDone | null)[] = [];
      for (const [place, part] of parts.entries()) {
        if (done >= stopAfter) {
          answers.push(null);
          continue;
        }
        done += 1;
        // A clock that says how long a point takes decides how the parts are cut.
        const clock = () => (at += part.kind === "points" ? ((part.until - part.from) * pointMs) / 2 : 0);
        const answer = studyPart(base, part, null, clock, quiet);
        answers.push(answer);
        onDone?.(answer, place);
      }
      return await Promise.resolve(answers);
    },
  };
};

const rowsOf = (table: StudyTable): readonly (readonly Cell[])[] =>
  Array.from({ length: rowsIn(table) }, (_, row) =>
    Array.from({ length: table.width }, (__, column) => cellAt(table, row, column)),
  );

test("the rows are those of the points one by one, to the bit, however they are cut and by however many threads", async () => {
  const base = baseOf();
  const study = prepareStudy(base);
  const direct = Array.from({ length: study.points }, (_, point) => study.rowOf(study.valuesOf(point)));
  for (const [threads, pointMs] of [
    [1, 1000],
    [2, 20],
    [5, 0.01],
  ] as const) {
    const answer = await leadStudy(base, { from: 0 }, leading(base, threads, pointMs));
    expect(rowsOf(answer.rows)).toEqual(direct);
    expect(answer.points).toBe(27);
    // The words of the columns, too, stand in an order that hangs on no cut.
    expect(answer.rows).toEqual(packRows(direct, study.columns.length));
  }
});

test("what is told meanwhile is the beginning of the whole", async () => {
  const base = baseOf();
  const lead = leading(base, 2, 1000);
  const whole = rowsOf((await leadStudy(base, { from: 0 }, lead)).rows);
  expect(lead.partials.length).toBeGreaterThan(2);
  for (const { rows } of lead.partials) expect(rowsOf(rows)).toEqual(whole.slice(0, rowsIn(rows)));
});

test("stopped, it has an unbroken row of points; gone on with, it has all of them, as if it had never stopped", async () => {
  const base = baseOf();
  const first = await leadStudy(base, { from: 0 }, leading(base, 2, 1000, 5));
  const done = rowsIn(first.rows);
  expect(done).toBeGreaterThan(0);
  expect(done).toBeLessThan(27);
  const rest = await leadStudy(base, { from: done }, leading(base, 3, 10));
  const whole = await leadStudy(base, { from: 0 }, leading(base, 1, 10));
  expect(rowsOf(joinTables([first.rows, rest.rows], whole.columns.length))).toEqual(rowsOf(whole.rows));
});

test("words of two parts keep their meaning when the parts are joined", () => {
  const [a, b] = [
    packRows([["short", 1]], 2),
    packRows(
      [
        ["supplied", null],
        ["short", 3],
      ],
      2,
    ),
  ];
  expect(rowsOf(joinTables([a, b], 2))).toEqual([
    ["short", 1],
    ["supplied", null],
    ["short", 3],
  ]);
});

test("the rankings are those of the command line, of every outcome that is a number at every point", async () => {
  const base = baseOf({ design: { kind: "what matters", base: 16 }, ask: [{ kind: "supply", each: false }] });
  const answer = await leadStudy(base, { from: 0 }, leading(base, 2, 1));
  const result = {
    name: "",
    planCase: "",
    columns: answer.columns,
    inputs: 2,
    today: [],
    rows: rowsOf(answer.rows),
  };
  const of = answer.columns.findIndex(({ name }) => name === "least margin");
  const { of: _of, unit: _unit, ...direct } = rankInputs(result, "what matters", "least margin");
  expect(answer.rankings.find(({ column }) => column === of)).toEqual({ column: of, ...direct });
});

test("more than a window shows is refused with what to do instead", async () => {
  const base = baseOf({
    inputs: [{ quantity: "loss factor", values: { kind: "range", from: 0, to: 4, count: 1_000_000 } }],
  });
  await expect(leadStudy(base, { from: 0 }, leading(base, 1, 1))).rejects.toThrow(
    /more than a window shows.*study plan/,
  );
});
