/**
 * The pages of the PDF as another program reads them: everything that is shown is tagged or an artifact, tags are closed
 * on the page on which they were opened (ISO 32000-1, 14.6: marked content may not span content streams), tables are
 * not cut to ends of a row or two, and the first page stands alone.
 */
import { OPS, getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import type { Block, ReportModel } from "../../../app/report/model.ts";
import { reportToPdf } from "../../../main/report/pdf.ts";
import { exampleContext } from "../../app/report/example.ts";
import { heronContext } from "../../app/report/heron-example.ts";
import { plain } from "./read-pdf.ts";

const read = async (report: ReportModel) => {
  const bytes = await reportToPdf(report);
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  return await Promise.all(
    Array.from({ length: pdf.numPages }, async (_, index) => {
      const page = await pdf.getPage(index + 1);
      const { fnArray } = await page.getOperatorList();
      const content = await page.getTextContent();
      const text = plain(content.items.map((item) => ("str" in item ? item.str : "")).join(""));
      return { text, operators: fnArray };
    }),
  );
};

const ofBlocks = (blocks: readonly Block[]): ReportModel => {
  const report = buildReport(exampleContext());
  return { ...report, sections: [{ id: "trial", title: "Trial", blocks }] };
};

const sentence =
  "What is written here is long enough to need a second line on paper, and says nothing more than that. ".repeat(2);

const rows = (count: number): Block => ({
  kind: "table",
  id: "rows",
  caption: "Rows",
  columns: [{ title: "Row", unit: null, align: "start", weight: 1 }],
  rows: Array.from({ length: count }, (_, row) => [{ kind: "text", text: `row-${row}-end` }]),
});

const reports: readonly (readonly [string, () => ReportModel])[] = [
  ["small", () => buildReport(exampleContext())],
  ["sheets", () => buildReport(heronContext())],
  ["lists that break", () => ofBlocks([{ kind: "list", items: Array.from({ length: 70 }, () => sentence) }])],
  [
    "facts that break",
    () =>
      ofBlocks([
        { kind: "facts", items: Array.from({ length: 60 }, (_, n) => ({ term: `Term ${n}`, text: sentence })) },
      ]),
  ],
  ["paragraphs that break", () => ofBlocks(Array.from({ length: 60 }, () => ({ kind: "paragraph", text: sentence })))],
  ["a table that breaks", () => ofBlocks([rows(130)])],
];

const shows: ReadonlySet<number> = new Set([OPS.showText, OPS.showSpacedText, OPS.stroke, OPS.fill, OPS.fillStroke]);

describe.each(reports)("%s", (_name, make) => {
  test("all that is shown stands inside a mark, and every mark is closed on its page", async () => {
    for (const { operators } of await read(make())) {
      let open = 0;
      for (const operator of operators) {
        if (operator === OPS.beginMarkedContent || operator === OPS.beginMarkedContentProps) open += 1;
        if (operator === OPS.endMarkedContent) open -= 1;
        expect(open).toBeGreaterThanOrEqual(0);
        if (shows.has(operator)) expect(open).toBeGreaterThan(0);
      }
      expect(open).toBe(0);
    }
  });
});

test("no page of a cut table has fewer than three of its rows", async () => {
  let cut = 0;
  for (const count of [40, 42, 43, 44, 45, 47]) {
    const pages = await read(ofBlocks([rows(count)]));
    const seen = pages.map(({ text }) => text.match(/row-\d+-end/g)?.length ?? 0);
    expect(seen.reduce((sum, each) => sum + each, 0)).toBe(count);
    for (const each of seen.filter((rowsThere) => rowsThere > 0)) expect(each).toBeGreaterThanOrEqual(3);
    cut += seen.filter((rowsThere) => rowsThere > 0).length > 1 ? 1 : 0;
  }
  // Some of them are a row or two longer than a page holds.
  expect(cut).toBeGreaterThan(2);
});

test("a heading stands on the page of the chart or table that it heads", async () => {
  const context = heronContext();
  const report = buildReport(context);
  const pages = await read(report);
  for (const { title, blocks } of report.sections) {
    const [first] = blocks;
    if (first === undefined || (first.kind !== "chart" && first.kind !== "table")) continue;
    const page = pages.find(({ text }) => text.includes(plain(title + first.caption)));
    expect({ title, isThere: page !== undefined }).toEqual({ title, isThere: true });
  }
});

test.each(["A4", "letter"] as const)("the first page holds all that decides, on %s", async (paper) => {
  const context = heronContext();
  const [first] = await read(buildReport({ ...context, choices: { ...context.choices, paper } }));
  for (const words of ["Go or no-go", "Levels and sorties", "As of", "Rests on", "Changed"])
    expect(first?.text).toContain(plain(words));
});

test("every page says programme, plan case, as-of instant, inputs, and which page of how many it is", async () => {
  const report = buildReport(exampleContext());
  const pages = await read(report);
  const foot = plain("Example programme · Baseline · issue 3 · as of 2031-01-01 00:00 UTC · inputs 0123 4567 89ab");
  pages.forEach(({ text }, index) => {
    expect(text.slice(text.indexOf(foot))).toMatch(
      new RegExp(`^${foot}(·books[0-9a-f]{12})?${index + 1}/${pages.length}$`),
    );
  });
});

describe("for a reader who does not see the page (ISO 14289-1)", () => {
  interface Tag {
    readonly role: string;
    readonly children: readonly (Tag | { readonly type: string })[];
  }
  const tagsIn = (tag: Tag): readonly Tag[] => [
    tag,
    ...tag.children.flatMap((child) => ("role" in child ? tagsIn(child) : [])),
  ];

  const open = async (report: ReportModel) => {
    const bytes = await reportToPdf(report);
    const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
    // The tree of a page holds the whole of each table that the page has a part of.
    const tree = (await (await pdf.getPage(1)).getStructTree()) as unknown as Tag;
    return { pdf, tags: tagsIn(tree), raw: bytes.toString("latin1") };
  };

  test("the file names itself, whatever its title holds", async () => {
    const { pdf } = await open({ ...buildReport(exampleContext()), title: "Supply & <demand>", author: 'A "B" & C' });
    const { metadata, info } = await pdf.getMetadata();
    expect(metadata.get("pdfuaid:part")).toBe("1");
    expect(metadata.get("dc:title")).toBe("Supply & <demand>");
    expect(info).toMatchObject({ Title: "Supply & <demand>", Language: "en-GB" });
  });

  test("a table has its head once, also where it goes on over pages; each row is headed by its first words", async () => {
    const { pdf, tags, raw } = await open(ofBlocks([rows(130)]));
    expect(pdf.numPages).toBeGreaterThan(2);
    expect(tags.filter(({ role }) => role === "TH")).toHaveLength(131);
    expect(tags.filter(({ role }) => role === "TD")).toHaveLength(0);
    expect(raw.match(/\/Scope \/Column/g)).toHaveLength(1);
    expect(raw.match(/\/Scope \/Row/g)).toHaveLength(130);
  });

  test("a figure has a box on its page and words with its values", async () => {
    const { raw } = await open(buildReport(exampleContext()));
    const figures = raw.match(/\/S \/Figure[^>]*(?:>(?!>)[^>]*)*/g) ?? [];
    expect(figures.length).toBeGreaterThan(0);
    expect(raw.match(/\/BBox \[[\d. -]+\]/g)).toHaveLength(figures.length);
  });

  test("a sortie leads to its sheet, and a link to what the report does not have is words", async () => {
    const { main, ...context } = heronContext();
    const sorties = exampleContext().main.supply.sorties.map((sortie) => ({ ...sortie, sortieId: "sortie-1" }));
    const report = buildReport({ ...context, main: { ...main, supply: { ...main.supply, sorties } } });
    const { pdf } = await open(report);
    const links = (
      await Promise.all(
        Array.from({ length: pdf.numPages }, async (_, index) => await (await pdf.getPage(index + 1)).getAnnotations()),
      )
    ).flat();
    expect(links.length).toBeGreaterThan(0);
    for (const link of links) {
      expect(link.subtype).toBe("Link");
      expect(await pdf.getDestination(link.dest)).not.toBeNull();
    }
    const without = await open({ ...report, sections: report.sections.filter(({ id }) => id !== "sorties") });
    expect(await (await without.pdf.getPage(1)).getAnnotations()).toEqual([]);
  });
});
