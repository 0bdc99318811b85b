/** Pages of a report: nothing lost, nothing cut, headings with what they head, tables that go on have their head again. */
import { array, assert, constantFrom, integer, property, record } from "fast-check";
import { expect, test } from "vitest";
import { firstPages, paginate } from "../../../renderer/reports/paper/paginate.ts";
import type { Piece } from "../../../renderer/reports/paper/pieces.ts";

const heading = (sectionId: string): Piece => ({ kind: "heading", sectionId, text: sectionId });
const paragraph = (text: string): Piece => ({ kind: "paragraph", text });
const head = (tableId: string): Piece => ({
  kind: "head",
  tableId,
  caption: `Table ${tableId}`,
  columns: [],
  shares: [],
  names: [],
});
const row = (tableId: string, cell: string): Piece => ({
  kind: "row",
  tableId,
  columns: [],
  shares: [],
  cells: [cell],
  mark: null,
});

test("what fits stays on one page; what does not goes to the next whole", () => {
  const pieces = [paragraph("a"), paragraph("b"), paragraph("c")];
  expect(paginate(pieces, [40, 40, 40], 100)).toEqual([[pieces[0], pieces[1]], [pieces[2]]]);
});

test("a heading goes with what it heads, through the head of a table to its first row", () => {
  const pieces = [paragraph("a"), heading("supply"), head("t"), row("t", "1"), row("t", "2")];
  // By hand: 50 + 20 + 20 + 20 = 110 > 100, so heading, head and first row begin page 2.
  expect(paginate(pieces, [50, 20, 20, 20, 20], 100)).toEqual([[pieces[0]], pieces.slice(1)]);
});

test("a table that goes on has its head again, without its caption", () => {
  const pieces = [head("t"), row("t", "1"), row("t", "2"), row("t", "3")];
  const pages = paginate(pieces, [20, 30, 30, 30], 80);
  expect(pages).toEqual([
    [pieces[0], pieces[1], pieces[2]],
    [{ ...head("t"), caption: null }, pieces[3]],
  ]);
});

test("a piece higher than a page has one to itself, and the work ends", () => {
  const pieces = [paragraph("a"), paragraph("high"), paragraph("b")];
  expect(paginate(pieces, [10, 500, 10], 100)).toEqual([[pieces[0]], [pieces[1]], [pieces[2]]]);
});

test("the page on which a section begins is told", () => {
  const pieces = [heading("one"), paragraph("a"), heading("two"), paragraph("b")];
  expect([...firstPages(paginate(pieces, [20, 60, 20, 60], 100))]).toEqual([
    ["one", 1],
    ["two", 2],
  ]);
});

test("whatever the heights: every piece once and in order, no page over its height unless one piece is, no heading last", () => {
  const drawn = array(
    record({ kind: constantFrom("heading", "paragraph", "table"), rows: integer({ min: 1, max: 12 }) }),
    { maxLength: 30 },
  );
  assert(
    property(drawn, array(integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 40 }), (parts, sizes) => {
      const pieces = parts.flatMap((part, i): Piece[] =>
        part.kind === "heading"
          ? [heading(`s${i}`), paragraph(`after ${i}`)]
          : part.kind === "paragraph"
            ? [paragraph(`p${i}`)]
            : [head(`t${i}`), ...Array.from({ length: part.rows }, (_, r) => row(`t${i}`, `${i}.${r}`))],
      );
      const heights = pieces.map((_, i) => sizes[i % sizes.length] ?? 1);
      const pages = paginate(pieces, heights, 300);
      const isAgain = (piece: Piece): boolean => piece.kind === "head" && piece.caption === null;
      expect(pages.flat().filter((piece) => !isAgain(piece))).toEqual(pieces);
      for (const page of pages) {
        const used = page.reduce((sum, piece) => {
          const original = isAgain(piece)
            ? pieces.findIndex(
                (each) => each.kind === "head" && each.tableId === (piece as { tableId: string }).tableId,
              )
            : pieces.indexOf(piece);
          return sum + (heights[original] ?? 0);
        }, 0);
        expect(used).toBeLessThanOrEqual(300);
        expect(["heading", "head"]).not.toContain(page.at(-1)?.kind);
      }
    }),
  );
});
