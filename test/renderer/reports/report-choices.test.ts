// @vitest-environment jsdom
/** The choices of a report: kept for each ledger, whatever the store of the browser holds. */
import { allSectionIds } from "../../../app/report/sections.ts";
import { afterEach, expect, test } from "vitest";
import {
  askedChoices,
  choose,
  chooseCsv,
  shown,
  showIssue,
  openChoices,
  orderedSections,
  subjectShown,
  usualChoices,
  withMoved,
} from "../../../renderer/reports/report-choices.ts";

const app = { planCaseId: "baseline", compareCaseId: null };

afterEach(() => {
  localStorage.clear();
  shown.set({ path: null, choices: usualChoices, issueNumber: null, againstNumber: null, isToPrint: false });
});

test("each ledger has its own choices, and they are there again when it is opened again", () => {
  openChoices("/a.coldstock");
  choose({ paper: "letter", leftOut: ["losses"], untilAt: 1_900_000_000_000 });
  openChoices("/b.coldstock");
  expect(shown.get().choices).toEqual(usualChoices);
  choose({ massUnit: "kg" });
  openChoices("/a.coldstock");
  expect(shown.get().choices).toEqual({
    ...usualChoices,
    paper: "letter",
    leftOut: ["losses"],
    untilAt: 1_900_000_000_000,
  });
});

test.each([
  ["no JSON", "{"],
  ["another form", '{"fromAt":"yesterday","massUnit":"lb","paper":7,"leftOut":"all"}'],
  ["a section that is no more", '{"leftOut":["weather"]}'],
  ["null", "null"],
])("what is stored as %s does no harm", (_what, text) => {
  localStorage.setItem("coldstock.report /c.coldstock", text);
  openChoices("/c.coldstock");
  expect(shown.get().choices).toEqual(usualChoices);
});

test("all sections are asked for by leaving the list out, so that a new one is in; some by their order in the report", () => {
  expect(askedChoices({ choices: usualChoices }, app)?.sectionIds).toBeNull();
  const some = askedChoices({ choices: { ...usualChoices, leftOut: ["supply", "timeline"] } }, app)?.sectionIds;
  expect(some?.[0]).toBe("verdict");
  expect(some).not.toContain("supply");
  expect(askedChoices({ choices: usualChoices }, { planCaseId: null, compareCaseId: null })).toBeNull();
});

test("sections stand in the order that was chosen, which is kept; one that is not named stands last", () => {
  openChoices("/a.coldstock");
  const [first = "", second = ""] = allSectionIds;
  choose({ order: withMoved([], first, 1) });
  const asked = () => askedChoices(shown.get(), app)?.sectionIds;
  expect(asked()?.slice(0, 2)).toEqual([second, first]);
  openChoices("/b.coldstock");
  openChoices("/a.coldstock");
  expect(asked()?.slice(0, 2)).toEqual([second, first]);
  choose({ order: withMoved(shown.get().choices.order, first, -1) });
  expect(asked()).toBeNull();
  expect(withMoved([], first, -1)).toEqual(allSectionIds);
  expect(orderedSections(["weather", second, second])).toEqual([
    second,
    ...allSectionIds.filter((id) => id !== second),
  ]);
});

test("how tables are saved as CSV is kept, and leaves the report that is shown as it is", () => {
  openChoices("/a.coldstock");
  shown.set({ issueNumber: 3 });
  const csv = { hasMark: true, dates: "spreadsheet", separator: "semicolon" } as const;
  chooseCsv(csv);
  expect(shown.get().issueNumber).toBe(3);
  openChoices("/b.coldstock");
  expect(shown.get().choices.csv).toEqual(usualChoices.csv);
  openChoices("/a.coldstock");
  expect(shown.get().choices.csv).toEqual(csv);
  expect(askedChoices(shown.get(), app)).not.toHaveProperty("csv");
});

test("an issue is shown until something is chosen for the next report", () => {
  openChoices("/a.coldstock");
  shown.set({ issueNumber: 3 });
  expect(subjectShown(shown.get(), app)).toEqual({ kind: "issue", number: 3 });
  choose({ massUnit: "kg" });
  expect(subjectShown(shown.get(), app)).toMatchObject({ kind: "draft", choices: { massUnit: "kg" } });
});

test("an issue is set beside another until a third is laid there, or something is chosen", () => {
  openChoices("/a.coldstock");
  showIssue(3);
  shown.set({ againstNumber: 1 });
  expect(subjectShown(shown.get(), app)).toEqual({ kind: "beside", number: 3, against: 1 });
  showIssue(2);
  expect(subjectShown(shown.get(), app)).toEqual({ kind: "issue", number: 2 });
  shown.set({ againstNumber: 1 });
  choose({ massUnit: "kg" });
  expect(subjectShown(shown.get(), app)).toMatchObject({ kind: "draft" });
});

test("a print that was asked for while the ledger was being opened is not forgotten", () => {
  shown.set({ isToPrint: true });
  openChoices("/a.coldstock");
  expect(shown.get().isToPrint).toBe(true);
});
