-- Studies that were kept of a plan case: the same as kept runs of the risk, with rows in the place of an answer. Shipped:
-- never edit.

CREATE TABLE study (
  number INTEGER PRIMARY KEY CHECK (number >= 1),
  kept_at INTEGER NOT NULL,
  author TEXT NOT NULL,
  -- No reference: the plan case may be removed, its studies stay until they are deleted.
  plan_case_id TEXT NOT NULL,
  case_name TEXT NOT NULL,
  name TEXT NOT NULL,
  points INTEGER NOT NULL CHECK (points > 0),
  -- Version of the program that computed it.
  program TEXT NOT NULL,
  -- SHA-256, hexadecimal, of the plan and the readings.
  plan_hash TEXT NOT NULL CHECK (length(plan_hash) = 64),
  -- SHA-256, hexadecimal, of the answer's text.
  answer_hash TEXT NOT NULL CHECK (length(answer_hash) = 64),
  -- Question, columns and rows as JSON, gzip.
  answer BLOB NOT NULL
) STRICT;
CREATE INDEX study_by_case ON study (plan_case_id, number);

CREATE TRIGGER study_stands BEFORE UPDATE ON study
BEGIN
  SELECT RAISE(ABORT, 'a kept study is never changed');
END;
