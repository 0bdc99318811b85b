/** Calendars: our own come back without a change, moved events move what they came from, foreign ones become flights. */
import { describe, expect, it, test } from "vitest";
import { planToCalendar } from "../../../app/report/format/calendar.ts";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { planView } from "../../../app/ledger/plan-view.ts";
import { loadDocument } from "../../../db/ledger.ts";
import { refusal, take, tarnEntities } from "./rows/tarn-rows.ts";

const tarnCalendar = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "coldstock-calendar-"));
  const store = loadDocument(join(folder, "tarn.coldstock"), demoTarn());
  try {
    return planToCalendar(planView(store, "baseline").plan, [], {
      stampAt: Date.UTC(2031, 5, 1),
      revision: 7,
      hasWindows: true,
      ledgerId: null,
      calledOff: [],
    });
  } finally {
    store.close();
    rmSync(folder, { recursive: true });
  }
};
const ours = tarnCalendar();
const exported = (): string => ours;

/** Events between the lines of a calendar. */
const calendar = (...lines: readonly string[]): string =>
  ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Other office//EN", ...lines, "END:VCALENDAR", ""].join("\r\n");
const event = (...lines: readonly string[]): readonly string[] => [
  "BEGIN:VEVENT",
  "UID:launch-31@other",
  ...lines,
  "END:VEVENT",
];
const foreign = (...lines: readonly string[]) => take("flights", calendar(...event(...lines)));

const BERLIN = [
  "BEGIN:VTIMEZONE",
  "TZID:Office zone",
  "BEGIN:STANDARD",
  "DTSTART:19701025T030000",
  "TZOFFSETFROM:+0200",
  "TZOFFSETTO:+0100",
  "RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU",
  "END:STANDARD",
  "BEGIN:DAYLIGHT",
  "DTSTART:19700329T020000",
  "TZOFFSETFROM:+0100",
  "TZOFFSETTO:+0200",
  "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU",
  "END:DAYLIGHT",
  "END:VTIMEZONE",
];

describe("a calendar that was exported here", () => {
  it.each(["flights", "sorties"] as const)("changes none of its %s", async (kind) => {
    const { preview, changes } = await take(kind, exported());
    expect(preview).toMatchObject({ format: "calendar", faultCount: 0, newRows: 0, changedRows: 0 });
    expect(preview.unchangedRows).toBeGreaterThan(3);
    expect(changes).toEqual([]);
  });

  it("moves the flight whose event was moved, and no other", async () => {
    const flight = tarnEntities.flight.find(({ status }) => status === "planned")!;
    const lines = exported().split("\r\n");
    const from = lines.findIndex((line) => line.startsWith(`UID:flight-${flight.key}-`));
    const until = lines.indexOf("END:VEVENT", from);
    const moved = lines.map((line, index) =>
      index > from && index < until && line.startsWith("DTEND") ? "DTEND:20331224T060000Z" : line,
    );
    const { changes, preview } = await take("flights", moved.join("\r\n"));
    expect(preview).toMatchObject({ changedRows: 1, newRows: 0, faultCount: 0 });
    expect(changes[0]).toMatchObject({ value: { ...flight, arriveAt: Date.UTC(2033, 11, 24, 6) } });
  });

  it("cancels what is cancelled in it, and makes firm what is confirmed", async () => {
    const flight = tarnEntities.flight.find(({ status }) => status === "planned")!;
    const uid = new RegExp(`UID:(flight-${flight.key}-[^\\r]+)`).exec(exported())?.[1] ?? "";
    const [start, end] = [flight.departAt, flight.arriveAt].map((at) =>
      new Date(at).toISOString().replace(/[-:]|\.\d+/g, ""),
    );
    const told = (status: string) =>
      take(
        "flights",
        calendar("BEGIN:VEVENT", `UID:${uid}`, `DTSTART:${start}`, `DTEND:${end}`, `STATUS:${status}`, "END:VEVENT"),
      );
    expect((await told("CANCELLED")).changes[0]).toMatchObject({ value: { ...flight, status: "cancelled" } });
    expect((await told("CONFIRMED")).changes[0]).toMatchObject({ value: { ...flight, status: "firm" } });
    expect((await told("TENTATIVE")).changes).toEqual([]);
  });

  it("is known again whether or not its ledger's books had an entry, and refused from another ledger", async () => {
    const flight = tarnEntities.flight.find(({ status }) => status === "planned")!;
    const from = (ledger: string) =>
      calendar(
        "BEGIN:VEVENT",
        `UID:flight-${flight.key}-baseline@${ledger}coldstock.invalid`,
        "DTSTART:20331220T060000Z",
        "DTEND:20331224T060000Z",
        "END:VEVENT",
      );
    const own = { ledgerId: "0123456789ab" };
    for (const ledger of ["", "0123456789ab."])
      expect((await take("flights", from(ledger), own)).preview).toMatchObject({ changedRows: 1, faultCount: 0 });
    const other = await take("flights", from("ba9876543210."), own);
    expect(other.preview.faults[0]?.reason).toMatch(/exported from another ledger/);
    expect(other.changes).toEqual([]);
  });

  it("says of an event whose flight is gone that it is", async () => {
    const { preview } = await take("flights", exported(), { entities: { ...tarnEntities, flight: [] } });
    expect(preview.newRows).toBe(0);
    expect(preview.faults[0]?.reason).toMatch(/flight that is not in this plan case any more/);
  });
});

