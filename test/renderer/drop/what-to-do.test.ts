/** What a dropped file leads to. */
import { expect, it } from "vitest";
import type { LedgerInfo } from "../../../app/ledger/ledger-view.ts";
import { hoverWords, whatToDo } from "../../../renderer/drop/what-to-do.ts";
import { smallPlan } from "../timeline/small-plan.ts";

const open: LedgerInfo = {
  programme: "Ridge",
  fileName: "ridge.coldstock",
  path: "/ridge.coldstock",
  isDemonstration: false,
  readOnlyBecause: null,
  schemaVersion: 1,
  revision: 1,
  asOfAt: 0,
  isAsOfPinned: false,
  undoLabel: null,
  redoLabel: null,
  planCases: [smallPlan().planCase],
};
const readOnly: LedgerInfo = { ...open, readOnlyBecause: "it is open in process 7" };

it.each([
  ["north.coldstock", open, ["open", "merge"]],
  ["NORTH.COLDSTOCK", null, ["open"]],
  ["north.json", open, ["import", "merge"]],
  ["north.json", readOnly, ["import"]],
  ["flights.csv", open, ["rows"]],
] as const)("%s", (name, ledger, choices) => expect(whatToDo([name], ledger)).toEqual({ kind: "choices", choices }));

it.each([
  [["report.pdf"], open, /report\.pdf is a \.pdf file, which is not read here\. Drop a ledger/],
  [["coldstock"], open, /coldstock has no ending that says what it is\. Drop a ledger/],
  [["stock.xls"], open, /stock\.xls is a spreadsheet in a form that is not read here\. Save it as \.xlsx or \.csv/],
  [["a.csv", "b.csv"], open, /2 files.*Drop one at a time/],
  [[], open, /That is not a file/],
  [["flights.csv"], null, /no ledger is open/],
  [["flights.csv"], readOnly, /read-only: it is open in process 7/],
  [["flights.csv"], { ...open, planCases: [] }, /no plan case yet/],
] as const)("refuses %j in words", (names, ledger, words) =>
  expect(whatToDo(names, ledger)).toEqual({ kind: "refused", words: expect.stringMatching(words) as string }),
);

it("says while a file is held what will happen, as far as its type tells", () => {
  expect(hoverWords(["text/csv"], open)).toMatch(/rows are shown before any of them goes into Ridge/);
  expect(hoverWords(["text/calendar"], open)).toBe(hoverWords(["text/csv"], open));
  expect(hoverWords(["application/json"], open)).toMatch(/import it as a new one, or merge its records into Ridge/);
  expect(hoverWords([""], open)).toMatch(/^A ledger: open it, or merge its records into Ridge/);
  expect(hoverWords([""], null)).toMatch(/^Drop a ledger/);
  expect(hoverWords(["", ""], open)).toMatch(/2 files.*Drop one at a time/);
});
