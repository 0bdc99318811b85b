/** Kept runs of the risk: kept with their answers, never changed, deleted by hand; and when flights were first planned. */
import Sqlite from "better-sqlite3";
import { expect, test } from "vitest";
import type { RiskAnswer } from "../../app/risk/answer.ts";
import { openLedger } from "../../db/ledger.ts";
import { day, handLedger, temporaryFolder } from "../app/records/hand-ledger.ts";

const folder = temporaryFolder();
const answer = {
  planCaseId: "base",
  seed: 4_294_967_295,
  inputHash: "ab".repeat(32),
  kernelVersion: 1,
  replications: 4096,
  remarks: ["ä “b” 𝄞"],
} as unknown as RiskAnswer;
const run = { runAt: day(100), author: "Ada", caseName: "Base", answer };

test("a run is kept with its answer and found again after reopening; numbers go on", () => {
  const store = handLedger(folder);
  const kept = store.keepRiskRun(run);
  expect(kept).toMatchObject({ number: 1, seed: 4_294_967_295, replications: 4096, planCaseId: "base", author: "Ada" });
  store.keepRiskRun({ ...run, answer: { ...answer, seed: 2 } });
  const { path } = store.header();
  store.close();
  const again = openLedger(path);
  expect(again.riskRuns().map(({ number, seed }) => [number, seed])).toEqual([
    [2, 2],
    [1, 4_294_967_295],
  ]);
  expect(again.riskRun(1).answer).toEqual(answer);
  again.deleteRiskRun(1);
  expect(() => again.riskRun(1)).toThrow(/no kept run 1/);
  expect(() => again.deleteRiskRun(1)).toThrow(/no kept run 1/);
  again.close();
});

test("an answer that was changed past the program is refused; the file itself refuses to change a run", () => {
  const store = handLedger(folder);
  store.keepRiskRun(run);
  const { path } = store.header();
  store.close();
  const db = new Sqlite(path);
  expect(() => db.prepare("UPDATE risk_run SET seed = 9").run()).toThrow(/never changed/);
  db.exec("DROP TRIGGER risk_run_stands");
  db.prepare("UPDATE risk_run SET answer_hash = ?").run("0".repeat(64));
  db.close();
  const spoiled = openLedger(path);
  expect(() => spoiled.riskRun(1)).toThrow(/does not agree/);
  spoiled.close();
});

test("the first word on a flight's departure stands, whatever it was moved to since; undone steps say nothing", () => {
  const store = handLedger(folder);
  const flight = store.entities().flight.find(({ status }) => status === "planned");
  if (flight === undefined) throw new Error("the hand ledger has no planned flight");
  const put = (value: typeof flight) =>
    store.commit({
      label: "Move",
      reason: "",
      author: "Ada",
      recordedAt: day(0),
      changes: [{ op: "put", kind: "flight", value }],
      entries: [],
      readings: [],
      withdrawnReadingIds: [],
      reversedEntryIds: [],
    });
  for (const later of [5000, 9000])
    put({ ...flight, departAt: flight.departAt + later, arriveAt: flight.arriveAt + later });
  expect(store.firstPlannedDepartures().get(flight.key)).toBe(flight.departAt);
  put({ ...flight, id: "fresh", key: "fresh", name: "Fresh" });
  expect(store.firstPlannedDepartures().get("fresh")).toBe(flight.departAt);
  store.undo("Ada", day(0));
  expect(store.firstPlannedDepartures().has("fresh")).toBe(false);
  store.close();
});
