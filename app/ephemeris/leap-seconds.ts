/**
 * TAI − UTC. Source: the table of leap seconds of the IERS (Bulletin C; leap-seconds.list of the IANA time zone data),
 * complete up to the last one, at the end of 2016. Later leap seconds are not known here: none has been announced.
 */

/** From each instant (UTC) on, TAI is so many seconds ahead. */
const STEPS: readonly (readonly [string, number])[] = [
  ["1972-01-01", 10],
  ["1972-07-01", 11],
  ["1973-01-01", 12],
  ["1974-01-01", 13],
  ["1975-01-01", 14],
  ["1976-01-01", 15],
  ["1977-01-01", 16],
  ["1978-01-01", 17],
  ["1979-01-01", 18],
  ["1980-01-01", 19],
  ["1981-07-01", 20],
  ["1982-07-01", 21],
  ["1983-07-01", 22],
  ["1985-07-01", 23],
  ["1988-01-01", 24],
  ["1990-01-01", 25],
  ["1991-01-01", 26],
  ["1992-07-01", 27],
  ["1993-07-01", 28],
  ["1994-07-01", 29],
  ["1996-01-01", 30],
  ["1997-07-01", 31],
  ["1999-01-01", 32],
  ["2006-01-01", 33],
  ["2009-01-01", 34],
  ["2012-07-01", 35],
  ["2015-07-01", 36],
  ["2017-01-01", 37],
];

const table = STEPS.map(([day, seconds]) => ({ fromMs: Date.parse(`${day}T00:00:00Z`), aheadMs: seconds * 1000 }));

/** Whether the minute that ends at an instant (ms UTC, a midnight) has 61 seconds. */
export const endsWithLeapSecond = (midnightMs: number): boolean =>
  table.some(({ fromMs }, i) => i > 0 && fromMs === midnightMs);

/** UTC as ms since 1970 without leap seconds → TAI, ms on the same calendar. From 1972 on; before, as then. */
export const taiOfUtc = (utcMs: number): number => {
  const step = table.findLast(({ fromMs }) => utcMs >= fromMs) ?? table[0];
  return utcMs + (step?.aheadMs ?? 0);
};

/** TAI → UTC, ms. An instant within a leap second is given as the second after it, which has no other name here. */
export const utcOfTai = (taiMs: number): number => {
  const step = table.findLast(({ fromMs, aheadMs }) => taiMs >= fromMs + aheadMs) ?? table[0];
  return taiMs - (step?.aheadMs ?? 0);
};
