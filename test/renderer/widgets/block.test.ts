/** Blocks of cells from the clipboard: read as they stand, laid over a table, filled down. */
import { describe, expect, it } from "vitest";
import { blockOf } from "../../../renderer/widgets/data-table/block.ts";
import type { Column } from "../../../renderer/widgets/data-table/column.ts";
import { inHeldOrder } from "../../../renderer/widgets/data-table/held-order.ts";
import { filledCells, pastedCells } from "../../../renderer/widgets/data-table/sheet.ts";

interface Row {
  readonly name: string;
  readonly kg: number;
}
const edit = (draft: (row: Row) => string) => ({ draft, fixed: () => null });
const columns: readonly Column<Row>[] = [
  { id: "name", heading: "Flight", value: ({ name }) => name, edit: edit(({ name }) => name) },
  {
    id: "kg",
    heading: "Oxygen",
    unit: "t",
    isNumber: true,
    value: ({ kg }) => kg / 1000,
    text: ({ kg }) => (kg / 1000).toFixed(1),
    edit: edit(({ kg }) => String(kg / 1000)),
  },
  { id: "sum", heading: "Sum", value: ({ kg }) => kg },
];
const rows = [
  { id: "a", original: { name: "A", kg: 1250 } },
  { id: "b", original: { name: "B", kg: 2000 } },
];
const paste = (text: string, at = { row: 0, column: 0 }, canGrow = true) =>
  pastedCells(blockOf(text), { columns, rows, at, canGrow });

describe("the clipboard", () => {
  it.each([
    [
      "a\tb\r\nc\td\r\n",
      [
        ["a", "b"],
        ["c", "d"],
      ],
    ],
    ["one", [["one"]]],
    ['"two\nlines"\tb', [["two\nlines", "b"]]],
    ['"said ""so"""\tb', [['said "so"', "b"]]],
    ['5" pipe\tb', [['5" pipe', "b"]]],
    ["a\t\tc", [["a", "", "c"]]],
  ])("%j is lines of cells", (text, lines) => expect(blockOf(text)).toEqual(lines));
});

describe("a pasted block", () => {
  it("writes what differs, and leaves what says the same as it is", () => {
    expect(paste("A\t1.3\nX\t3").cells).toEqual([
      { rowId: "b", line: 1, columnId: "name", text: "X" },
      { rowId: "b", line: 1, columnId: "kg", text: "3" },
    ]);
    expect(paste("A\t1.25").cells).toEqual([]);
  });
  it("is laid by its headings where it has those of the table, whatever their order", () =>
    expect(paste("Oxygen, t\tFlight\n7\tA", { row: 0, column: 2 }).cells).toEqual([
      { rowId: "a", line: 0, columnId: "kg", text: "7" },
    ]));
  it("makes new rows of lines below the last", () =>
    expect(
      paste("X\t1\nY\t2", { row: 1, column: 0 }).cells.map(({ rowId, line, text }) => [rowId, line, text]),
    ).toEqual([
      ["b", 1, "X"],
      ["b", 1, "1"],
      [null, 2, "Y"],
      [null, 2, "2"],
    ]));
  it("says which columns it leaves out, because they are worked out", () =>
    expect(paste("9\t9", { row: 0, column: 1 })).toMatchObject({ leftOut: ["Sum"], cells: [{ columnId: "kg" }] }));
  it.each([
    ["1\t2\t3\t4", { row: 0, column: 0 }, true, "is 4 columns wide; from here on the table has 3."],
    ["1\n2\n3", { row: 0, column: 0 }, false, "is 3 rows long; from here on the table has 2."],
    ["Flight\tSum", { row: 0, column: 0 }, true, "holds headings alone."],
  ])("%j is refused whole where it has no room", (text, at, canGrow, reason) =>
    expect(paste(text, at, canGrow)).toMatchObject({ cells: [], refusals: [{ reason }] }),
  );
});

it("a fill carries the first row of the range to the rest, whichever end it was drawn from", () => {
  const down = { from: { row: 0, column: 1 }, until: { row: 1, column: 2 } };
  const up = { from: down.until, until: down.from };
  const cells = [{ rowId: "b", line: 1, columnId: "kg", text: "1.25" }];
  expect(filledCells(columns, rows, down)).toEqual(cells);
  expect(filledCells(columns, rows, up)).toEqual(cells);
});

it("while the order is held rows stay where they were, and new ones come last", () =>
  expect(
    inHeldOrder([{ id: "c" }, { id: "b" }, { id: "new" }, { id: "a" }], ["a", "b", "c"]).map(({ id }) => id),
  ).toEqual(["a", "b", "c", "new"]));
