/** Charts that leave the program: well-formed SVG that keeps every word, a caption that stays apart from the chart. */
import { describe, expect, test } from "vitest";
import { captioned } from "../../../app/picture/captioned.ts";
import { moved } from "../../../app/picture/moved.ts";
import type { Picture, Shape } from "../../../app/picture/shape.ts";
import { toSvg } from "../../../app/picture/svg.ts";
import { chartFileName } from "../../../renderer/plot/take-chart.ts";
import { estimate, goldenTheme } from "../../renderer/golden/golden.ts";
import { readSvg } from "./read-svg.ts";

const word = (text: string, x = 0, y = 10): Shape => ({
  kind: "text",
  x,
  y,
  text,
  ink: "ink",
  size: 12,
  anchor: "start",
});
const pictureOf = (...shapes: readonly Shape[]): Picture => ({
  width: 300,
  height: 100,
  groups: [{ clip: null, shapes }],
});

describe("as SVG", () => {
  test("names with the signs of XML, and every script, come back as they were", () => {
    const names = [`<Tarn> & "Beck" 'x'`, "]]>", "Zweckverband Wüste", "月面", "𝛥v", "a\u202fkg", "−3"];
    const read = readSvg(toSvg(pictureOf(...names.map((name) => word(name))), goldenTheme, names[0]));
    expect(read.texts).toEqual(names);
    expect(read.title).toBe(names[0]);
    expect(read.outside).toEqual([]);
  });

  test("what XML forbids is left out, not written", () => {
    const read = readSvg(toSvg(pictureOf(word("a\u0000b\u0007c\uffffd\ud800e")), goldenTheme));
    expect(read.texts).toEqual(["abcde"]);
  });

  test("the parser of this test refuses what is not well formed", () => {
    expect(() => readSvg("<svg><text>a < b</text></svg>")).toThrow(/character|tag/);
    expect(() => readSvg("<svg><text>a</svg>")).toThrow(/tag/);
  });
});

describe("the caption", () => {
  const parts = ["Ridge programme", "plan case Base", "as of 2031-02-01 UTC", "mass in kg, by month"];

  test("stands above the chart and within its width, in as many lines as it needs", () => {
    const chart = pictureOf(word("tick", 0, 5));
    for (const title of ["Levels", "Measured, predicted and fitted level: the second hydrogen tank of Tarn"]) {
      const { width, groups } = captioned(chart, { title, parts }, estimate);
      const texts = groups.flatMap(({ shapes }) => shapes).filter((shape) => shape.kind === "text");
      const said = texts.map(({ text }) => text).join(" ");
      for (const part of [...title.split(" "), ...parts]) expect(said).toContain(part);
      for (const { text, x, size, isBold } of texts)
        expect(x + estimate(text, size, isBold)).toBeLessThanOrEqual(width);
      const rows = texts.map(({ y }) => y);
      const gaps = rows.slice(1).map((y, place) => y - rows[place]!);
      expect(Math.min(...gaps)).toBeGreaterThan(12);
    }
  });

  test("the chart keeps its shape and loses nothing at the edges", () => {
    const chart = pictureOf({ kind: "path", points: [0, 0, 300, 100], ink: "ink", width: 1 });
    const { width, height, groups } = captioned(chart, { title: "Levels", parts }, estimate);
    const path = groups.flatMap(({ shapes }) => shapes).find((shape) => shape.kind === "path")!;
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = Array.from(path.points);
    expect([x1 - x0, y1 - y0]).toEqual([300, 100]);
    expect(x0).toBeGreaterThan(0);
    expect(x1).toBeLessThan(width);
    expect(y1).toBeLessThan(height);
  });
});

test("moving takes the cut with it", () => {
  const [group] = moved([{ clip: { x: 1, y: 2, width: 3, height: 4 }, shapes: [word("a", 5, 6)] }], 10, 20);
  expect(group).toMatchObject({ clip: { x: 11, y: 22, width: 3, height: 4 }, shapes: [{ x: 15, y: 26 }] });
});

test("the file is named after what it shows; every system takes the name", () => {
  const asOfAt = Date.UTC(2031, 1, 1, 12);
  expect(chartFileName("Loss by cause: Tarn, hydrogen", asOfAt, "svg")).toBe(
    "loss-by-cause-tarn-hydrogen-2031-02-01.svg",
  );
  expect(chartFileName('a/b\\c:*?"<>|', null, "png")).toBe("a-b-c.png");
  expect(chartFileName("…", null, "png")).toBe("chart.png");
  expect(chartFileName("月面 level", null, "png")).toBe("月面-level.png");
});
