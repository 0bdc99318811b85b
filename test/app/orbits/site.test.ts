/** A site against a plane, by another formula than the code's, and the passes known without it. */
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { dogLeg, lowOrbitTurnMPerS, offPlaneCost } from "../../../app/orbits/dog-leg.ts";
import { nearestPassDeg, nodeOver, offPlaneDeg, planeAfter } from "../../../app/orbits/site.ts";

const RAD = Math.PI / 180;
const low = { periapsisKm: 100, apoapsisKm: 100 };
const latitude = fc.double({ min: -89.9, max: 89.9, noNaN: true });
const longitude = fc.double({ min: -180, max: 180, noNaN: true });
const inclination = fc.double({ min: 0.5, max: 179.5, noNaN: true });

/**
 * The cross-track distance of navigation: from the node, distance (haversine) and bearing to the place, against the
 * bearing of the track there, 90° − i: sin(off) = sin(distance)·sin(track bearing − bearing).
 */
const crossTrackDeg = (lat: number, lon: number, inclinationDeg: number, nodeDeg: number): number => {
  const [phi, dl] = [lat * RAD, (lon - nodeDeg) * RAD];
  const distance = 2 * Math.asin(Math.sqrt(Math.sin(phi / 2) ** 2 + Math.cos(phi) * Math.sin(dl / 2) ** 2));
  const bearing = Math.atan2(Math.sin(dl) * Math.cos(phi), Math.sin(phi));
  return Math.asin(Math.sin(distance) * Math.sin((90 - inclinationDeg) * RAD - bearing)) / RAD;
};

it("the distance off the plane is the cross-track distance of navigation", () => {
  fc.assert(
    fc.property(latitude, longitude, inclination, longitude, (lat, lon, i, node) => {
      const ours = offPlaneDeg({ latitudeDeg: lat, longitudeDeg: lon }, { inclinationDeg: i, nodeDeg: node });
      const theirs = crossTrackDeg(lat, lon, i, node);
      expect(Math.abs(Math.abs(ours) - Math.abs(theirs))).toBeLessThan(1e-5);
    }),
    { numRuns: 500 },
  );
});

it("the node over a site puts it in the plane, wherever the orbit reaches it", () => {
  fc.assert(
    fc.property(latitude, longitude, inclination, fc.constantFrom("north", "south"), (lat, lon, i, goes) => {
      const site = { latitudeDeg: lat, longitudeDeg: lon };
      const off = offPlaneDeg(site, { inclinationDeg: i, nodeDeg: nodeOver(site, i, goes) });
      expect(Math.abs(Math.abs(off) - nearestPassDeg(lat, i))).toBeLessThan(1e-5);
    }),
    { numRuns: 500 },
  );
});

it("a polar orbit passes over a site every half turn of the Moon, 13.66 days", () => {
  // Sidereal month 27.32166 days (common almanac value): half of it 13.66083.
  const site = { latitudeDeg: -70, longitudeDeg: 30 };
  const plane = { inclinationDeg: 90, nodeDeg: nodeOver(site, 90, "north") };
  const offAt = (day: number): number => offPlaneDeg(site, planeAfter(plane, low, day));
  for (const day of [0, 13.66083, 27.32166]) expect(Math.abs(offAt(day))).toBeLessThan(1e-3);
  // It lies on one side in the first half of the turn, on the other in the second.
  expect(offAt(6.83) * offAt(20.49)).toBeLessThan(0);
});

it("over a polar orbit a site on the equator drifts off by the Moon's turning, 13.176 degrees a day", () => {
  const site = { latitudeDeg: 0, longitudeDeg: 0 };
  const plane = { inclinationDeg: 90, nodeDeg: 0 };
  expect(Math.abs(offPlaneDeg(site, planeAfter(plane, low, 1)))).toBeCloseTo(13.176, 3);
  expect(Math.abs(offPlaneDeg(site, planeAfter(plane, low, 6.830415)))).toBeCloseTo(90, 3);
});

it("at the pole a polar orbit is always over the site", () => {
  const site = { latitudeDeg: -90, longitudeDeg: 0 };
  for (const day of [0, 3, 7.7, 20]) {
    expect(Math.abs(offPlaneDeg(site, planeAfter({ inclinationDeg: 90, nodeDeg: 12 }, low, day)))).toBeLessThan(1e-9);
  }
});

it("a dog-leg ends at the displacement at rest sideways, and takes the thrust that was integrated outside", () => {
  const [a0, isp, dv, off] = [4, 450, 1900, 1.5];
  const answer = dogLeg({ accelerationMPerS2: a0, ispS: isp, deltaVMPerS: dv }, off);
  // Step by step, with mass: sideways thrust from the answer's law must displace the craft by R·β and leave it at rest.
  const exhaust = isp * 9.80665;
  const metres = 1_737_400 * off * RAD;
  const peak = (6 * metres) / answer.burnS ** 2;
  let [mass, speed, place, total, along] = [1, 0, 0, 0, 0];
  const steps = 200_000;
  const dt = answer.burnS / steps;
  for (let i = 0; i < steps; i += 1) {
    const across = peak * (1 - (2 * (i + 0.5)) / steps);
    const thrust = a0 / mass;
    place += speed * dt + (across * dt * dt) / 2;
    speed += across * dt;
    total += Math.sqrt(thrust * thrust + across * across) * dt;
    along += thrust * dt;
    mass -= (a0 / exhaust) * dt;
  }
  expect(along).toBeCloseTo(dv, 2);
  expect(place / metres).toBeCloseTo(1, 6);
  expect(Math.abs(speed)).toBeLessThan(1e-3);
  expect(total - along).toBeCloseTo(answer.extraMPerS, 3);
});

it("a small dog-leg at a steady thrust takes 6·s²/(a·t³)", () => {
  // An Isp so high that the mass hardly changes; 500 s at 4 m/s² for 2000 m/s; s = R·0.2°.
  const answer = dogLeg({ accelerationMPerS2: 4, ispS: 1e7, deltaVMPerS: 2000 }, 0.2);
  const s = 1_737_400 * 0.2 * RAD;
  expect(answer.extraMPerS / ((6 * s * s) / (4 * 500 ** 3))).toBeCloseTo(1, 2);
});

it("near the plane the dog-leg is cheaper, far off only the plane change is left", () => {
  const phase = { accelerationMPerS2: 4, ispS: 450, deltaVMPerS: 1900 };
  expect(offPlaneCost(phase, 100_000, 0, 2).takes).toBe("nothing");
  expect(offPlaneCost(phase, 100_000, 0.5, 2).takes).toBe("dog-leg");
  expect(offPlaneCost(phase, 100_000, 5, 2)).toMatchObject({ takes: "plane change", dogLegMPerS: null });
  // 2 · 1633.50 m/s · sin(2.5°): 142.50 m/s.
  expect(lowOrbitTurnMPerS(100_000, 5)).toBeCloseTo(142.5, 1);
});
