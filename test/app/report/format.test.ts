/** CSV by RFC 4180, iCalendar by RFC 5545 (read by an independent parser), and the page: the same numbers in each. */
import { strictCsv } from "../../../app/format/csv-form.ts";
import { parse } from "csv-parse/sync";
import ICAL from "ical.js";
import { expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import { ownEvent } from "../../../app/report/format/event-uid.ts";
import { planToCalendar } from "../../../app/report/format/calendar.ts";
import { neutralise } from "../../../app/format/neutralise.ts";
import { tableToCsv } from "../../../app/report/format/csv.ts";
import { reportToHtml } from "../../../app/report/format/html.ts";
import type { Table } from "../../../app/report/model.ts";
import { exampleContext } from "./example.ts";

/** Of a ledger whose books have no entry yet. */
const known = { ledgerId: null, calledOff: [] } as const;

const report = buildReport(exampleContext());
const table = report.sections
  .flatMap((section) => section.blocks)
  .find((block): block is Table => block.kind === "table" && block.id === "supply")!;

test("a CSV row has CRLF, and its masses are the model's in the unit of the heading", () => {
  const csv = tableToCsv(table, "t", strictCsv);
  expect(csv.endsWith("\r\n")).toBe(true);
  expect(csv.split("\r\n")).toHaveLength(table.rows.length + 2);
  const rows: Record<string, string>[] = parse(csv, { columns: true });
  expect(Number(rows[1]!["Missing [t]"])).toBe(1.899944);
  expect(rows[1]!["Loads"]).toBe("2031-05-21T00:00:00.000Z");
});

test("quotes, commas and line ends in a name survive (RFC 4180, 2.5 to 2.7)", () => {
  const odd = 'Sortie "one", first\r\nhalf';
  const csv = tableToCsv({ ...table, rows: [[{ kind: "text", text: odd }]] }, "t", strictCsv);
  expect(csv).toContain('"Sortie ""one"", first\r\nhalf"');
});

test.each([
  "=1+1",
  "+1",
  "-1",
  "@SUM(A1)",
  "\t=1",
  "\r=1",
  " =1",
  "\u00a0=1",
  "\u3000=1",
  "\u200b=1",
  "＝1+1",
  "＋1",
  "－1",
  "＠SUM(A1)",
])("the text %j is not left as a formula", (text) => {
  expect(neutralise(text)).toBe(`'${text}`);
});

test("a negative mass is a number, not text to be neutralised", () => {
  const rows: Record<string, string>[] = parse(tableToCsv(table, "kg", strictCsv), { columns: true });
  expect(rows[1]!["Margin [kg]"]).toBe("-3199.944");
});

test("an independent parser reads the calendar; its events are the plan's flights, berth and sorties", () => {
  const { plan } = exampleContext().main.view;
  const text = planToCalendar(plan, [], { stampAt: plan.asOfAt, revision: 7, hasWindows: true, ...known });
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));
  const sortie = events.find((event) => event.summary === "Sortie 2")!;
  expect(sortie.startDate.toJSDate().getTime()).toBe(plan.sorties[1]!.loadAt);
  expect(sortie.endDate.toJSDate().getTime()).toBe(plan.sorties[1]!.returnAt);
  expect(events.filter((event) => event.uid.startsWith("flight-"))).toHaveLength(1);
  expect(events.filter((event) => event.uid.startsWith("berth-"))).toHaveLength(1);
  // 200 days at 6.56235 days a revolution, the first at day 0.
  expect(events.filter((event) => event.uid.startsWith("window-"))).toHaveLength(31);
  for (const line of text.split("\r\n")) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
});

test("moving a sortie keeps its UID and raises its SEQUENCE, so a re-import updates it", () => {
  const { plan } = exampleContext().main.view;
  const moved = { ...plan, sorties: plan.sorties.map((each) => ({ ...each, loadAt: each.loadAt + 86_400_000 })) };
  const read = (text: string) =>
    new ICAL.Component(ICAL.parse(text))
      .getAllSubcomponents("vevent")
      .map((each) => new ICAL.Event(each))
      .find((event) => event.summary === "Sortie 1")!;
  const before = read(planToCalendar(plan, [], { stampAt: 0, revision: 7, hasWindows: false, ...known }));
  const after = read(planToCalendar(moved, [], { stampAt: 0, revision: 8, hasWindows: false, ...known }));
  expect(after.uid).toBe(before.uid);
  expect(after.sequence).toBeGreaterThan(before.sequence);
});

const eventsOf = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((each) => ({
    uid: new ICAL.Event(each).uid,
    summary: new ICAL.Event(each).summary,
    status: String(each.getFirstPropertyValue("status")),
    transparency: String(each.getFirstPropertyValue("transp")),
  }));

