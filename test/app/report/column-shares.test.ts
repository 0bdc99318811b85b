/** Columns share a table's width: never so that a date is cut, else by their weights. */
import { expect, test } from "vitest";
import { columnShares } from "../../../app/report/format/column-shares.ts";
import type { Cell, Column } from "../../../app/report/model.ts";

const column = (title: string, weight: number, align: Column["align"] = "start"): Column => ({
  title,
  unit: null,
  align,
  weight,
});
const text = (words: string): Cell => ({ kind: "text", text: words });
const total = (shares: readonly number[]) => shares.reduce((sum, share) => sum + share, 0);

test("where all fits, the weights decide", () => {
  const shares = columnShares(
    { columns: [column("A", 1), column("B", 3)], rows: [[text("short"), text("a few words more")]] },
    "t",
  );
  expect(shares[0]).toBeCloseTo(0.25, 9);
  expect(total(shares)).toBeCloseTo(1, 9);
});

test("a column of dates is widened at the cost of those with room, until the date fits", () => {
  const dates: Cell = { kind: "instant", at: Date.UTC(2031, 0, 1) };
  const columns = [column("Tank", 8), column("From", 0.5), column("Reason", 8)];
  const shares = columnShares({ columns, rows: [[text("Tarn"), dates, text("cooler running")]] }, "t");
  // Ten characters of about 0.55 em at 7.5 points, on the 495 points between the margins of A4, are 8.3 %.
  expect(shares[1]).toBeGreaterThan(0.083);
  expect(shares[0]).toBeCloseTo(shares[2] ?? 0, 2);
  expect(total(shares)).toBeCloseTo(1, 9);
});

test("where nothing has room, the shares still come to one and none is nothing", () => {
  const columns = Array.from({ length: 20 }, (_, i) => column(`Column${i}`, i === 0 ? 5 : 0.1, "end"));
  const rows = [columns.map(() => text("1234567890123"))];
  const shares = columnShares({ columns, rows }, "t");
  expect(total(shares)).toBeCloseTo(1, 9);
  expect(Math.min(...shares)).toBeGreaterThan(0.03);
});
