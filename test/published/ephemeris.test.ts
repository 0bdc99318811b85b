/**
 * Orbit ephemeris messages by CCSDS 502.0-B ("Orbit Data Messages", OEM in keyword = value text), epochs by CCSDS 301.0-B.
 * Leap seconds: IERS Bulletin C. TT − TAI = 32.184 s by definition (IAU 1991).
 */
import { describe, expect, it } from "vitest";
import { taiOfUtc, utcOfTai } from "../../app/ephemeris/leap-seconds.ts";
import { passagesOf } from "../../app/ephemeris/passages.ts";
import { readOem } from "../../app/ephemeris/read-oem.ts";
import { taiOfEpoch } from "../../app/ephemeris/time-system.ts";
import { HEADER, periodMs, segmentText, type TwoBody } from "../app/ephemeris/two-body.ts";

const TEN_MINUTES = 600_000;
const START = Date.UTC(2031, 0, 1);

describe("leap seconds", () => {
  it("across the end of 2016: 23:59:59, 23:59:60 and 00:00:00 are a second apart each", () => {
    const at = (text: string): number => taiOfEpoch(text, "UTC") ?? 0;
    const [before, leap, after] = ["2016-12-31T23:59:59", "2016-12-31T23:59:60", "2017-01-01T00:00:00"].map(at);
    expect((leap ?? 0) - (before ?? 0)).toBe(1000);
    expect((after ?? 0) - (leap ?? 0)).toBe(1000);
  });
  it("TAI is 36 s ahead before it and 37 s after it", () => {
    const midnight = Date.UTC(2017, 0, 1);
    expect(taiOfUtc(midnight - 1) - (midnight - 1)).toBe(36_000);
    expect(taiOfUtc(midnight) - midnight).toBe(37_000);
    for (const at of [midnight - 1, midnight, midnight + 1, Date.UTC(1999, 0, 1), Date.UTC(2031, 5, 5)])
      expect(utcOfTai(taiOfUtc(at))).toBe(at);
  });
  it("a second of 60 is an epoch only where there was one, and in UTC alone", () => {
    expect(taiOfEpoch("2017-12-31T23:59:60", "UTC")).toBeNull();
    expect(taiOfEpoch("2016-12-31T23:59:60", "TAI")).toBeNull();
  });
  it("J2000 is 2000-01-01T11:58:55.816 UTC, 11:59:27.816 TAI and 12:00:00 TT", () => {
    // The common definition of the epoch; 32 s of leap seconds then.
    const tai = taiOfEpoch("2000-01-01T12:00:00", "TT");
    expect(tai).toBe(taiOfEpoch("2000-01-01T11:59:27.816", "TAI"));
    expect(tai).toBe(taiOfEpoch("2000-01-01T11:58:55.816", "UTC"));
    expect(Math.abs((taiOfEpoch("2000-01-01T12:00:00", "TDB") ?? 0) - (tai ?? 0))).toBeLessThan(2);
  });
  it("days may be counted through the year, and a day that there is not is none", () => {
    expect(taiOfEpoch("2032-060T06:00:00Z", "UTC")).toBe(taiOfEpoch("2032-02-29T06:00:00", "UTC"));
    expect(taiOfEpoch("2031-366T00:00:00", "UTC")).toBeNull();
    expect(taiOfEpoch("2031-02-29T00:00:00", "UTC")).toBeNull();
    expect(taiOfEpoch("2031-01-01 00:00:00", "UTC")).toBeNull();
  });
});

describe("periapsis passages of two-body orbits at 10-minute steps", () => {
  // Low and nearly round, elliptic, and as long as a halo orbit with a period of 6.56 days.
  const orbits: readonly (readonly [string, TwoBody])[] = [
    ["100 × 300 km", { semiMajorKm: 1937.4, e: 0.0516, periapsisMs: START + 1_234_567 }],
    ["100 × 8000 km", { semiMajorKm: 5787.4, e: 0.6825, periapsisMs: START + 5_000_111 }],
    ["3000 × 70 000 km", { semiMajorKm: 38_237.4, e: 0.876, periapsisMs: START + 3.3 * 86_400_000 }],
  ];
  const methods = [
    { INTERPOLATION: "HERMITE", INTERPOLATION_DEGREE: "7" },
    { INTERPOLATION: "LAGRANGE", INTERPOLATION_DEGREE: "9" },
  ];
  for (const [name, orbit] of orbits)
    for (const method of methods)
      it(`${name} by ${method.INTERPOLATION}: each to a second, none missed`, () => {
        // 0.7 rad go by in a step low over the Moon. A second, and a kilometre of height.
        const limitMs = 1000;
        const until = START + 20 * TEN_MINUTES * Math.ceil((3.2 * periodMs(orbit)) / (20 * TEN_MINUTES));
        const metadata = { ...method, TIME_SYSTEM: "TAI" };
        const text = HEADER + segmentText(orbit, { from: START, until, stepMs: TEN_MINUTES, metadata });
        const seen = passagesOf(readOem(text)).filter(({ kind }) => kind === "periapsis");
        const first = Math.ceil((START - orbit.periapsisMs) / periodMs(orbit));
        const last = Math.floor((until - orbit.periapsisMs) / periodMs(orbit));
        expect(seen).toHaveLength(last - first + 1);
        seen.forEach(({ at, heightKm }, i) => {
          const known = utcOfTai(orbit.periapsisMs + (first + i) * periodMs(orbit));
          expect(Math.abs(at - known)).toBeLessThan(limitMs);
          expect(Math.abs(heightKm - (orbit.semiMajorKm * (1 - orbit.e) - 1737.4))).toBeLessThan(limitMs / 1000);
        });
      });
  it("apoapsis passages lie half a revolution on", () => {
    const [, orbit] = orbits[1] as (typeof orbits)[number];
    const metadata = { TIME_SYSTEM: "TAI" };
    const text =
      HEADER + segmentText(orbit, { from: START, until: START + 300 * TEN_MINUTES, stepMs: TEN_MINUTES, metadata });
    const [far] = passagesOf(readOem(text)).filter(({ kind, at }) => kind === "apoapsis" && at > orbit.periapsisMs);
    expect(Math.abs((far?.at ?? 0) - utcOfTai(orbit.periapsisMs + periodMs(orbit) / 2))).toBeLessThan(1000);
  });
});

describe("time systems", () => {
  const orbit: TwoBody = { semiMajorKm: 5787.4, e: 0.6825, periapsisMs: START + 5_000_111 };
  it("one instant written in TAI, TT and TDB gives the same window in UTC, 37 s and 69.184 s earlier", () => {
    const firstOf = (system: string): number => {
      const metadata = { TIME_SYSTEM: system };
      const text =
        HEADER + segmentText(orbit, { from: START, until: START + 144 * TEN_MINUTES, stepMs: TEN_MINUTES, metadata });
      return passagesOf(readOem(text)).find(({ kind }) => kind === "periapsis")?.at ?? 0;
    };
    const [utc, tai, tt, tdb] = ["UTC", "TAI", "TT", "TDB"].map(firstOf);
    expect((utc ?? 0) - (tai ?? 0)).toBe(37_000);
    expect(Math.abs((utc ?? 0) - (tt ?? 0) - 69_184)).toBeLessThanOrEqual(1);
    expect(Math.abs((tt ?? 0) - (tdb ?? 0))).toBeLessThanOrEqual(2);
  });
});
