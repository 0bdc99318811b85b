// @vitest-environment jsdom
/** The choices of a report: kept for each ledger, whatever the store of the browser holds. */
import { allSectionIds } from "../../../app/report/sections.ts";
import { afterEach, expect, test } from "vitest";
import {
  askedChoices,
  choose,
  chooseCsv,
  desk,
  layIssue,
  openChoices,
  orderedSections,
  subjectOnDesk,
  usualChoices,
  withMoved,
} from "../../../renderer/reports/report-choices.ts";

const app = { planCaseId: "baseline", compareCaseId: null };

afterEach(() => {
  localStorage.clear();
  desk.set({ path: null, choices: usualChoices, issueNumber: null, againstNumber: null, isToPrint: false });
});

test("each ledger has its own choices, and they are there again when it is opened again", () => {
  openChoices("/a.coldstock");
  choose({ paper: "letter", leftOut: ["losses"], untilAt: 1_900_000_000_000 });
  openChoices("/b.coldstock");
  expect(desk.get().choices).toEqual(usualChoices);
  choose({ massUnit: "kg" });
  openChoices("/a.coldstock");
  expect(desk.get().choices).toEqual({
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
  expect(desk.get().choices).toEqual(usualChoices);
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
  const asked = () => askedChoices(desk.get(), app)?.sectionIds;
  expect(asked()?.slice(0, 2)).toEqual([second, first]);
  openChoices("/b.coldstock");
  openChoices("/a.coldstock");
  expect(asked()?.slice(0, 2)).toEqual([second, first]);
  choose({ order: withMoved(desk.get().choices.order, first, -1) });
  expect(asked()).toBeNull();
  expect(withMoved([], first, -1)).toEqual(allSectionIds);
  expect(orderedSections(["weather", second, second])).toEqual([
    second,
    ...allSectionIds.filter((id) => id !== second),
  ]);
});

test("how tables are saved as CSV is kept, and leaves the report on the desk as it is", () => {
  openChoices("/a.coldstock");
  desk.set({ issueNumber: 3 });
  const csv = { hasMark: true, dates: "spreadsheet", separator: "semicolon" } as const;
  chooseCsv(csv);
  expect(desk.get().issueNumber).toBe(3);
  openChoices("/b.coldstock");
  expect(desk.get().choices.csv).toEqual(usualChoices.csv);
  openChoices("/a.coldstock");
  expect(desk.get().choices.csv).toEqual(csv);
  expect(askedChoices(desk.get(), app)).not.toHaveProperty("csv");
});

test("an issue lies on the desk until something is chosen for the next report", () => {
  openChoices("/a.coldstock");
  desk.set({ issueNumber: 3 });
  expect(subjectOnDesk(desk.get(), app)).toEqual({ kind: "issue", number: 3 });
  choose({ massUnit: "kg" });
  expect(subjectOnDesk(desk.get(), app)).toMatchObject({ kind: "draft", choices: { massUnit: "kg" } });
});

test("an issue is set beside another until a third is laid there, or something is chosen", () => {
  openChoices("/a.coldstock");
  layIssue(3);
  desk.set({ againstNumber: 1 });
  expect(subjectOnDesk(desk.get(), app)).toEqual({ kind: "beside", number: 3, against: 1 });
  layIssue(2);
  expect(subjectOnDesk(desk.get(), app)).toEqual({ kind: "issue", number: 2 });
  desk.set({ againstNumber: 1 });
  choose({ massUnit: "kg" });
  expect(subjectOnDesk(desk.get(), app)).toMatchObject({ kind: "draft" });
});

test("a print that was asked for while the ledger was being opened is not forgotten", () => {
  desk.set({ isToPrint: true });
  openChoices("/a.coldstock");
  expect(desk.get().isToPrint).toBe(true);
});
