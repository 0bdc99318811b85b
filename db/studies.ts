/** Kept studies in the file: written once, hashed, never changed, deleted only by hand. */
import { createHash } from "node:crypto";
import { gunzipSync, gzipSync } from "node:zlib";
import { fromTypedJson, toTypedJson } from "../app/contract/typed-json.ts";
import { PlanningError } from "../app/ground/failure.ts";
import type { KeptStudy, NewStudy } from "../app/study/kept-study.ts";
import type { StudyAnswer } from "../app/study/study-answer.ts";
import type { Connection } from "./connection.ts";

/** The most that one answer may unpack to, bytes: what unpacks to more was not written by this program. */
const MAX_ANSWER = 256_000_000;

interface StudyRow {
  readonly number: number;
  readonly kept_at: number;
  readonly author: string;
  readonly plan_case_id: string;
  readonly case_name: string;
  readonly name: string;
  readonly points: number;
  readonly program: string;
  readonly plan_hash: string;
  readonly answer_hash: string;
}

const HEAD = "number, kept_at, author, plan_case_id, case_name, name, points, program, plan_hash, answer_hash";

const studyOf = (row: StudyRow): KeptStudy => ({
  number: row.number,
  keptAt: row.kept_at,
  author: row.author,
  planCaseId: row.plan_case_id,
  caseName: row.case_name,
  name: row.name,
  points: row.points,
  program: row.program,
  planHash: row.plan_hash,
  answerHash: row.answer_hash,
});

const hashOf = (text: string): string => createHash("sha256").update(text).digest("hex");

const refuse = (number: number, why: string): never => {
  throw new PlanningError("refused", `The kept study ${number} ${why}`, "number");
};

/** All kept studies without their rows, the newest first. */
export const readStudies = (db: Connection): readonly KeptStudy[] =>
  (db.prepared(`SELECT ${HEAD} FROM study ORDER BY number DESC`).all() as StudyRow[]).map(studyOf);

/** One with its rows. Throws "not found"; "refused" if they are not what was kept. */
export const readStudy = (db: Connection, number: number): KeptStudy & { readonly answer: StudyAnswer } => {
  const row = db.prepared(`SELECT ${HEAD} FROM study WHERE number = ?`).get(number) as StudyRow | undefined;
  const packed = db.prepared("SELECT answer FROM study WHERE number = ?").pluck().get(number) as Buffer | undefined;
  if (row === undefined || packed === undefined)
    throw new PlanningError("not found", `There is no kept study ${number} in this ledger.`, "number");
  let text = "";
  try {
    text = gunzipSync(packed, { maxOutputLength: MAX_ANSWER }).toString("utf8");
  } catch {
    refuse(number, "is damaged: its rows cannot be unpacked.");
  }
  if (hashOf(text) !== row.answer_hash) refuse(number, "is not what was kept: its hash does not agree with its rows.");
  return { ...studyOf(row), answer: fromTypedJson(text) as StudyAnswer };
};

/** Keeps a study under the next number. */
export const keepStudy = (db: Connection, study: NewStudy): KeptStudy => {
  const { keptAt, author, name, program, planHash, answer } = study;
  const text = toTypedJson(answer);
  const answerHash = hashOf(text);
  const number = 1 + (db.prepared("SELECT coalesce(max(number), 0) FROM study").pluck().get() as number);
  const { planCaseId, planCase: caseName, points } = answer;
  db.write(() => {
    db.prepared(`INSERT INTO study (${HEAD}, answer) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`).run(
      number,
      keptAt,
      author,
      planCaseId,
      caseName,
      name,
      points,
      program,
      planHash,
      answerHash,
      gzipSync(text),
    );
  });
  return { number, keptAt, author, planCaseId, caseName, name, points, program, planHash, answerHash };
};

/** Deletes a kept study. Throws "not found". */
export const deleteStudy = (db: Connection, number: number): void => {
  db.write(() => {
    const { changes } = db.prepared("DELETE FROM study WHERE number = ?").run(number);
    if (changes === 0)
      throw new PlanningError("not found", `There is no kept study ${number} in this ledger.`, "number");
  });
};
