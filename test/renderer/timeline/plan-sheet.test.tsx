/** The tables of flights and sorties filled in where they stand, on the real service: typed, pasted, filled down, undone. */
import "../with-dom.ts";
import { fireEvent, screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it } from "vitest";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { TimelineTable } from "../../../renderer/timeline/table/timeline-table.tsx";
import { openPage } from "../planner-page.tsx";

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  page = await openPage(<TimelineTable />);
});
afterEach(async () => {
  await page.close();
});

const grid = () => screen.getByRole("grid", { name: "Flights" });
const columnOf = (heading: string): number =>
  within(grid())
    .getAllByRole("columnheader")
    .findIndex((cell) => cell.textContent.startsWith(heading));
const rowOf = (name: string): HTMLElement => {
  const row = within(grid()).getByRole("rowheader", { name }).closest("tr");
  if (row === null) throw new Error(`no row ${name}`);
  return row;
};
const cellOf = (name: string, heading: string): HTMLElement => {
  const cell = rowOf(name).children[columnOf(heading)];
  if (!(cell instanceof HTMLElement)) throw new Error(`no cell ${heading} of ${name}`);
  return cell;
};
const flight = (name: string) => {
  const found = page.plan().flights.find((row) => row.name === name);
  if (found === undefined) throw new Error(`no flight ${name}`);
  return found;
};
const planned = () =>
  page
    .plan()
    .flights.filter(({ status, depotId }) => status === "planned" && depotId === "tarn")
    .toSorted((a, b) => a.departAt - b.departAt);
const pasteAt = (cell: HTMLElement, text: string): void => {
  cell.focus();
  fireEvent.paste(cell, { clipboardData: { getData: () => text } });
};
const day = (at: number): string => new Date(at).toISOString().slice(0, 10);

it("what is typed takes the place of a cell; the arrival moves along; undo says whose departure it was", async () => {
  const [first] = planned();
  if (first === undefined) throw new Error("no planned flight");
  const revision = page.revision();
  cellOf(first.name, "Departs").focus();
  const later = day(first.departAt + 2 * DAY_MS);
  await page.user.keyboard(`${later}{Enter}`);
  await page.saved(revision);
  expect(flight(first.name).departAt).toBe(Date.parse(later));
  expect(flight(first.name).arriveAt - flight(first.name).departAt).toBe(first.arriveAt - first.departAt);
  expect(page.store.get().ledger?.undoLabel).toEqual(`Change departure of ${first.name}`);
  await page.session.undo();
  expect(flight(first.name)).toEqual(first);
});

it("what cannot be read stays in its cell and says why, and another cell does not open over it", async () => {
  const [first, second] = planned();
  if (first === undefined || second === undefined) throw new Error("no planned flights");
  cellOf(first.name, "Departs").focus();
  await page.user.keyboard("31 Feb 2031{Enter}");
  expect(screen.getByRole("alert").textContent).toContain(`${first.name}, Departs: “31 Feb 2031” is not a date.`);
  cellOf(second.name, "Departs").focus();
  await page.user.keyboard("2031-05-05");
  expect(screen.getByDisplayValue(/^31 Feb 2031/)).toBe(document.activeElement);
  await page.user.keyboard("{Escape}");
  expect(flight(first.name)).toEqual(first);
  expect(flight(second.name)).toEqual(second);
});

it("a block is pasted as one step that undo takes back whole; one bad cell, and none of it is written", async () => {
  const [first, second] = planned();
  if (first === undefined || second === undefined) throw new Error("no planned flights");
  const good = `firm\t${day(first.departAt + DAY_MS)}\nfirm\t${day(second.departAt + DAY_MS)}`;
  pasteAt(cellOf(first.name, "Status"), good.replace(/firm(?=[^f]*$)/, "certain"));
  const alert = screen.getByRole("alert").textContent;
  expect(alert).toContain("Nothing was written.");
  expect(alert).toContain(
    `${second.name}, Status: There is no status “certain”. Write one of: planned, firm, cancelled.`,
  );
  expect(flight(first.name)).toEqual(first);

  const revision = page.revision();
  pasteAt(cellOf(first.name, "Status"), good);
  await page.saved(revision);
  expect([first, second].map(({ name }) => [flight(name).status, day(flight(name).departAt)])).toEqual([
    ["firm", day(first.departAt + DAY_MS)],
    ["firm", day(second.departAt + DAY_MS)],
  ]);
  await page.session.undo();
  expect([flight(first.name), flight(second.name)]).toEqual([first, second]);
});

it("lines below the last flight become flights with From and To of the one above, and it is said", async () => {
  const all = page.plan().flights.filter(({ depotId }) => depotId === "tarn");
  const last = all.toSorted((a, b) => a.departAt - b.departAt).at(-1);
  if (last === undefined) throw new Error("no flight");
  const revision = page.revision();
  const departs = day(last.departAt);
  pasteAt(
    cellOf(last.name, "Flight"),
    `Flight\tDeparts\n${last.name}\t${departs}\nSpare 1\t${departs}\nSpare 2\t${departs}`,
  );
  await page.saved(revision);
  for (const name of ["Spare 1", "Spare 2"])
    expect(flight(name)).toMatchObject({
      origin: last.origin,
      depotId: last.depotId,
      craftId: last.craftId,
      status: "planned",
      departAt: Date.parse(departs),
    });
  await waitFor(() =>
    expect(page.store.get().notices.at(-1)?.words).toMatch(
      new RegExp(`2 flights added\\. As ${last.name}: from .+, to Tarn, flown by .+\\. By the tanker’s class: `),
    ),
  );
  await page.session.undo();
  expect(page.plan().flights.some(({ name }) => name.startsWith("Spare"))).toBe(false);
});

it("marked cells are filled down from the first, by keys, as one step", async () => {
  const [first, second, third] = planned();
  if (first === undefined || second === undefined || third === undefined) throw new Error("no planned flights");
  const revision = page.revision();
  cellOf(first.name, "At the port").focus();
  await page.user.keyboard("9{Enter}");
  await page.saved(revision);
  cellOf(first.name, "At the port").focus();
  await page.user.keyboard("{Shift>}{ArrowDown}{ArrowDown}{/Shift}");
  expect(screen.getByRole("button", { name: "Fill down" })).toBeTruthy();
  const before = page.revision();
  await page.user.keyboard("{Alt>}{ArrowDown}{/Alt}");
  await page.saved(before);
  expect([first, second, third].map(({ name }) => flight(name).berthDays)).toEqual([9, 9, 9]);
  await page.session.undo();
  expect([first, second, third].map(({ name }) => flight(name).berthDays)).toEqual([
    9,
    second.berthDays,
    third.berthDays,
  ]);
});

it("what happened is not written over, and what is worked out is not written at all", async () => {
  const recorded = page.plan().flights.find(({ status, depotId }) => status === "arrived" && depotId === "tarn");
  if (recorded === undefined) throw new Error("no arrived flight");
  cellOf(recorded.name, "Departs").focus();
  await page.user.keyboard("{F2}");
  expect(screen.getByRole("alert").textContent).toContain("It has happened: its records say so.");
  cellOf(recorded.name, "Leaves the port").focus();
  await page.user.keyboard("2");
  expect(screen.getByRole("alert").textContent).toContain("This is worked out from the rest of the plan.");
  expect(screen.queryByDisplayValue("2")).toBeNull();
});
