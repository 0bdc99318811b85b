/**
 * Burns between orbits against worked examples.
 * D. A. Vallado, "Fundamentals of Astrodynamics and Applications": examples 6-1, 6-2, 6-4 and table 6-3, values as
 * quoted by the tests of the book's own companion code (μ 398600.4418 km³/s², R 6378.137 km).
 * H. D. Curtis, "Orbital Mechanics for Engineering Students": the transfer from 480 × 800 km to 16 000 km, from memory
 * (μ 398 600 km³/s², R 6378 km).
 */
import { expect, it } from "vitest";
import { planeChangeMPerS, turningBurnMPerS } from "../../app/orbits/plane.ts";
import { circularSpeedAt, periodS, speedAt } from "../../app/orbits/speed.ts";
import { bestTransfer, planeChangeAloneMPerS } from "../../app/orbits/transfer.ts";

const EARTH_MU = 398600.4418e9;
const EARTH_M = 6_378_137;
const circle = (radiusM: number) => ({ periapsisM: radiusM, apoapsisM: radiusM });
const above = (km: number) => circle(EARTH_M + km * 1000);

it("Vallado 6-1: 191.344 km to 35 781.349 km takes 2.457038 + 1.478187 km/s in 5.256713 h", () => {
  const transfer = bestTransfer(EARTH_MU, above(191.34411), above(35_781.34857));
  expect(transfer.departureMPerS).toBeCloseTo(2457.038, 2);
  expect(transfer.captureMPerS).toBeCloseTo(1478.187, 2);
  expect(transfer.totalMPerS).toBeCloseTo(3935.224, 2);
  expect(transfer.durationS / 3600).toBeCloseTo(5.256713, 5);
  expect(transfer.ignitions).toBe(2);
});

it("Vallado 6-2: by way of 503 873 km to 376 310 km, burn by burn and in time", () => {
  const [near, far, last] = [EARTH_M + 191_344.11, EARTH_M + 503_873e3, EARTH_M + 376_310e3];
  const burns = [
    speedAt(EARTH_MU, near, near, far) - circularSpeedAt(EARTH_MU, near),
    speedAt(EARTH_MU, far, last, far) - speedAt(EARTH_MU, far, near, far),
    speedAt(EARTH_MU, last, last, far) - circularSpeedAt(EARTH_MU, last),
  ];
  expect(burns[0]).toBeCloseTo(3156.234, 1);
  expect(burns[1]).toBeCloseTo(677.358, 1);
  expect(burns[2]).toBeCloseTo(70.466, 1);
  expect(burns.reduce((a, b) => a + b, 0)).toBeCloseTo(3904.057, 1);
  expect((periodS(EARTH_MU, near, far) + periodS(EARTH_MU, last, far)) / 7200).toBeCloseTo(593.9198, 3);
});

it("Vallado 6-4: 15 degrees at 5.892311 km/s take 1.538202 km/s", () => {
  expect(planeChangeMPerS(5892.311, 15)).toBeCloseTo(1538.2018, 3);
});

it("Vallado table 6-3: 10 degrees to the geostationary radius are best split 0.91734 to 9.08266", () => {
  const transfer = bestTransfer(EARTH_MU, circle(6_671_530), circle(42_163_950), 10);
  expect(transfer.departureTurnDeg).toBeCloseTo(0.91734, 3);
  expect(transfer.captureTurnDeg).toBeCloseTo(9.08266, 3);
  expect(transfer.departureMPerS).toBeCloseTo(2431.758, 1);
  expect(transfer.captureMPerS).toBeCloseTo(1509.141, 1);
  expect(transfer.totalMPerS).toBeCloseTo(2431.758 + 1509.141, 3);
  expect(transfer.durationS / 60).toBeCloseTo(316.43749, 4);
});

it("Vallado table 6-3: the split by the book's approximation, 0.58964 degrees first, takes what the book says", () => {
  const transfer = bestTransfer(EARTH_MU, circle(6_671_530), circle(42_163_950), 10, { departureDeg: 0.589638589 });
  expect(transfer.departureMPerS).toBeCloseTo(2429.329, 2);
  expect(transfer.captureMPerS).toBeCloseTo(1512.147, 2);
});

it("Curtis: 480 × 800 km to a circle at 16 000 km takes 1.7225 + 1.3297 km/s, leaving from the perigee", () => {
  const mu = 398_600e9;
  const transfer = bestTransfer(mu, { periapsisM: 6_858_000, apoapsisM: 7_178_000 }, circle(22_378_000));
  expect(transfer.fromRadiusM).toBe(6_858_000);
  expect(transfer.departureMPerS / 1000).toBeCloseTo(1.7225, 4);
  expect(transfer.captureMPerS / 1000).toBeCloseTo(1.3297, 4);
});

it("the geostationary circle has a period of one sidereal day, 86 164.1 s", () => {
  expect(periodS(EARTH_MU, 42_164_170, 42_164_170)).toBeCloseTo(86_164.1, 0);
});

it("a small turn takes speed times angle, and a turn of 180 degrees the sum of the speeds", () => {
  expect(planeChangeMPerS(1633.5, 1e-6)).toBeCloseTo((1633.5 * 1e-6 * Math.PI) / 180, 12);
  expect(turningBurnMPerS(1600, 1700, 180)).toBeCloseTo(3300, 9);
  expect(turningBurnMPerS(1600, 1700, 0)).toBe(100);
});

it("a plane is turned where the orbit is slowest", () => {
  const orbit = { periapsisM: 1_837_400, apoapsisM: 18_000_000 };
  const slow = planeChangeAloneMPerS(4902.8e9, orbit, 20);
  const fast = planeChangeMPerS(speedAt(4902.8e9, orbit.periapsisM, orbit.periapsisM, orbit.apoapsisM), 20);
  // Angular momentum: speeds at the apses stand as the radii, the other way round.
  expect(fast / slow).toBeCloseTo(18_000_000 / 1_837_400, 9);
});
