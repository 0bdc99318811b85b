/** The first page: what a manager decides by stands on it, and its figures agree with each other. */
import { describe, expect, test } from "vitest";
import { buildReport } from "../../../app/report/build.ts";
import type { ReportContext } from "../../../app/report/context.ts";
import type { Block, Fact, Table } from "../../../app/report/model.ts";
import { exampleContext } from "./example.ts";
import { textsOf, wordsOf } from "../picture/shapes-of.ts";

const page = (context: ReportContext): readonly Block[] => buildReport(context).sections[0]!.blocks;
const glance = (context: ReportContext): Table =>
  page(context).find((block): block is Table => block.kind === "table" && block.id === "sorties-at-a-glance")!;
const fact = (context: ReportContext, term: RegExp): string =>
  page(context)
    .flatMap((block): readonly Fact[] => (block.kind === "facts" ? block.items : []))
    .find((each) => term.test(each.term))?.text ?? "";
const chartTexts = (context: ReportContext): readonly string[] =>
  page(context).flatMap((block) => (block.kind === "chart" ? wordsOf(block.picture) : []));

test("what is missing and the reserve beside it make up the margin of a short sortie", () => {
  const [sortie, , status, , margin, reserve, missing] = glance(exampleContext()).rows[1]!;
  const kg = (cell: typeof margin): number => (cell?.kind === "mass" || cell?.kind === "shortage" ? cell.kg : NaN);
  expect(sortie).toEqual({ kind: "text", text: "Sortie 2" });
  expect(status).toEqual({ kind: "text", text: "short, stands down" });
  expect(kg(missing)).toBeCloseTo(1899.944, 9);
  // Reserve 1,500 kg, heel 200 kg: the example's tank.
  expect(kg(reserve)).toBe(1300);
  expect(kg(margin)).toBeCloseTo(-1899.944 - 1300, 9);
});

test("the short row is marked, and no other", () => {
  expect(glance(exampleContext()).marks).toEqual([{ row: 1, as: "warning" }]);
});

test("a sortie that has its propellant only because an earlier one stands down says so", () => {
  const context = exampleContext();
  const [, second] = context.main.supply.sorties;
  const third = { ...context.main.view.plan.sorties[1]!, id: "sortie-3", key: "sortie-3", name: "Sortie 3" };
  const stands = (marginOverReserveKg: number) => ({
    ...second!,
    sortieId: "sortie-3",
    name: "Sortie 3",
    plannedAt: second!.plannedAt + 86_400_000,
    status: "supplied" as const,
    outcome: "flies" as const,
    lines: second!.lines.map((line) => ({ ...line, status: "supplied" as const, missingKg: 0, marginOverReserveKg })),
  });
  const withThird = (marginKg: number): ReportContext => {
    const { main } = context;
    const plan = { ...main.view.plan, sorties: [...main.view.plan.sorties, third] };
    const supply = { ...main.supply, sorties: [...main.supply.sorties, stands(marginKg)] };
    return { ...context, main: { ...main, view: { ...main.view, plan }, supply } };
  };
  // The second would have taken 10,023.4 kg.
  expect(glance(withThird(900)).rows[2]![2]).toEqual({ kind: "text", text: "supplied, as Sortie 2 stands down" });
  expect(glance(withThird(10_100)).rows[2]![2]).toEqual({ kind: "text", text: "supplied" });
});

test("the chart names the as-of instant, marks every sortie and says in words which is short", () => {
  expect(chartTexts(exampleContext())).toEqual(
    expect.arrayContaining(["as of 2031-01-01", "Sortie 1", "Sortie 2, short"]),
  );
});

test("the axis has a month's name every few months, at its place", () => {
  const { choices } = exampleContext();
  const [chart] = page(exampleContext()).filter((block) => block.kind === "chart");
  const texts = textsOf(chart?.kind === "chart" ? chart.picture : undefined);
  const months = texts.filter(({ text }) => /^\d{4}-\d\d$/.test(text));
  expect(months.map(({ text }) => text)).toEqual([
    "2031-01",
    "2031-02",
    "2031-03",
    "2031-04",
    "2031-05",
    "2031-06",
    "2031-07",
  ]);
  // Two months give the scale; the others follow it, by the calendar.
  const at = ({ text }: { readonly text: string }): number => Date.parse(`${text}-01`);
  const [first, ...others] = months;
  const last = others.at(-1)!;
  const slope = (last.x - first!.x) / (at(last) - at(first!));
  for (const month of others) expect(month.x).toBeCloseTo(first!.x + slope * (at(month) - at(first!)), 1);
  expect(slope * (choices.untilAt - choices.fromAt)).toBeLessThan(500);
});

describe("the facts", () => {
  test("name the latest departure that comes first, and what it costs to be later", () => {
    expect(fact(exampleContext(), /Next decision/)).toBe(
      "Packhorse 1 departs at the latest on 2031-03-01 06:00 UTC (planned 2031-02-20): later, Sortie 1 fares worse.",
    );
    const context = exampleContext();
    const { main } = context;
    const free = {
      ...context,
      main: { ...main, supply: { ...main.supply, latestDeparture: [{ flightId: "f1", at: null }] } },
    };
    expect(fact(free, /Next decision/)).toBe("No flight has a latest departure before the end of the forecast.");
  });

  test("say when the gauges were read last and how surely, and which tank was never read", () => {
    const words = fact(exampleContext(), /Rests on/);
    expect(words).toMatch(
      /^Last gauge readings 2030-12-22 \(one sigma: Tank h ±60\skg\); no reading of Tank o; loss rates by/,
    );
    const { main } = exampleContext();
    const withdrawn = main.view.readings.map((row) => ({ ...row, isWithdrawn: true }));
    const blind = { ...exampleContext(), main: { ...main, view: { ...main.view, readings: withdrawn } } };
    expect(fact(blind, /Rests on/)).toMatch(/^No gauge reading: the levels are those of the books;/);
  });

  test("say in at most three lines what has moved since the issue before", () => {
    const since = {
      number: 2,
      issuedAt: exampleContext().issuedAt,
      sorties: [
        { key: "sortie-1", name: "Sortie 1", status: "thin" as const },
        { key: "sortie-2", name: "Sortie 2", status: "supplied" as const },
        ...[7, 8, 9].map((n) => ({ key: `sortie-${n}`, name: `Sortie ${n}`, status: "supplied" as const })),
      ],
    };
    const lines = fact({ ...exampleContext(), since }, /Since issue 2/).split("\n");
    expect(lines).toEqual([
      "Sortie 1 was thin and is supplied now.",
      "4 more sorties stand otherwise.",
      "1 step of editing, the last of 2031-01-01: Move Packhorse 1.",
    ]);
    expect(fact(exampleContext(), /Changed/)).toBe("This plan case was not issued before.");
  });

  test("give no cost where none is stated, and say which flights have none", () => {
    expect(fact(exampleContext(), /Cost/)).toBe("");
  });
});
