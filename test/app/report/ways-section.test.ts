/** The section of ways by other vehicles: table, break-even with its picture, and what is said where there is nothing to compare. */
import { describe, expect, test } from "vitest";
import { waysBlocks } from "../../../app/report/section/ways.ts";
import { demoTarn } from "../../../app/demo/tarn.ts";
import { exampleContext } from "./example.ts";
import { shapesOf } from "../picture/shapes-of.ts";

/** The example with the classes and profiles of the demonstration. */
const withDemonstration = () => {
  const context = exampleContext();
  const { view } = context.main;
  const { entities } = demoTarn();
  const plan = {
    ...view.plan,
    craftClasses: entities.craftClass ?? [],
    profiles: entities.profile ?? [],
    propellants: entities.propellant ?? [],
  };
  return { ...context, main: { ...context.main, view: { ...view, plan } } };
};

describe("ways by other vehicles on paper", () => {
  const context = withDemonstration();
  const blocks = waysBlocks(context);
  const chart = blocks.find((block) => block.kind === "chart");

  test("every way has its row, the reusable lander's and the spent one's", () => {
    const table = blocks.find((block) => block.kind === "table");
    const names = table?.kind === "table" ? table.rows.map(([name]) => JSON.stringify(name)) : [];
    expect(names).toHaveLength(6);
    expect(names.filter((name) => name.includes("Wren"))).toHaveLength(2);
  });

  test("the picture has two lines and the break-even, and its words say what moves it most", () => {
    const shapes = shapesOf(chart?.kind === "chart" ? chart.picture : undefined);
    // A line that has a point for every number of sorties; all others go straight from end to end.
    expect(shapes.filter((shape) => shape.kind === "path" && shape.points.length > 4)).toHaveLength(2);
    expect(shapes.some((shape) => shape.kind === "text" && /^break-even \d/.test(shape.text))).toBe(true);
    expect(chart?.kind === "chart" ? chart.description : "").toMatch(/takes less from the ground.*hangs most on/);
  });

  test("a second picture has a bar for every input that moves it, with both numbers", () => {
    const bars = blocks.find((block) => block.kind === "chart" && block.id === "ways-break-even-inputs");
    const shapes = shapesOf(bars?.kind === "chart" ? bars.picture : undefined);
    const texts = shapes.flatMap((shape) => (shape.kind === "text" ? [shape.text] : []));
    expect(texts).toEqual(expect.arrayContaining(["Isp of Heron", "dry mass of Wren", "cargo down"]));
    const names = texts.filter((text) => / of (Heron|Wren)$|^cargo down$/.test(text));
    expect(new Set(names).size).toBe(names.length);
    // Each with a number at both ends of its bar.
    expect(texts.filter((text) => /^[−+] (\d|none|not flown)/.test(text))).toHaveLength(
      shapes.filter((shape) => shape.kind === "path" && shape.width > 2).length * 2,
    );
  });

  test("a ledger with one class of lander says that there is nothing to compare", () => {
    const { view } = context.main;
    const craftClasses = view.plan.craftClasses.filter(({ id }) => id !== "wren");
    const one = { ...context, main: { ...context.main, view: { ...view, plan: { ...view.plan, craftClasses } } } };
    expect(waysBlocks(one)).toEqual([
      { kind: "paragraph", text: expect.stringMatching(/nothing to compare/) as string },
    ]);
  });
});
