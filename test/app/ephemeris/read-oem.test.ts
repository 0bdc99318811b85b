/** What of an ephemeris message is refused, each by line and name. */
import { expect, it } from "vitest";
import { passagesOf } from "../../../app/ephemeris/passages.ts";
import { readOem } from "../../../app/ephemeris/read-oem.ts";
import { HEADER, segmentText, type TwoBody } from "./two-body.ts";

const START = Date.UTC(2031, 0, 1);
const STEP = 600_000;
const orbit: TwoBody = { semiMajorKm: 5787.4, e: 0.6825, periapsisMs: START + 5_000_111 };
const span = { from: START, until: START + 100 * STEP, stepMs: STEP };
const message = (metadata: Readonly<Record<string, string>> = {}): string =>
  HEADER + segmentText(orbit, { ...span, metadata });
const lineOf = (text: string, words: string): number => text.split("\n").findIndex((line) => line.includes(words)) + 1;

const later = { from: START + 100 * STEP, until: START + 200 * STEP, stepMs: STEP };
const faults: readonly (readonly [string, string, string, RegExp])[] = [
  ["another body", message({ CENTER_NAME: "EARTH" }), "CENTER_NAME", /CENTER_NAME is EARTH/u],
  ["a time system that is none", message({ TIME_SYSTEM: "MET" }), "TIME_SYSTEM", /TIME_SYSTEM MET cannot be read/u],
  [
    "an interpolation that is not known",
    message({ INTERPOLATION: "SPLINE" }),
    "INTERPOLATION = ",
    /SPLINE cannot be followed/u,
  ],
  ["an epoch that is none", message({ START_TIME: "soon" }), "START_TIME", /START_TIME “soon” is not an epoch/u],
  [
    "mixed frames",
    message() + segmentText(orbit, { ...later, metadata: { REF_FRAME: "EME2000" } }),
    "EME2000",
    /REF_FRAME EME2000 differs from ICRF in line 10/u,
  ],
  [
    "another object",
    message() + segmentText(orbit, { ...later, metadata: { OBJECT_NAME: "BECK" } }),
    "BECK",
    /OBJECT_NAME BECK differs from TARN/u,
  ],
  [
    "states that end before the stop",
    message({ STOP_TIME: "2031-01-02T00:00:00.000" }),
    "STOP_TIME",
    /a gap of 7\.33 h/u,
  ],
];

it.each(faults)("%s", (_, text, place, words) => {
  const line = lineOf(text, place);
  expect(() => readOem(text)).toThrow(words);
  expect(() => readOem(text)).toThrow(new RegExp(`^Line ${String(line)}: `, "u"));
});

it("states out of order, by the line of the later one", () => {
  const lines = message().split("\n");
  const at = lines.findIndex((line) => line.startsWith("2031-01-01T01:00"));
  [lines[at], lines[at + 1]] = [lines[at + 1] ?? "", lines[at] ?? ""];
  expect(() => readOem(lines.join("\n"))).toThrow(
    new RegExp(`^Line ${String(at + 2)}: .*not after the one before`, "u"),
  );
});

it("a gap within the states, and one between two segments", () => {
  const lines = message().split("\n");
  const at = lines.findIndex((line) => line.startsWith("2031-01-01T05:00"));
  lines.splice(at, 24);
  expect(() => readOem(lines.join("\n"))).toThrow(new RegExp(`^Line ${String(at + 1)}: a gap of 4\\.2 h`, "u"));
  const apart = { ...later, from: later.from + 6 * STEP };
  expect(() => readOem(message() + segmentText(orbit, apart))).toThrow(/a gap of 1\.00 h lies between this segment/u);
});

it("a state with too few numbers, and text that is no message", () => {
  const broken = message().replace(/^(2031-01-01T02:00:00.000\s+\S+\s+\S+).*$/mu, "$1");
  expect(() => readOem(broken)).toThrow(/a state is an epoch, a position/u);
  expect(() => readOem("a,b,c\n1,2,3\n")).toThrow(/^Line 1: an orbit ephemeris message begins with CCSDS_OEM_VERS/u);
  expect(() => readOem("")).toThrow(/CCSDS_OEM_VERS/u);
});

it("two segments that meet give each passage once, also one at the seam", () => {
  const seam: TwoBody = { ...orbit, periapsisMs: START + 100 * STEP };
  const text = HEADER + segmentText(seam, span) + segmentText(seam, later);
  const one = passagesOf(readOem(HEADER + segmentText(seam, { ...span, until: later.until })));
  const two = passagesOf(readOem(text));
  expect(two.length).toBe(one.length);
  two.forEach((passage, i) => expect(Math.abs(passage.at - (one[i]?.at ?? 0))).toBeLessThan(50));
});

it("covariances and comments are passed over; line ends of every kind are read", () => {
  const more = `${message()}COVARIANCE_START\nEPOCH = 2031-01-01T00:00:00\n1.0\nCOVARIANCE_STOP\nCOMMENT end\n`;
  expect(readOem(more.replaceAll("\n", "\r\n")).segments[0]?.taiMs.length).toBe(101);
});

it("a round orbit is refused: it has no apsides to tell windows by", () => {
  const round: TwoBody = { semiMajorKm: 1837.4, e: 0.000001, periapsisMs: START };
  expect(() => passagesOf(readOem(HEADER + segmentText(round, span)))).toThrow(
    /is round to .* State a period instead/u,
  );
});
