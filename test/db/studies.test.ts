/** Kept studies: kept with their rows, never changed, deleted by hand, and found out where they were spoiled. */
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import { packRows } from "../../app/study/study-table.ts";
import type { StudyAnswer } from "../../app/study/study-answer.ts";
import { openLedger } from "../../db/ledger.ts";
import { day, handLedger, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
const answer: StudyAnswer = {
  planCaseId: "base",
  planCase: "Base “ä”",
  inputHash: "cd".repeat(32),
  asked: {
    name: "s",
    inputs: [{ quantity: "loss factor", values: { kind: "list", list: [1, 2] } }],
    design: { kind: "grid" },
    ask: [{ kind: "verdict" }],
  },
  inputs: [{ words: "loss factor", unit: "", today: 1 }],
  columns: [
    { name: "loss factor", unit: "" },
    { name: "verdict", unit: "" },
    { name: "breaks", unit: "" },
  ],
  points: 2,
  from: 0,
  rows: packRows(
    [
      [1, "go", 0],
      [2, "no-go", null],
    ],
    3,
  ),
  rankings: [],
};
const study = { keptAt: day(100), author: "Ada", name: "Losses", program: "1.0.0", planHash: "ab".repeat(32), answer };

test("a study is kept with its rows to the bit, and found again after reopening; numbers go on", () => {
  const store = handLedger(folder);
  expect(store.keepStudy(study)).toMatchObject({ number: 1, points: 2, planCaseId: "base", caseName: "Base “ä”" });
  store.keepStudy({ ...study, name: "Second" });
  const { path } = store.header();
  store.close();
  const again = openLedger(path);
  expect(again.studies().map(({ number, name }) => [number, name])).toEqual([
    [2, "Second"],
    [1, "Losses"],
  ]);
  expect(again.study(1).answer).toEqual(answer);
  again.deleteStudy(1);
  expect(() => again.study(1)).toThrow(/no kept study 1/);
  expect(() => again.deleteStudy(1)).toThrow(/no kept study 1/);
  again.close();
});

test("rows that were changed past the program are refused; the file itself refuses to change a study", () => {
  const store = handLedger(folder);
  store.keepStudy(study);
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  expect(() => db.prepare("UPDATE study SET points = 9").run()).toThrow(/never changed/);
  db.exec("DROP TRIGGER study_stands");
  db.prepare("UPDATE study SET answer_hash = ?").run("0".repeat(64));
  db.close();
  const spoiled = openLedger(path);
  expect(() => spoiled.study(1)).toThrow(/does not agree/);
  spoiled.close();
});
