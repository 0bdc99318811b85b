/** Sortie sheets and craft life in the report: which sheets there are, that their figures add up, what falls due when. */
import { describe, expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import type { Block, Cell, Table } from "../../../app/report/model.ts";
import type { ReportContext } from "../../../app/report/context.ts";
import { exampleContext } from "./example.ts";
import { heronContext } from "./heron-example.ts";
import { outsideOf, textsOf, wordsOf } from "../picture/shapes-of.ts";

const blocksOf = (context: ReportContext, id: string): readonly Block[] =>
  buildReport(context).sections.find((section) => section.id === id)!.blocks;
const tableOf = (blocks: readonly Block[], id: string): Table =>
  blocks.find((block): block is Table => block.kind === "table" && block.id === id)!;
const words = (blocks: readonly Block[]): string =>
  blocks
    .flatMap((block) => (block.kind === "paragraph" ? [block.text] : block.kind === "list" ? block.items : []))
    .join("\n");
const kg = (cell: Cell | undefined): number => (cell?.kind === "mass" ? cell.kg : 0);
const value = (cell: Cell | undefined): number => (cell?.kind === "number" ? cell.value : NaN);

describe("sortie sheets", () => {
  const blocks = blocksOf(heronContext(), "sorties");

  test("sorties that fly alike share one sheet", () => {
    expect(blocks.filter(({ kind }) => kind === "table").map((block) => (block as Table).id)).toEqual([
      "sortie-1-legs",
      "sortie-1-load",
      "sortie-2-legs",
      "sortie-2-load",
    ]);
    expect(words(blocks)).toMatch(/Heron, “Single stage”, 1.00\st down, 0.10\st up, 2 crew: Sortie 1, Sortie 2\./);
    expect(words(blocks)).toMatch(/“Return propellant cached”, .*: Sortie 3\./);
    expect(words(blocks)).not.toContain("Sortie 4");
  });

  test.each(["sortie-1", "sortie-2"])("of %s what is loaded goes somewhere, and the masses of the legs join", (id) => {
    const load = tableOf(blocks, `${id}-load`);
    for (const [, loaded, burned, lost, consumed, left, residual, mixture, reserve, home] of load.rows) {
      expect(kg(burned) + kg(lost) + kg(consumed) + kg(left) + kg(home)).toBeCloseTo(kg(loaded), 6);
      expect(kg(residual) + kg(mixture) + kg(reserve)).toBeCloseTo(kg(home), 6);
    }
    const legs = tableOf(blocks, `${id}-legs`).rows;
    legs.slice(1).forEach((row, index) => expect(kg(row[2])).toBeCloseTo(kg(legs[index]![3]), 6));
    // Over a burn the mass falls by what leaves the tanks, and by the rocket equation at Isp 450 s.
    for (const row of legs.filter((each) => each[8]?.kind === "number" && each[8].value > 0)) {
      expect(kg(row[2]) - kg(row[3])).toBeCloseTo(kg(row[5]) + kg(row[6]) + kg(row[7]), 6);
      expect(kg(row[2]) / kg(row[3])).toBeCloseTo(Math.exp(value(row[4]) / (450 * 9.80665)), 9);
    }
  });

  test("thrust over weight stands at both ends of a burn: 4 engines of 66 kN in lunar g", () => {
    const landing = tableOf(blocks, "sortie-1-legs").rows.find(
      (row) => row[1]?.kind === "text" && row[1].text.startsWith("descent"),
    )!;
    expect(value(landing[9])).toBeCloseTo(264_000 / (kg(landing[2]) * 1.62), 9);
    expect(value(landing[10])).toBeCloseTo(264_000 / (kg(landing[3]) * 1.62), 9);
  });

  test("what a top-up takes to cool the line and the warm tank stands on the sheet, each by itself, with its source", () => {
    const context = heronContext();
    const { view } = context.main;
    // 640 kg of aluminium from 110 K to liquid hydrogen by hand: 119.0 kg (test/published/tank-chilldown.test.ts).
    const wall = { massKg: 640, metal: "aluminium" as const, temperatureK: 110 };
    const line = {
      propellantId: view.plan.propellants.find(({ fluid }) => fluid === "H2")!.id,
      capacityKg: 7130,
      loadKg: 6610,
      returnKg: 270,
      kPerDay: 0,
      cKgPerDay: 0,
      residualKg: 0,
      chilldownKg: 30,
      lossFraction: 0.002,
      rateKgPerDay: null,
      wall,
    };
    const craftClasses = view.plan.craftClasses.map((each) => ({ ...each, propellants: [line] }));
    const main = { ...context.main, view: { ...view, plan: { ...view.plan, craftClasses } } };
    const said = words(blocksOf({ ...context, main }, "sorties"));
    expect(said).toContain("On top of the load, the depot gives at each top-up:");
    expect(said).toMatch(/Hydrogen, lost in the transfer: 0\.20\s% of what flows/);
    expect(said).toMatch(/Hydrogen, line chilldown: 30\.0\skg at each top-up/);
    expect(said).toMatch(
      /Hydrogen, tank chilldown: 119\.0\skg boil .* 640\.0\skg of aluminium from 110\sK\. Heat by the law of Dulong and Petit/,
    );
  });

  test("the picture stacks four bands inside its frame, each with its name", () => {
    const charts = blocks.flatMap((block) => (block.kind === "chart" ? [block] : []));
    expect(charts.map(({ id }) => id)).toEqual(["sortie-1-mass", "sortie-2-mass"]);
    for (const { picture } of charts) {
      const names = textsOf(picture).filter(({ isBold }) => isBold);
      expect(names.map(({ text }) => text)).toEqual(["craft and cargo", "Hydrogen", "Oxygen", "Hydrazine"]);
      names.slice(1).forEach((name, index) => expect(names[index]!.y - name.y).toBeGreaterThanOrEqual(8));
      expect(outsideOf(picture)).toEqual([]);
    }
  });

  test("findings stand before what holds, with their numbers", () => {
    const fixed = blocksOf(heronContext({ minimumThrottle: 1 }), "sorties");
    expect(words(fixed)).toMatch(
      /1 of 12 checks do not hold:\nHovering at touchdown with 4 engines takes 19\s% .* exactly timed cut-off/,
    );
    expect(words(blocks)).toContain("No findings; all 12 checks hold:");
  });

  test("a landing site has its cost over the day of lift-off, in words and as a picture inside its frame", () => {
    const context = heronContext();
    const { view } = context.main;
    const landing = {
      site: "Marsh",
      latitudeDeg: -60,
      longitudeDeg: 20,
      orbitKm: 100,
      inclinationDeg: 90,
      passes: "north",
      landsAfterPassDays: 0,
      dogLegLimitDeg: 3,
    } as const;
    const [direct, ...others] = view.plan.profiles;
    const profiles = [{ ...direct!, landing }, ...others];
    const landed = { ...context, main: { ...context.main, view: { ...view, plan: { ...view.plan, profiles } } } };
    const withSite = blocksOf(landed, "sorties");
    const [chart, ...more] = withSite.flatMap((block) =>
      block.kind === "chart" && block.id.endsWith("plane") ? [block] : [],
    );
    expect(more).toEqual([]);
    expect(chart?.description).toMatch(
      /^Landing in the plane; lift-off [\d.]+° off the plane: .*; against the profile's stay of /,
    );
    expect(words(withSite)).toContain("Landing in the plane; lift-off");
    expect(wordsOf(chart?.picture)).toContain("this profile");
    expect(outsideOf(chart!.picture)).toEqual([]);
  });

  test("only sorties of the period, and a word where none is computed", () => {
    const context = heronContext();
    const until = {
      ...context,
      choices: { ...context.choices, untilAt: context.main.view.plan.asOfAt + 100 * 86_400_000 },
    };
    expect(words(blocksOf(until, "sorties"))).not.toContain("Sortie 3");
    expect(words(blocksOf(exampleContext(), "sorties"))).toMatch(/^No sortie of the period is computed/);
  });
});

describe("craft life", () => {
  test("seventeen rated ignitions at eight a sortie: due at the third, on its date", () => {
    const blocks = blocksOf(heronContext({ ratedIgnitions: 17 }), "craft-life");
    expect(tableOf(blocks, "craft-life").rows.map((row) => value(row[3]))).toEqual([8, 16, 24]);
    expect(words(blocks)).toContain(
      "Heron 1 needs new engines before Sortie 3 on 2031-05-01, which would take ignitions over the rating.",
    );
    expect(words(blocks)).toMatch(/stated and what they use of the engines is not known: Sortie 4\./);
    const engines = tableOf(blocks, "engine-life").rows;
    expect(engines).toHaveLength(4);
    for (const row of engines) expect(row[4]).toEqual({ kind: "text", text: "Sortie 3" });
  });

  test("one engine changed before it goes on, the others are due", () => {
    const context = heronContext({ ratedIgnitions: 17 });
    const { view } = context.main;
    const craft = view.plan.craft.map((row) => ({
      ...row,
      engineChanges: [{ at: Date.UTC(2031, 3, 1), note: "inspection", engineNumbers: [2] }],
    }));
    const changed = { ...context, main: { ...context.main, view: { ...view, plan: { ...view.plan, craft } } } };
    const blocks = blocksOf(changed, "craft-life");
    expect(words(blocks)).toContain("Heron 1: engine 2 changed on 2031-04-01 (inspection).");
    expect(words(blocks)).toContain("Heron 1 needs engines 1, 3 and 4 changed before Sortie 3");
    expect(tableOf(blocks, "engine-life").rows.map((row) => value(row[2]))).toEqual([24, 8, 24, 24]);
  });

  test("nothing is due where nothing is rated", () => {
    const blocks = blocksOf(heronContext({ ratedIgnitions: null, ratedBurnSeconds: null }), "craft-life");
    expect(words(blocks)).toContain("Heron 1 needs no engine change in this plan.");
  });
});
