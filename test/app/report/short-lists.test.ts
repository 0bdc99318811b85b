/** What is left out on paper: counted, never one of a kind, never what stands in other sections, and whole elsewhere. */
import { expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import { reportToHtml } from "../../../app/report/format/html.ts";
import { ITEMS_ON_PAPER, withShortLists } from "../../../app/report/format/short-lists.ts";
import type { ReportModel } from "../../../app/report/model.ts";
import type { PlanFinding } from "../../../app/supply/answer.ts";
import { exampleContext } from "./example.ts";

const withFindings = (findings: readonly PlanFinding[]): ReportModel => {
  const { main, ...context } = exampleContext();
  return buildReport({ ...context, main: { ...main, supply: { ...main.supply, findings } } });
};

const lists = (report: ReportModel, sectionId: string): readonly (readonly string[])[] =>
  report.sections
    .filter(({ id }) => id === sectionId)
    .flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === "list" ? [block.items] : [])));

const clash = (n: number): PlanFinding => ({ kind: "circular flights", flightIds: [`flight-${n}`] });
const overlap: PlanFinding = { kind: "lander overlap", landerId: "lander", sortieIds: ["first", "second"] };

test("of a hundred clashes twelve are printed and the others counted; the one of another kind is not lost among them", () => {
  const report = withFindings([...Array.from({ length: 100 }, (_, n) => clash(n)), overlap]);
  const whole = lists(report, "supply");
  expect(whole.map(({ length }) => length)).toEqual([100, 1]);
  const [clashes, overlaps] = lists(withShortLists(report), "supply");
  expect(clashes?.slice(0, ITEMS_ON_PAPER)).toEqual(whole[0]?.slice(0, ITEMS_ON_PAPER));
  expect(clashes?.slice(ITEMS_ON_PAPER)).toEqual([
    "88 more like these: the page (HTML) and the workbook of this report have them all.",
  ]);
  expect(overlaps).toEqual(whole[1]);
});

test("the page has every one of them", () => {
  const page = reportToHtml(withFindings(Array.from({ length: 100 }, (_, n) => clash(n))));
  for (let n = 0; n < 100; n += 1) expect(page).toContain(`flight-${n}`);
  expect(page).not.toContain("more like these");
});

test("a list that is hardly longer is whole, and so is every list of another section", () => {
  const few = withFindings(Array.from({ length: 15 }, (_, n) => clash(n)));
  expect(withShortLists(few)).toEqual(few);
  const [section] = few.sections;
  if (section === undefined) throw new Error("no section");
  const items = Array.from({ length: 60 }, (_, n) => `Item ${n}`);
  const other: ReportModel = {
    ...few,
    sections: [{ ...section, id: "assumptions", blocks: [{ kind: "list", items }] }],
  };
  expect(withShortLists(other)).toEqual(other);
});
