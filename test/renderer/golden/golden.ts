/** Compares a picture with the kept one (README.md says how a change is reviewed). */
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { expect } from "vitest";
import type { Theme } from "../../../app/picture/ink.ts";
import { estimatedWidth } from "../../../app/picture/shape.ts";

/** Fixed colours, so that a change of a token changes no golden picture. */
export const goldenTheme: Theme = {
  font: "sans-serif",
  colours: {
    ground: "#e6e4df",
    sheet: "#f3f1ec",
    raised: "#fbfaf7",
    hairline: "#c0bcb4",
    rule: "#dedbd5",
    edge: "#8a867e",
    ink: "#22252d",
    "ink-soft": "#545861",
    accent: "#1f57a4",
    "accent-ink": "#fbfaf7",
    "accent-wash": "#dce3f0",
    "status-supplied": "#1c6b4f",
    "status-thin": "#8a5a10",
    "status-short": "#8f1f1b",
    "propellant-0": "#2a7aa3",
    "propellant-1": "#40308a",
    "propellant-2": "#1d5a34",
    "propellant-3": "#b06318",
    "propellant-4": "#7d5a62",
    "propellant-5": "#1f2c38",
  },
};

/** An estimate that is the same everywhere. */
export const estimate = estimatedWidth;

/** Fails, and leaves the new picture beside the old one, if they differ. */
export const expectGolden = (name: string, svg: string): void => {
  const path = (suffix: string): URL => new URL(`${name}${suffix}.svg`, import.meta.url);
  if (process.env["GOLDEN"] === "write") writeFileSync(path(""), svg);
  const kept = existsSync(path("")) ? readFileSync(path(""), "utf8") : "";
  if (kept === svg) return rmSync(path("-changed"), { force: true });
  writeFileSync(path("-changed"), svg);
  expect(svg, `${name}.svg differs; see test/renderer/golden/README.md`).toBe(kept);
};
