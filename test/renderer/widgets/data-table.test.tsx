// @vitest-environment jsdom
/** The table: walked as a grid, sorted, selected, copied as text. */
import { cleanup, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Column } from "../../../renderer/widgets/data-table/column.ts";
import { DataTable } from "../../../renderer/widgets/data-table/data-table.tsx";

beforeEach(() => {
  // A page without layout has no sizes that could change.
  vi.stubGlobal(
    "ResizeObserver",
    class {
      observe = vi.fn<() => void>();
      disconnect = vi.fn<() => void>();
    },
  );
});
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

interface Row {
  readonly id: string;
  readonly massKg: number | null;
}
const rows: readonly Row[] = [
  { id: "Wagon 10", massKg: -1234.5678 },
  { id: "Wagon 9", massKg: null },
  { id: "Wagon 2", massKg: 800 },
];
const columns: readonly Column<Row>[] = [
  { id: "name", heading: "Flight", value: ({ id }) => id },
  {
    id: "mass",
    heading: "Margin",
    unit: "kg",
    isNumber: true,
    value: ({ massKg }) => massKg,
    text: ({ massKg }) => (massKg === null ? "" : `\u2212\u202f${Math.round(Math.abs(massKg))}`),
  },
];

const show = () => {
  const select = vi.fn<(row: Row) => void>();
  const user = userEvent.setup();
  render(
    <DataTable
      caption="Flights"
      columns={columns}
      rows={rows}
      rowId={({ id }) => id}
      onSelect={select}
      empty="No flight."
    />,
  );
  return { user, select };
};
const names = () => screen.getAllByRole("rowheader").map((cell) => cell.textContent);

it("is one tab stop; arrows, Home and End walk its cells; Enter selects the row", async () => {
  const { user, select } = show();
  await user.click(screen.getByRole("button", { name: "Copy table: Flights" }));
  await user.tab();
  expect(document.activeElement?.textContent).toBe("Wagon 10");
  await user.keyboard("{ArrowDown}{ArrowDown}{ArrowDown}");
  expect(document.activeElement?.textContent).toBe("Wagon 2");
  await user.keyboard("{Control>}{Home}{/Control}{ArrowDown}{Enter}");
  expect(select.mock.calls).toEqual([[rows[1]]]);
  await user.keyboard("{End}{ArrowUp}{ArrowUp}");
  expect(document.activeElement?.getAttribute("aria-sort")).toBe("none");
  await user.tab();
  expect(screen.getByRole("grid").contains(document.activeElement)).toBe(false);
});

it("sorts from the heading: numbers inside names by their value, empty cells last both ways", async () => {
  const { user } = show();
  await user.click(screen.getByRole("button", { name: "Flight" }));
  expect(names()).toEqual(["Wagon 2", "Wagon 9", "Wagon 10"]);
  await user.click(screen.getByRole("button", { name: /Margin/ }));
  expect(names()).toEqual(["Wagon 10", "Wagon 2", "Wagon 9"]);
  await user.click(screen.getByRole("button", { name: /Margin/ }));
  expect(names()).toEqual(["Wagon 2", "Wagon 10", "Wagon 9"]);
  expect(screen.getByRole("columnheader", { name: /Margin/ }).getAttribute("aria-sort")).toBe("descending");
});

it("copies as tab-separated text, numbers in full; marked rows alone by the keyboard", async () => {
  const { user } = show();
  await user.click(screen.getByRole("button", { name: "Copy table: Flights" }));
  expect(await navigator.clipboard.readText()).toBe(
    "Flight\tMargin, kg\nWagon 10\t-1234.5678\nWagon 9\t\nWagon 2\t800",
  );
  await user.tab();
  await user.keyboard("{ArrowDown}{Shift>}{ArrowDown}{/Shift}");
  expect(screen.getAllByRole("row", { selected: true })).toHaveLength(2);
  await user.keyboard("{Control>}c{/Control}");
  expect(await navigator.clipboard.readText()).toBe("Flight\tMargin, kg\nWagon 9\t\nWagon 2\t800");
});

it("opens a row to its particulars, and says what is missing when there are no rows", async () => {
  const user = userEvent.setup();
  const { rerender } = render(
    <DataTable
      caption="Flights"
      columns={columns}
      rows={rows}
      rowId={({ id }) => id}
      detail={({ id }) => <p>All about {id}</p>}
      empty="No flight."
    />,
  );
  await user.click(screen.getByText("Wagon 9"));
  expect(screen.getByText("All about Wagon 9")).toBeTruthy();
  expect(within(screen.getByRole("treegrid")).getByRole("row", { expanded: true }).textContent).toContain("Wagon 9");
  rerender(<DataTable caption="Flights" columns={columns} rows={[]} rowId={({ id }) => id} empty="No flight." />);
  expect(screen.getByText("No flight.")).toBeTruthy();
});