const NAMED = "SUMMARY:Packhorse hull 2 to Tarn\\, third try";

describe("an event of another program", () => {
  it("becomes a flight of the tanker and depot that it names, and is found again", async () => {
    const first = await foreign(NAMED, "DTSTART:20320301T060000Z", "DTEND:20320307T063000Z", "STATUS:CONFIRMED");
    expect(first.preview).toMatchObject({ newRows: 1, faultCount: 0, remarks: [] });
    const flight = (first.changes[0] as { value: (typeof tarnEntities.flight)[number] }).value;
    expect(flight).toMatchObject({
      name: "Packhorse hull 2 to Tarn, third try",
      craftId: "packhorse-2",
      depotId: "tarn",
      origin: { kind: "source", sourceId: "ground" },
      departAt: Date.UTC(2032, 2, 1, 6),
      arriveAt: Date.UTC(2032, 2, 7, 6, 30),
      status: "firm",
    });
    const entities = { ...tarnEntities, flight: [...tarnEntities.flight, flight] };
    const text = calendar(...event(NAMED, "DTSTART:20320302T060000Z", "DTEND:20320308T063000Z", "STATUS:CONFIRMED"));
    expect((await take("flights", text, { entities })).preview).toMatchObject({ newRows: 0, changedRows: 1 });
  });

  // RFC 5545, 3.3.5 and 3.2.19: local time with the zone of the file. Offsets by hand: 1 July is UTC+2, 1 December UTC+1.
  it.each([
    [BERLIN, ";TZID=Office zone:20320701T120000", Date.UTC(2032, 6, 1, 10)],
    [BERLIN, ";TZID=Office zone:20321201T120000", Date.UTC(2032, 11, 1, 11)],
    [[], ";TZID=America/New_York:20320701T120000", Date.UTC(2032, 6, 1, 16)],
    [[], ";TZID=W. Europe Standard Time:20320701T120000", Date.UTC(2032, 6, 1, 10)],
    [[], ";TZID=Eastern Standard Time:20321201T120000", Date.UTC(2032, 11, 1, 17)],
    [[], ":20320701T120000Z", Date.UTC(2032, 6, 1, 12)],
  ] as const)("is read in its zone (%#)", async (zone, start, at) => {
    const { changes } = await take(
      "flights",
      calendar(...zone, ...event(NAMED, `DTSTART${start}`, "DURATION:P6DT30M")),
    );
    expect(changes[0]).toMatchObject({ value: { departAt: at, arriveAt: at + 6 * 86_400_000 + 1_800_000 } });
  });

  it("without a zone is asked about, and read in the zone that is said", async () => {
    const floating = (zone: string | null) =>
      take("flights", calendar(...event(NAMED, "DTSTART:20320701T120000", "DTEND:20320708T120000")), {
        calendar: { zone },
      });
    const asked = await floating(null);
    expect(asked.preview.questions).toEqual(["1 event states times without a time zone: in which zone are they?"]);
    expect(asked.changes).toEqual([]);
    // 1 July: Paris is two hours east of Greenwich, New York four west.
    expect((await floating("UTC")).changes[0]).toMatchObject({ value: { departAt: Date.UTC(2032, 6, 1, 12) } });
    expect((await floating("Europe/Paris")).changes[0]).toMatchObject({
      value: { departAt: Date.UTC(2032, 6, 1, 10) },
    });
    const far = await floating("America/New_York");
    expect(far.changes[0]).toMatchObject({ value: { departAt: Date.UTC(2032, 6, 1, 16) } });
    expect(far.preview.remarks[0]).toMatch(
      /1 event states times without a time zone; they are read in America\/New_York/,
    );
    expect(await refusal(floating("Moon/Tranquillity"))).toMatch(/“Moon\/Tranquillity” is not a time zone/);
  });

  it("of whole days is asked about, and begins and ends at the time of day that is said", async () => {
    // RFC 5545, 3.6.1: the date of the end is the day after the last one.
    const whole = (wholeDays: string | null) =>
      take("flights", calendar(...event(NAMED, "DTSTART;VALUE=DATE:20320701", "DTEND;VALUE=DATE:20320708")), {
        calendar: { wholeDays },
      });
    const asked = await whole(null);
    expect(asked.preview.questions.join()).toMatch(/takes whole days: at which time of day \(UTC\) does it begin/);
    expect(asked.changes).toEqual([]);
    expect((await whole("midnights")).changes[0]).toMatchObject({
      value: { departAt: Date.UTC(2032, 6, 1), arriveAt: Date.UTC(2032, 6, 8) },
    });
    const atSix = await whole("06:00");
    expect(atSix.changes[0]).toMatchObject({
      value: { departAt: Date.UTC(2032, 6, 1, 6), arriveAt: Date.UTC(2032, 6, 7, 6) },
    });
    expect(atSix.preview.remarks[0]).toMatch(/whole days; read from 06:00 of the first day/);
  });

  it("without an end takes the usual trip of its tanker", async () => {
    const { changes } = await foreign(NAMED, "DTSTART:20320301T060000Z");
    expect(changes[0]).toMatchObject({ value: { arriveAt: Date.UTC(2032, 2, 7, 6) } });
  });

  it("that is cancelled and was never a flight here is passed over", async () => {
    const { preview } = await foreign(NAMED, "DTSTART:20320301T060000Z", "STATUS:CANCELLED");
    expect(preview).toMatchObject({ rows: 0, faultCount: 0, remarks: [expect.stringMatching(/passed over/)] });
  });

  it.each([
    [["SUMMARY:Team lunch", "DTSTART:20320301T060000Z"], /“Team lunch”: It names no tanker/],
    [["SUMMARY:Packhorse hull 2 and Drover hull 1", "DTSTART:20320301T060000Z"], /names several: .*Which tanker/],
    [[NAMED, "DTSTART:20320231T060000Z"], /start “2032-02-31T06:00:00Z” is not a date/],
    [[NAMED, "DTSTART;TZID=Moon/Tranquillity:20320301T060000"], /time zone “Moon\/Tranquillity” is not described/],
    [[NAMED, "DTSTART:20320301T060000Z", "RRULE:FREQ=WEEKLY"], /repeats/],
    [[NAMED], /has no start/],
    [[NAMED, "DTSTART:20320307T060000Z", "DTEND:20320301T060000Z"], /arrives before it departs/],
  ] as const)("with %j is a fault in words, with its line", async (lines, reason) => {
    const { preview, changes } = await foreign(...lines);
    expect(changes).toEqual([]);
    expect(preview.faults.map((fault) => fault.reason).join(" ")).toMatch(reason);
    expect(preview.faults[0]?.line).toBe(4);
  });
});

test("what is no calendar, is cut off or has no events is refused in words; readings are in no calendar", async () => {
  expect(await refusal(take("flights", "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n"))).toMatch(/cut off/);
  expect(await refusal(take("flights", calendar()))).toMatch(/no events/);
  expect(await refusal(take("flights", "BEGIN:VCALENDAR\r\nwhat is this\r\nEND:VCALENDAR"))).toMatch(/not a calendar/);
  expect(await refusal(take("readings", exported()))).toMatch(/not gauge readings/);
});
