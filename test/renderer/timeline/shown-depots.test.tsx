/** What the timeline shows: filtered by status, craft and period with a sign of what is left out; one depot or all; columns as chosen. */
import "../with-dom.ts";
import { screen, waitFor, within } from "@testing-library/react";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { DAY_MS } from "../../../app/ground/quantity.ts";
import { timelineModel } from "../../../renderer/timeline/model/timeline-model.ts";
import { TimelineView } from "../../../renderer/timeline/timeline-view.tsx";
import { NO_FILTER } from "../../../renderer/state/plan-filter.ts";
import { withoutPictures } from "../bare-pictures.ts";
import { openPage } from "../planner-page.tsx";

let page: Awaited<ReturnType<typeof openPage>>;
beforeEach(async () => {
  withoutPictures();
  const pen = new Proxy(
    {},
    { get: (_, name) => () => (name === "measureText" ? { width: 40 } : undefined), set: () => true },
  );
  vi.spyOn(HTMLCanvasElement.prototype, "getContext").mockReturnValue(pen as never);
  vi.spyOn(HTMLElement.prototype, "clientWidth", "get").mockReturnValue(1000);
  vi.spyOn(HTMLElement.prototype, "clientHeight", "get").mockReturnValue(600);
  Object.defineProperty(document, "fonts", { value: { ready: new Promise(() => undefined) }, configurable: true });
  localStorage.clear();
  page = await openPage(<TimelineView />);
  page.store.set({ isTimelineTable: true });
  await screen.findByRole("grid", { name: "Flights" });
});
afterEach(async () => {
  await page.close();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const rowsOf = (caption: string): readonly string[] =>
  within(screen.getByRole("grid", { name: caption }))
    .getAllByRole("rowheader")
    .map((cell) => cell.textContent);
const headingsOf = (caption: string): readonly string[] =>
  within(screen.getByRole("grid", { name: caption }))
    .getAllByRole("columnheader")
    .map((cell) => cell.querySelector(".heading-name")?.textContent ?? "");

it("a filter leaves out flights and sorties with a sign and no other effect: levels, ports and verdict count them all", async () => {
  const { current } = page.store.get();
  if (current === null) throw new Error("no plan");
  const firm = current.plan.flights.filter(({ status }) => status === "firm").map(({ name }) => name);
  page.store.set({ filter: { ...NO_FILTER, status: "firm" } });
  await waitFor(() => expect(rowsOf("Flights")).toEqual(firm));
  expect(screen.getByText("No sorties match.")).toBeTruthy();
  const leftOut = current.plan.flights.length - firm.length + current.plan.sorties.length;
  expect(
    screen.getByText(
      `${firm.length} flight and 0 sorties shown, ${leftOut} left out; levels and statuses count all of them`,
    ),
  ).toBeTruthy();
  const whole = timelineModel(current, null, null);
  const part = timelineModel(current, null, null, null, null, { ...NO_FILTER, status: "firm" });
  expect(part?.allFlights).toEqual(whole?.flights);
  expect(part?.levels).toEqual(whole?.levels);
  expect(part?.whole).toEqual(whole?.whole);
  await page.user.click(screen.getByRole("button", { name: "Clear filter" }));
  expect(rowsOf("Flights")).toHaveLength(current.plan.flights.length);
  expect(screen.queryByRole("button", { name: "Clear filter" })).toBeNull();
});

it("by craft and by period: what lies within it by a part is shown", async () => {
  const [first] = page.plan().flights.filter(({ status }) => status === "planned");
  if (first === undefined) throw new Error("no planned flight");
  const onBoundary = { ...NO_FILTER, craftId: first.craftId, fromAt: first.arriveAt, untilAt: first.arriveAt };
  page.store.set({ filter: onBoundary });
  await waitFor(() => expect(rowsOf("Flights")).toContain(first.name));
  page.store.set({ filter: { ...onBoundary, fromAt: first.arriveAt + (first.berthDays + 1) * DAY_MS, untilAt: null } });
  await waitFor(() => expect(rowsOf("Flights")).not.toContain(first.name));
});

it("all depots stand below each other on one time axis, and their flights in one table", async () => {
  const { depots, flights } = page.plan();
  const [tarn] = depots;
  const [flight] = flights.filter(({ status }) => status === "planned");
  if (tarn === undefined || flight === undefined) throw new Error("no depot");
  const second = { ...tarn, id: "upper", name: "Upper Tarn", note: "" };
  const moved = { ...flight, depotId: second.id };
  const reply = await page.session.edit("Second depot", [
    { op: "put", kind: "depot", value: second },
    { op: "put", kind: "flight", value: moved },
  ]);
  expect(reply).toMatchObject({ ok: true });
  page.store.set({ depotId: tarn.id });
  await waitFor(() => expect(rowsOf("Flights")).not.toContain(flight.name));
  page.store.set({ areAllDepots: true });
  await waitFor(() => expect(rowsOf("Flights")).toContain(flight.name));
  expect(rowsOf("Flights")).toHaveLength(flights.length);
  page.store.set({ isTimelineTable: false });
  const charts = await screen.findAllByRole("grid", { name: /^Timeline of / });
  expect(charts.map((chart) => chart.getAttribute("aria-label"))).toEqual([
    "Timeline of Tarn",
    "Timeline of Upper Tarn",
  ]);
  expect(
    within(charts[1] ?? document.body).getByRole("gridcell", { name: new RegExp(`^${flight.name}, `) }),
  ).toBeTruthy();
});

it("columns are chosen and sorted, and stand so when the page comes again", async () => {
  await page.user.click(screen.getByRole("button", { name: "Columns of Flights" }));
  await page.user.click(screen.getByRole("option", { name: "Leaves the port" }));
  await page.user.keyboard("{Escape}");
  expect(headingsOf("Flights")).not.toContain("Leaves the port");
  await page.user.click(within(screen.getByRole("grid", { name: "Flights" })).getByRole("button", { name: "Arrives" }));
  await page.user.click(within(screen.getByRole("grid", { name: "Flights" })).getByRole("button", { name: "Arrives" }));
  const sorted = rowsOf("Flights");
  page.store.set({ isTimelineTable: false });
  await waitFor(() => expect(screen.queryByRole("grid", { name: "Flights" })).toBeNull());
  page.store.set({ isTimelineTable: true });
  await screen.findByRole("grid", { name: "Flights" });
  expect(headingsOf("Flights")).not.toContain("Leaves the port");
  expect(rowsOf("Flights")).toEqual(sorted);
  const arrivals = sorted.map((name) => page.plan().flights.find((row) => row.name === name)?.arriveAt ?? 0);
  expect(arrivals).toEqual(arrivals.toSorted((a, b) => b - a));
  expect(screen.getByRole("button", { name: "Columns of Flights" }).textContent).toBe("Columns: 1 not shown");
});
