/**
 * Propellants and statuses stay apart for people with the three common colour deficiencies. Distances: CIEDE2000 (CIE
 * 142-2001). Simulation: Machado, Oliveira and Fernandes (2009), complete deficiency; both as culori computes them. The
 * least distance is our own choice: common practice asks for about 10, where two patches are told apart at a glance.
 */
import {
  type Color,
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
} from "culori";
import { describe, expect, it } from "vitest";
import { themes, token } from "./read-tokens.ts";

const LEAST = 12;

const views: Readonly<Record<string, (colour: Color) => Color>> = {
  "full colour vision": (colour) => colour,
  protanopia: (colour) => filterDeficiencyProt(1)(colour),
  deuteranopia: (colour) => filterDeficiencyDeuter(1)(colour),
  tritanopia: (colour) => filterDeficiencyTrit(1)(colour),
};

const distance = differenceCiede2000();

const closest = (colours: readonly Color[]): number => {
  let least = Infinity;
  colours.forEach((a, i) => {
    for (const b of colours.slice(i + 1)) least = Math.min(least, distance(a, b));
  });
  return least;
};

const propellants = [0, 1, 2, 3, 4, 5].map((place) => `propellant-${place}`);
const statuses = ["status-supplied", "status-thin", "status-short"];

describe.each(themes)("in the %s theme", (theme) => {
  it.each(Object.keys(views))("propellants stay apart under %s", (view) => {
    expect(closest(propellants.map((name) => views[view]!(token(theme, name))))).toBeGreaterThanOrEqual(LEAST);
  });

  it.each(Object.keys(views))("statuses stay apart under %s", (view) => {
    expect(closest(statuses.map((name) => views[view]!(token(theme, name))))).toBeGreaterThanOrEqual(LEAST);
  });

  it("propellants differ in lightness too, each from the next by 0.03 at least", () => {
    const lightness = propellants.map((name) => token(theme, name).l).sort((a, b) => a - b);
    const steps = lightness.slice(1).map((l, index) => l - lightness[index]!);
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(0.03);
  });
});

describe("the simulation itself", () => {
  it("makes red and green alike for deuteranopia, which they are not", () => {
    const red: Color = { mode: "rgb", r: 0.78, g: 0.36, b: 0.3 };
    const green: Color = { mode: "rgb", r: 0.52, g: 0.53, b: 0.28 };
    const seen = views["deuteranopia"]!;
    expect(distance(red, green)).toBeGreaterThan(25);
    expect(distance(seen(red), seen(green))).toBeLessThan(12);
  });
});
