/** The map of a study: blocks cover each cell once, the heavy line parts what holds from what does not, no text lies on another. */
import { describe, expect, test } from "vitest";
import { paperLook, screenLook } from "../../../app/picture/look.ts";
import { studyMapHeight, studyMapPlaces, type StudyMapShown } from "../../../app/picture/study-map-axes.ts";
import { blocksOf, boundsOf } from "../../../app/picture/study-map-cells.ts";
import { studyMapPicture } from "../../../app/picture/study-map-picture.ts";
import { mapRowAt } from "../../../renderer/study/chosen-point.ts";
import { estimate } from "../../renderer/golden/golden.ts";
import { outsideOf, shapesOf, textsOf, wordsOf } from "./shapes-of.ts";

/** Rows from below; "#" holds. An island, a hole, two that touch at a corner, and a part at the edge. */
const field = ["##......", "#.#..##.", "###..##.", "....#...", "........"];
const holds = (i: number, j: number): boolean => field[j]?.[i] === "#";
const [columns, rows] = [8, 5];

test("blocks cover every shaded cell once, and no other, and are fewer than the cells", () => {
  const shade = (i: number, j: number): number => (holds(i, j) ? 0.5 : j === 4 ? 0.2 : 0);
  const blocks = blocksOf(columns, rows, shade);
  const covered = Array.from({ length: rows }, () => Array.from({ length: columns }, () => [] as number[]));
  for (const { left, right, bottom, top, shade: of } of blocks)
    for (let i = left; i < right; i += 1) for (let j = bottom; j < top; j += 1) covered[j]?.[i]?.push(of);
  expect(covered).toEqual(
    Array.from({ length: rows }, (_, j) =>
      Array.from({ length: columns }, (__, i) => (shade(i, j) > 0 ? [shade(i, j)] : [])),
    ),
  );
  expect(blocks.length).toBeLessThan(12);
});

test("the line runs between each two neighbours that differ and nowhere else, in few pieces that turn at every corner", () => {
  const lines = boundsOf(columns, rows, holds);
  const crossed = new Set<string>();
  for (const line of lines)
    for (const [n, [i, j]] of line.slice(1).entries()) {
      const [a, b] = line[n] ?? [Number.NaN, Number.NaN];
      expect((a === i) !== (b === j)).toBe(true);
      for (let x = Math.min(a, i); x < Math.max(a, i); x += 1) crossed.add(`flat ${x} ${j}`);
      for (let y = Math.min(b, j); y < Math.max(b, j); y += 1) crossed.add(`upright ${i} ${y}`);
    }
  const expected = new Set<string>();
  for (let i = 0; i < columns; i += 1)
    for (let j = 0; j < rows; j += 1) {
      if (i > 0 && holds(i - 1, j) !== holds(i, j)) expected.add(`upright ${i} ${j}`);
      if (j > 0 && holds(i, j - 1) !== holds(i, j)) expected.add(`flat ${i} ${j}`);
    }
  expect([...crossed].toSorted()).toEqual([...expected].toSorted());
  // The part at the edge, its hole, and the island with what touches it.
  expect(lines.length).toBeLessThanOrEqual(4);
  expect(boundsOf(columns, rows, () => null)).toEqual([]);
});

const shown = (panels: number, today: StudyMapShown["today"]): StudyMapShown => ({
  across: { words: "loss factor of every depot tank", unit: "" },
  up: { words: "reserve in Tarn hydrogen", unit: "kg" },
  value: { words: "sorties supplied", unit: "" },
  panels: Array.from({ length: panels }, (_, panel) => ({
    title: panels === 1 ? "" : `Sortie cadence ${panel}`,
    slice: {
      xs: [0, 1, 2],
      ys: [1000, 2000, 4000],
      cells: [0, 1, 2].flatMap((x) =>
        [1000, 2000, 4000].map((y, j) => ({
          row: panel * 9 + x * 3 + j,
          x,
          y,
          value: 4 - x,
          holds: x === 0,
        })),
      ),
    },
  })),
  today,
  holds: "every sortie is supplied",
  massUnit: "t",
  notes: ["A note"],
});

const looks = [
  ["screen", screenLook, 900],
  ["a narrow screen", screenLook, 640],
  ["paper", paperLook, 500],
] as const;

describe.each(looks)("on %s", (_, look, width) => {
  test.each([1, 4])("with %i maps nothing lies outside, and no text on another", (count) => {
    for (const today of [
      [1, 1500],
      [1, null],
      [null, 1500],
      [9, 1500],
    ] as const) {
      const picture = studyMapPicture(
        shown(count, today),
        { width, height: studyMapHeight(count, width, look) + look.note },
        look,
      );
      expect(outsideOf(picture)).toEqual([]);
      expect(wordsOf(picture).includes("the plan as it is")).toBe(today[0] !== 9);
      const boxes = textsOf(picture).map(({ x, y, text, size, anchor, isBold }) => {
        const wide = estimate(text, size, isBold);
        const left = x - (anchor === "start" ? 0 : anchor === "end" ? wide : wide / 2);
        return { text, left, right: left + wide, top: y - size / 2, bottom: y + size / 2 };
      });
      for (const box of boxes) expect(box.right).toBeLessThanOrEqual(width);
      const over = boxes.flatMap((a, n) =>
        boxes
          .slice(n + 1)
          .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
          .map((b) => [a.text, b.text]),
      );
      expect(over).toEqual([]);
    }
  });

  test("what is pressed is the point nearest to it", () => {
    const maps = shown(2, [null, null]);
    const size = { width, height: studyMapHeight(2, width, look) };
    for (const { panel, x, y } of studyMapPlaces(maps, size, look))
      for (const cell of panel.slice.cells)
        expect(mapRowAt(maps, size, look, x.at(cell.x) + 2, y.at(cell.y) - 2)).toBe(cell.row);
    expect(mapRowAt(maps, size, look, 1, 1)).toBeNull();
  });
});

test("where all holds, or nothing, the legend says so instead of a line", () => {
  const [one] = shown(1, [null, null]).panels;
  const said = (all: boolean): string => {
    const slice = { ...one!.slice, cells: one!.slice.cells.map((cell) => ({ ...cell, holds: all })) };
    const maps = { ...shown(1, [null, null]), panels: [{ title: "", slice }] };
    const picture = studyMapPicture(maps, { width: 900, height: 400 }, screenLook);
    expect(shapesOf(picture).filter((shape) => shape.kind === "path" && shape.ink === "ink")).toEqual([]);
    return wordsOf(picture).join(" ");
  };
  expect(said(true)).toContain("holds everywhere here: every sortie is supplied");
  expect(said(false)).toContain("holds nowhere here: every sortie is supplied");
});
