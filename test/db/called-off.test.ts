/** What was deleted stays known: its events are sent as cancelled under the UIDs that they had, and a calendar library of another language reads them so. */
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { demoTarn } from "../../app/demo/tarn.ts";
import type { LedgerStore } from "../../app/contract/store.ts";
import { documentText, parseDocument } from "../../app/exchange/ledger-document.ts";
import { planView } from "../../app/ledger/plan-view.ts";
import { planToCalendar } from "../../app/report/format/calendar.ts";
import { check } from "../../app/supply/check.ts";
import { createLedger, loadDocument } from "../../db/ledger.ts";
import { client } from "../suite/clients.ts";
import { handLedger, stepWith, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();

const calendarOf = (store: LedgerStore): string => {
  const { plan } = planView(store, "baseline");
  const { sorties } = check(plan, () => undefined);
  return planToCalendar(plan, sorties, {
    stampAt: Date.UTC(2031, 5, 1),
    revision: store.header().revision,
    hasWindows: false,
    ledgerId: store.identity(),
    calledOff: store.calledOff("baseline"),
  });
};

interface Read {
  readonly uid: string;
  readonly summary: string;
  readonly status: string;
  readonly transp: string;
  readonly sequence: number;
}

/** Read by python3-icalendar. */
const read = (text: string): readonly Read[] => {
  const path = join(folder, "plan.ics");
  writeFileSync(path, text);
  const script = [
    "import icalendar, json, sys",
    "c = icalendar.Calendar.from_ical(open(sys.argv[1], 'rb').read())",
    "print(json.dumps([dict(uid=str(e['uid']), summary=str(e['summary']), status=str(e['status']), transp=str(e['transp']), sequence=int(e['sequence'])) for e in c.walk('vevent')]))",
  ].join("\n");
  const { stdout, stderr } = spawnSync("/usr/bin/python3", ["-c", script, path], { encoding: "utf8" });
  expect(stderr).toBe("");
  return JSON.parse(stdout) as Read[];
};

it(
  "sends a deleted flight as cancelled under its UID, and no longer once it is back",
  client("python3-icalendar"),
  () => {
    const store = loadDocument(join(folder, "tarn.coldstock"), demoTarn());
    const flight = store.entities().flight.find((row) => row.planCaseId === "baseline" && row.status === "planned")!;
    const of = (events: readonly Read[]) => events.filter(({ uid }) => uid.includes(`-${flight.key}-`));
    const before = read(calendarOf(store));
    expect(of(before)).toHaveLength(2);
    expect(before.filter(({ status }) => status === "CANCELLED")).toEqual([]);
    store.commit(stepWith({ label: "Delete it", changes: [{ op: "remove", kind: "flight", id: flight.id }] }));
    const after = of(read(calendarOf(store)));
    expect(after.map(({ uid, status }) => [uid, status])).toEqual(of(before).map(({ uid }) => [uid, "CANCELLED"]));
    for (const [place, { sequence }] of after.entries()) expect(sequence).toBeGreaterThan(of(before)[place]!.sequence);
    store.undo("Ada", 0);
    expect(of(read(calendarOf(store))).map(({ uid }) => uid)).toEqual(of(before).map(({ uid }) => uid));
    expect(of(read(calendarOf(store))).some(({ status }) => status === "CANCELLED")).toBe(false);
    store.close();
  },
);

it("keeps a colleague's time free of flights, not of sorties; a short one says so", client("python3-icalendar"), () => {
  const store = loadDocument(join(folder, "short.coldstock"), demoTarn());
  const events = read(calendarOf(store));
  const transp = (kind: string) => new Set(events.filter(({ uid }) => uid.startsWith(kind)).map((each) => each.transp));
  expect([transp("flight-"), transp("berth-"), transp("sortie-")]).toEqual([
    new Set(["TRANSPARENT"]),
    new Set(["TRANSPARENT"]),
    new Set(["OPAQUE"]),
  ]);
  expect(events.filter(({ summary }) => summary.endsWith(": short of propellant")).length).toBeGreaterThan(0);
  store.close();
});

it("knows a ledger and its copies by one identity, and another ledger by another", () => {
  const [hand, other] = [handLedger(folder), createLedger(join(folder, "empty.coldstock"), { programme: "Empty" })];
  const tarn = loadDocument(join(folder, "identity.coldstock"), demoTarn());
  const copy = loadDocument(join(folder, "copy.coldstock"), parseDocument(documentText(tarn.document())));
  expect(tarn.identity()).toMatch(/^[0-9a-f]{12}$/);
  expect(copy.identity()).toBe(tarn.identity());
  expect(other.identity()).toBeNull();
  expect(hand.identity()).not.toBe(tarn.identity());
  for (const store of [hand, other, tarn, copy]) store.close();
});
