/** Kept runs of the risk in the file: written once, hashed, never changed, deleted only by hand. */
import { createHash } from "node:crypto";
import { gunzipSync, gzipSync } from "node:zlib";
import { PlanningError } from "../app/ground/failure.ts";
import type { RiskAnswer } from "../app/risk/answer.ts";
import { type KeptRun, type NewRun, answerText } from "../app/risk/kept-run.ts";
import type { Connection } from "./connection.ts";

/** The most that one answer may unpack to, bytes: what unpacks to more was not written by this program. */
const MAX_ANSWER = 256_000_000;

interface RunRow {
  readonly number: number;
  readonly run_at: number;
  readonly author: string;
  readonly plan_case_id: string;
  readonly case_name: string;
  readonly seed: number;
  readonly replications: number;
  readonly kernel_version: number;
  readonly input_hash: string;
  readonly answer_hash: string;
}

const HEAD =
  "number, run_at, author, plan_case_id, case_name, seed, replications, kernel_version, input_hash, answer_hash";

const runOf = (row: RunRow): KeptRun => ({
  number: row.number,
  runAt: row.run_at,
  author: row.author,
  planCaseId: row.plan_case_id,
  caseName: row.case_name,
  seed: row.seed,
  replications: row.replications,
  kernelVersion: row.kernel_version,
  inputHash: row.input_hash,
  answerHash: row.answer_hash,
});

const hashOf = (text: string): string => createHash("sha256").update(text).digest("hex");

/** All kept runs without their answers, the newest first. */
export const readRuns = (db: Connection): readonly KeptRun[] =>
  (db.prepared(`SELECT ${HEAD} FROM risk_run ORDER BY number DESC`).all() as RunRow[]).map(runOf);

/** One with its answer. Throws "not found"; "refused" if the answer is not what was kept. */
export const readRun = (db: Connection, number: number): KeptRun & { readonly answer: RiskAnswer } => {
  const row = db.prepared(`SELECT ${HEAD} FROM risk_run WHERE number = ?`).get(number) as RunRow | undefined;
  const packed = db.prepared("SELECT answer FROM risk_run WHERE number = ?").pluck().get(number) as Buffer | undefined;
  if (row === undefined || packed === undefined)
    throw new PlanningError("not found", `There is no kept run ${number} in this ledger.`, "number");
  let text: string;
  try {
    text = gunzipSync(packed, { maxOutputLength: MAX_ANSWER }).toString("utf8");
  } catch {
    throw new PlanningError("refused", `The kept run ${number} is damaged: its answer cannot be unpacked.`, "number");
  }
  if (hashOf(text) !== row.answer_hash)
    throw new PlanningError(
      "refused",
      `The kept run ${number} is not what was kept: its hash does not agree with its answer.`,
      "number",
    );
  return { ...runOf(row), answer: JSON.parse(text) as RiskAnswer };
};

/** Keeps a run under the next number. */
export const keepRun = (db: Connection, { runAt, author, caseName, answer }: NewRun): KeptRun => {
  const text = answerText(answer);
  const number = 1 + (db.prepared("SELECT coalesce(max(number), 0) FROM risk_run").pluck().get() as number);
  const { planCaseId, seed, replications, kernelVersion, inputHash } = answer;
  db.write(() => {
    db.prepared(`INSERT INTO risk_run (${HEAD}, answer) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`).run(
      number,
      runAt,
      author,
      planCaseId,
      caseName,
      seed,
      replications,
      kernelVersion,
      inputHash,
      hashOf(text),
      gzipSync(text, { level: 9 }),
    );
  });
  return readRun(db, number);
};

/** Deletes a kept run. Throws "not found". */
export const deleteRun = (db: Connection, number: number): void => {
  db.write(() => {
    const { changes } = db.prepared("DELETE FROM risk_run WHERE number = ?").run(number);
    if (changes === 0) throw new PlanningError("not found", `There is no kept run ${number} in this ledger.`, "number");
  });
};
