/** Two issues beside each other: what moved by hand is what is told, and nothing else; what an issue lacks is said. */
import { assert, constantFrom, integer, property, record } from "fast-check";
import { describe, expect, test } from "vitest";
import { issuesBeside } from "../../../app/report/beside/beside.ts";
import { buildReport } from "../../../app/report/build.ts";
import { type FinishedReport, finishedText, parseFinished } from "../../../app/report/finished.ts";
import type { Cell, Table } from "../../../app/report/model.ts";
import { runs } from "../../suite/runs.ts";
import { exampleContext } from "./example.ts";

const DAY = 86_400_000;
const making = { author: "B. Planner", issuedAt: Date.UTC(2031, 5, 1) };

const issueOf = (
  number: number,
  change: (context: ReturnType<typeof exampleContext>) => ReturnType<typeof exampleContext> = (same) => same,
): FinishedReport => {
  const context = change({ ...exampleContext(), issueNumber: number });
  return {
    report: buildReport(context),
    calendar: "",
    sorties: context.main.supply.sorties.map(({ sortieKey: key, name, status }) => ({ key, name, status })),
  };
};

/** The first sortie loads so many days later, with so much more margin of its first propellant, as this. */
const moved =
  (days: number, moreKg: number, status: "supplied" | "short") => (context: ReturnType<typeof exampleContext>) => ({
    ...context,
    main: {
      ...context.main,
      supply: {
        ...context.main.supply,
        sorties: context.main.supply.sorties.map((sortie, place) =>
          place > 0
            ? sortie
            : {
                ...sortie,
                status,
                plannedAt: sortie.plannedAt + days * DAY,
                lines: sortie.lines.map((line, at) =>
                  at > 0 ? line : { ...line, marginOverReserveKg: line.marginOverReserveKg + moreKg },
                ),
              },
        ),
      },
    },
  });

const tableIn = ({ report }: FinishedReport, id: string): Table | null =>
  report.sections
    .flatMap(({ blocks }) => blocks)
    .find((block): block is Table => block.kind === "table" && block.id === id) ?? null;
const listIn = ({ report }: FinishedReport): readonly string[] =>
  report.sections.flatMap(({ blocks }) => blocks).flatMap((block) => (block.kind === "list" ? block.items : []));
const days = (cell: Cell | undefined) => (cell?.kind === "days" ? cell.value : 0);
const kg = (cell: Cell | undefined) => (cell?.kind === "shortage" ? cell.kg : 0);

describe("two kept issues", () => {
  test("that are alike say that every sortie stands as it did, and move nothing", () => {
    const beside = issuesBeside(issueOf(1), issueOf(2), making);
    expect(listIn(beside)).toEqual(["Every sortie stands as it did, with the same date and margins."]);
    for (const row of tableIn(beside, "sorties-beside")!.rows) expect(row[3]).toEqual({ kind: "nothing" });
    expect(tableIn(beside, "flights-beside")).toBeNull();
  });

  test("tell date, mass and status in one sentence, picture and table", () => {
    const beside = issuesBeside(issueOf(1), issueOf(2, moved(7, -1250, "short")), making);
    expect(listIn(beside)[0]).toMatch(
      /^Sortie 1 was .+ and is short now, loads 7\.0 days later, has .* less margin of hydrogen\.$/,
    );
    expect(listIn(beside)).toHaveLength(1);
    expect(beside.report.title).toBe("Example programme: issue 1 beside issue 2");
    const chart = beside.report.sections.flatMap(({ blocks }) => blocks).find(({ kind }) => kind === "chart");
    expect(chart).toMatchObject({ description: expect.stringMatching(/Sortie 1: .+, now .+, short/) as string });
  });

  test("whatever moved, the tables have it to the day and the gram, and it is kept and read back as a report", () => {
    assert(
      property(
        record({
          by: integer({ min: -60, max: 60 }),
          more: integer({ min: -4000, max: 4000 }),
          status: constantFrom("supplied" as const, "short" as const),
        }),
        ({ by, more, status }) => {
          const beside = issuesBeside(issueOf(4), issueOf(9, moved(by, more, status)), making);
          expect(parseFinished(finishedText(beside))).toEqual(JSON.parse(JSON.stringify(beside)));
          const [first, ...others] = tableIn(beside, "sorties-beside")!.rows;
          expect(days(first?.[3])).toBeCloseTo(by, 9);
          expect(first?.[5]).toEqual({ kind: "text", text: status });
          for (const row of others) expect(row[3]).toEqual({ kind: "nothing" });
          const [line, ...rest] = tableIn(beside, "masses-beside")!.rows;
          expect(kg(line?.[8])).toBeCloseTo(more, 6);
          for (const row of rest) expect(row[8]).toEqual({ kind: "nothing" });
        },
      ),
      { numRuns: runs(30) },
    );
  });

  test("a sortie that is new or gone is said to be so", () => {
    const without = issueOf(2, (context) => ({
      ...context,
      main: { ...context.main, supply: { ...context.main.supply, sorties: context.main.supply.sorties.slice(1) } },
    }));
    expect(listIn(issuesBeside(issueOf(1), without, making))).toContain("Sortie 1 is no longer planned.");
    expect(
      listIn(issuesBeside({ ...without, report: { ...without.report, issueNumber: 1 } }, issueOf(3), making)).join(),
    ).toMatch(/Sortie 1 is new: /);
  });

  test("an issue without its supply check is not compared in dates and masses, and that is said", () => {
    const bare = issueOf(1, (context) => ({ ...context, choices: { ...context.choices, sectionIds: ["verdict"] } }));
    const beside = issuesBeside(bare, issueOf(2), making);
    const words = beside.report.sections
      .flatMap(({ blocks }) => blocks)
      .flatMap((block) => (block.kind === "paragraph" ? [block.text] : []));
    expect(words.join("\n")).toMatch(
      /Issue 1 was issued without: supply check \(dates and masses of sorties\), table of flights\./,
    );
    for (const row of tableIn(beside, "masses-beside")!.rows) expect(row[8]).toEqual({ kind: "nothing" });
  });

  test("an issue is not set beside itself", () => {
    expect(() => issuesBeside(issueOf(1), issueOf(1), making)).toThrow(/two different issues/);
  });
});
