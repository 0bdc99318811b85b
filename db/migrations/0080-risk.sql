-- How uncertain a plan case is, and the runs that were kept of it. Shipped: never edit.

CREATE TABLE risk_input (
  id TEXT PRIMARY KEY,
  plan_case_id TEXT NOT NULL REFERENCES plan_case DEFERRABLE INITIALLY DEFERRED,
  uncertainty TEXT NOT NULL CHECK (json_type(uncertainty) = 'object'),
  -- Where the numbers come from; null: assumed.
  source TEXT,
  note TEXT NOT NULL,
  craft_class_id TEXT AS (uncertainty ->> '$.of.craftClassId') REFERENCES craft_class (id) DEFERRABLE INITIALLY DEFERRED,
  flight_id TEXT AS (uncertainty ->> '$.of.flightId') REFERENCES flight (id) DEFERRABLE INITIALLY DEFERRED,
  sortie_id TEXT AS (uncertainty ->> '$.of.sortieId') REFERENCES sortie (id) DEFERRABLE INITIALLY DEFERRED,
  tank_id TEXT AS (uncertainty ->> '$.of.tankId') REFERENCES tank (id) DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;
CREATE INDEX risk_input_by_case ON risk_input (plan_case_id);
CREATE INDEX risk_input_by_craft_class ON risk_input (craft_class_id);
CREATE INDEX risk_input_by_flight ON risk_input (flight_id);
CREATE INDEX risk_input_by_sortie ON risk_input (sortie_id);
CREATE INDEX risk_input_by_tank ON risk_input (tank_id);

-- A run is a fact about one state of the plan: seed, hash of its inputs and answer say what it was. No edit changes it.
CREATE TABLE risk_run (
  number INTEGER PRIMARY KEY CHECK (number >= 1),
  run_at INTEGER NOT NULL,
  author TEXT NOT NULL,
  -- No reference: the plan case may be removed, its runs stay until they are deleted.
  plan_case_id TEXT NOT NULL,
  case_name TEXT NOT NULL,
  seed INTEGER NOT NULL,
  replications INTEGER NOT NULL CHECK (replications > 0),
  kernel_version INTEGER NOT NULL,
  -- SHA-256, hexadecimal, of the plan, the recorded state and the inputs.
  input_hash TEXT NOT NULL CHECK (length(input_hash) = 64),
  -- SHA-256, hexadecimal, of the answer's text: a replay must give it again.
  answer_hash TEXT NOT NULL CHECK (length(answer_hash) = 64),
  -- The answer as JSON, gzip.
  answer BLOB NOT NULL
) STRICT;
CREATE INDEX risk_run_by_case ON risk_run (plan_case_id, number);

CREATE TRIGGER risk_run_stands BEFORE UPDATE ON risk_run
BEGIN
  SELECT RAISE(ABORT, 'a kept run is never changed');
END;
