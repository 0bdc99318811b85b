/**
 * Where the pages of a PDF end, as another program reads them, over every page of six reports: no heading is parted from
 * what it heads, no page is white, none has a line or two alone; and no figure is broken at its thousands or its unit.
 */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import type { Block, ReportModel } from "../../../app/report/model.ts";
import { reportToPdf } from "../../../main/report/pdf.ts";
import { exampleContext } from "../../app/report/example.ts";
import { startTestService, type TestService } from "../service/test-service.ts";

interface Line {
  readonly text: string;
  /** Points above the foot of the page. */
  readonly y: number;
  readonly size: number;
}

/** The footer stands lower than this. */
const FOOT = 64;
const HEADING_SIZE = 13;

/** The lines of each page from the top, without its footer. */
const linesOf = async (report: ReportModel): Promise<readonly (readonly Line[])[]> => {
  const pdf = await getDocument({ data: new Uint8Array(await reportToPdf(report)), verbosity: 0 }).promise;
  return await Promise.all(
    Array.from({ length: pdf.numPages }, async (_, index) => {
      const { items } = await (await pdf.getPage(index + 1)).getTextContent();
      const parts = items.flatMap((item): readonly Line[] =>
        "str" in item && item.str.trim() !== ""
          ? [{ text: item.str, y: Number(item.transform[5]), size: item.height }]
          : [],
      );
      const lines = Map.groupBy(
        parts.filter(({ y }) => y > FOOT),
        ({ y }) => Math.round(y),
      );
      return [...lines]
        .toSorted(([a], [b]) => b - a)
        .map(([y, of]) => ({
          y,
          text: of.map(({ text }) => text).join(""),
          size: Math.max(...of.map(({ size }) => size)),
        }));
    }),
  );
};

const ofSections = (...sections: readonly (readonly Block[])[]): ReportModel => ({
  ...buildReport(exampleContext()),
  sections: sections.map((blocks, n) => ({ id: `trial-${n}`, title: `Trial ${n}`, blocks })),
});

const words = (text: string): Block => ({ kind: "paragraph", text });

let rig: TestService;
beforeAll(() => {
  rig = startTestService();
});
afterAll(() => rig.end());

const demonstration = async (which: "tarn" | "beck", paper: "A4" | "letter", place = 0): Promise<ReportModel> => {
  const made = await rig.service.call("ledger.demo", { path: rig.path(`${which}-${paper}-${place}`), which });
  if (!made.ok) throw new Error(made.failure.message);
  const planCase = made.value.planCases[place];
  if (planCase === undefined) throw new Error("no plan case");
  const shown = await rig.service.call("report.show", {
    of: {
      kind: "draft",
      choices: {
        planCaseId: planCase.id,
        compareId: null,
        fromAt: null,
        untilAt: null,
        massUnit: "t",
        paper,
        sectionIds: null,
      },
    },
  });
  if (!shown.ok) throw new Error(shown.failure.message);
  return shown.value;
};

/** Forty sorties, and two hundred flights that clash. */
const crowded = (): ReportModel => {
  const { main, ...context } = exampleContext();
  const flights = Array.from({ length: 200 }, (_, n) => ({ flightId: main.view.plan.flights[0]?.id ?? "", n }));
  return buildReport({
    ...context,
    main: {
      ...main,
      supply: {
        ...main.supply,
        sorties: Array.from({ length: 40 }, () => main.supply.sorties).flat(),
        findings: flights.map(({ flightId }) => ({ kind: "unused flight", flightId })),
      },
    },
  });
};

const reports: readonly (readonly [string, () => ReportModel | Promise<ReportModel>])[] = [
  ["demonstration", () => demonstration("tarn", "A4")],
  ["demonstration on US Letter", () => demonstration("tarn", "letter")],
  ["methane", () => demonstration("beck", "A4")],
  ["all supplied", () => demonstration("tarn", "A4", 1)],
  ["two hundred flights", crowded],
  [
    "a list that breaks",
    () => ofSections([{ kind: "list", items: Array.from({ length: 70 }, (_, n) => `Item ${n}. `.repeat(12)) }]),
  ],
];

describe.each(reports)("%s", (_name, make) => {
  test("no page ends with a heading, is white or has a line or two alone", async () => {
    const pages = await linesOf(await make());
    for (const [index, lines] of pages.entries()) {
      const last = lines.at(-1);
      expect({ page: index + 1, last, isHeading: last?.size === HEADING_SIZE }).toMatchObject({ isHeading: false });
      expect({ page: index + 1, isFull: lines.length > 2 }).toEqual({ page: index + 1, isFull: true });
    }
    expect(pages.flat().some(({ size }) => size === HEADING_SIZE)).toBe(true);
  });
});

const table: Block = {
  kind: "table",
  id: "rows",
  caption: "Rows by month",
  columns: [{ title: "Row", unit: null, align: "start", weight: 1 }],
  rows: Array.from({ length: 6 }, (_, row) => [{ kind: "text", text: `row ${row}` }]),
};

test("wherever a section begins on a page, heading, words and the table that they lead up to stand together", async () => {
  let turned = 0;
  for (let before = 20; before < 44; before += 1) {
    const pages = await linesOf(
      ofSections(
        Array.from({ length: before }, (_, n) => words(`before ${n}`)),
        [words("These words lead up to it."), table],
      ),
    );
    const page = pages.findIndex((lines) => lines.some(({ text }) => text === "Trial 1"));
    const texts = pages[page]?.map(({ text }) => text) ?? [];
    for (const text of ["These words lead up to it.", "Rows by month", "row 0", "row 5"]) expect(texts).toContain(text);
    turned += page;
  }
  // Some began the page, some did not.
  expect(turned).toBeGreaterThan(0);
  expect(turned).toBeLessThan(24);
});

test("a figure keeps its thousands and its unit on one line, wherever the line ends", async () => {
  const figure = "12\u202f345\u202f678\u202fkg";
  let lines = 0;
  for (let before = 60; before < 110; before += 1) {
    const pages = await linesOf(
      ofSections([words(`${"a".repeat(before / 2)} ${"b".repeat(before / 2)} ${figure} more`)]),
    );
    const found = pages.flat().filter(({ text }) => text.includes("12") && text.includes("678"));
    expect(found.map(({ text }) => text.replaceAll(/\s/gu, ""))).toEqual([expect.stringContaining("12345678kg")]);
    lines += found[0]?.text.includes("a") === true ? 0 : 1;
  }
  // In some of them it went on to the next line whole.
  expect(lines).toBeGreaterThan(0);
});