test("a cancelled flight and a sortie stood down are sent as cancelled under the UID that they had", () => {
  const { plan } = exampleContext().main.view;
  const making = { stampAt: 0, revision: 7, hasWindows: false, ...known };
  const before = eventsOf(planToCalendar(plan, [], making));
  const off = {
    ...plan,
    flights: plan.flights.map((each) => ({ ...each, status: "cancelled" as const })),
    sorties: plan.sorties.map((each) => ({ ...each, status: "stood down" as const })),
  };
  const after = eventsOf(planToCalendar(off, [], making));
  expect(after.map(({ uid }) => uid)).toEqual(before.map(({ uid }) => uid));
  expect(new Set(after.map(({ status }) => status))).toEqual(new Set(["CANCELLED"]));
  expect(before.some(({ status }) => status === "CANCELLED")).toBe(false);
});

test("a lost flight stays where it was and says so; its berth is cancelled", () => {
  const { plan } = exampleContext().main.view;
  const lost = { ...plan, flights: plan.flights.map((each) => ({ ...each, status: "lost" as const })) };
  const events = eventsOf(planToCalendar(lost, [], { stampAt: 0, revision: 7, hasWindows: false, ...known }));
  expect(events.find(({ uid }) => uid.startsWith("flight-"))).toMatchObject({
    status: "CONFIRMED",
    summary: expect.stringMatching(/: lost$/),
  });
  expect(events.find(({ uid }) => uid.startsWith("berth-"))?.status).toBe("CANCELLED");
});

test("flights leave a colleague's time free, sorties take it, a short sortie says so, windows come by choice", () => {
  const { view, supply } = exampleContext().main;
  const events = eventsOf(
    planToCalendar(view.plan, supply.sorties, { stampAt: 0, revision: 7, hasWindows: false, ...known }),
  );
  const of = (kind: string) => events.filter(({ uid }) => uid.startsWith(`${kind}-`));
  expect(new Set([...of("flight"), ...of("berth")].map((each) => each.transparency))).toEqual(new Set(["TRANSPARENT"]));
  expect(new Set(of("sortie").map((each) => each.transparency))).toEqual(new Set(["OPAQUE"]));
  const short = supply.sorties
    .filter(({ status }) => status === "short")
    .map(({ name }) => `${name}: short of propellant`);
  expect(short.length).toBeGreaterThan(0);
  expect(of("sortie").map(({ summary }) => summary)).toEqual(expect.arrayContaining(short));
  expect(of("window")).toEqual([]);
});

test("the page has no script and fetches nothing; names are escaped", () => {
  const context = exampleContext();
  const page = reportToHtml(buildReport({ ...context, programme: "<script>alert(1)</script>" }));
  expect(page).not.toMatch(/<script|src=|@import|url\((?!#)|href="http/);
  expect(page).toContain("&lt;script&gt;");
  expect(page).toContain("1.90");
});

test("a section that does not exist and a period that ends before it begins are refused by field", () => {
  const context = exampleContext();
  const choose = (choices: Partial<typeof context.choices>) => () =>
    buildReport({ ...context, choices: { ...context.choices, ...choices } });
  expect(choose({ sectionIds: ["weather"] })).toThrow(/no report section “weather”/);
  expect(choose({ untilAt: context.choices.fromAt })).toThrow(/ends before it begins/);
});

test("dates to leave by come by choice, one for each flight that has one, and are no flights when read back", () => {
  const { view, supply } = exampleContext().main;
  const [flight] = view.plan.flights;
  const at = (flight?.departAt ?? 0) + 5 * 86_400_000;
  const leaveBy = [
    { flightId: flight?.id ?? "", at },
    { flightId: "gone", at },
    { flightId: flight?.id ?? "", at: null },
  ];
  const making = { stampAt: 0, revision: 7, hasWindows: false, ...known };
  const text = planToCalendar(view.plan, supply.sorties, { ...making, leaveBy });
  const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));
  const dates = events.filter(({ uid }) => uid.startsWith("leave-by-"));
  expect(dates).toHaveLength(1);
  expect(dates[0]?.summary).toContain(`Leave by: ${flight?.name}`);
  expect(dates[0]?.startDate.toJSDate().getTime()).toBe(at);
  expect(ownEvent(dates[0]?.uid ?? "")?.kind).toBe("leave-by");
  expect(planToCalendar(view.plan, supply.sorties, making)).not.toContain("leave-by");
});

test("on the page a row is headed by its first words, each other cell names its column, and every link leads somewhere", () => {
  const html = reportToHtml(report);
  const ids = new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
  const links = [...html.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
  expect(links.length).toBeGreaterThan(report.sections.length - 1);
  for (const link of links) expect(ids).toContain(link);
  expect(html).toContain('<th scope="row" role="rowheader" class="start whole">');
  expect(html.match(/<td role="cell"[^>]*>/g)?.every((cell) => /data-heading="[^"]/.test(cell))).toBe(true);
});
