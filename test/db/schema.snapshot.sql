CREATE INDEX campaign_by_case ON campaign (plan_case_id, key);

CREATE INDEX craft_by_class ON craft (class_id);

CREATE INDEX edit_step_by_state ON edit_step (state, id);

CREATE INDEX entry_by_instant ON entry (at, no);

CREATE INDEX entry_by_subject ON entry (subject_key, at) WHERE subject_key IS NOT NULL;

CREATE INDEX entry_in_force ON entry (at) WHERE state = 'in force';

CREATE INDEX entry_metered ON entry (at) WHERE since_at IS NOT NULL;

CREATE INDEX entry_open ON entry (unsealed_no) WHERE unsealed_no IS NOT NULL;

CREATE INDEX entry_written_again ON entry (rewrites_no) WHERE rewrites_no IS NOT NULL;

CREATE INDEX flight_by_case ON flight (plan_case_id, key);

CREATE INDEX flight_by_craft ON flight (craft_id);

CREATE INDEX flight_by_depot ON flight (depot_id);

CREATE INDEX flight_by_origin_depot ON flight (origin_depot_id);

CREATE INDEX flight_by_origin_source ON flight (origin_source_id);

CREATE INDEX loss_period_by_case ON loss_period (plan_case_id);

CREATE INDEX loss_period_by_tank ON loss_period (tank_id);

CREATE INDEX posting_by_account ON posting (account_no, at, entry_no, grams);

CREATE INDEX posting_stating ON posting (account_no, at, entry_no) WHERE is_stating = 1;

CREATE INDEX profile_by_class ON profile (class_id);

CREATE INDEX reading_by_tank ON reading (tank_id, at);

CREATE INDEX reading_in_force ON reading (at) WHERE is_withdrawn = 0;

CREATE INDEX risk_input_by_case ON risk_input (plan_case_id);

CREATE INDEX risk_input_by_craft_class ON risk_input (craft_class_id);

CREATE INDEX risk_input_by_flight ON risk_input (flight_id);

CREATE INDEX risk_input_by_sortie ON risk_input (sortie_id);

CREATE INDEX risk_input_by_tank ON risk_input (tank_id);

CREATE INDEX risk_run_by_case ON risk_run (plan_case_id, number);

CREATE INDEX sortie_by_campaign ON sortie (campaign_id);

CREATE INDEX sortie_by_case ON sortie (plan_case_id, key);

CREATE INDEX sortie_by_depot ON sortie (depot_id);

CREATE INDEX sortie_by_lander ON sortie (lander_id);

CREATE INDEX sortie_by_profile ON sortie (profile_id);

CREATE INDEX study_by_case ON study (plan_case_id, number);

CREATE INDEX tank_by_craft ON tank (craft_id);

CREATE INDEX tank_by_depot ON tank (depot_id);

CREATE INDEX tank_by_owner ON tank (owner_id);

CREATE INDEX tank_by_propellant ON tank (propellant_id);

CREATE TABLE account (
  no INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  owner_id TEXT NOT NULL,
  propellant_id TEXT NOT NULL,
  balance_grams INTEGER NOT NULL DEFAULT 0,
  UNIQUE (kind, owner_id, propellant_id)
) STRICT;

CREATE TABLE campaign (
  id TEXT PRIMARY KEY,
  plan_case_id TEXT NOT NULL REFERENCES plan_case DEFERRABLE INITIALLY DEFERRED,
  key TEXT NOT NULL,
  name TEXT NOT NULL,
  goal TEXT NOT NULL,
  hold_limit_days REAL NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE column_mapping (
  kind TEXT NOT NULL CHECK (kind IN ('flights', 'sorties', 'readings')),
  -- The headings of the table in their order, as a JSON list of texts.
  headings TEXT NOT NULL CHECK (json_type(headings) = 'array'),
  mapping TEXT NOT NULL CHECK (json_type(mapping) = 'object'),
  -- When it was last used; the oldest are forgotten.
  used_at INTEGER NOT NULL,
  PRIMARY KEY (kind, headings)
) STRICT, WITHOUT ROWID;

CREATE TABLE craft (
  id TEXT PRIMARY KEY,
  class_id TEXT NOT NULL REFERENCES craft_class DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  note TEXT NOT NULL
, engine_changes TEXT NOT NULL DEFAULT '[]' CHECK (json_type(engine_changes) = 'array')) STRICT, WITHOUT ROWID;

CREATE TABLE craft_class (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('tanker', 'lander')),
  propellants TEXT NOT NULL CHECK (json_type(propellants) = 'array'),
  trip_days REAL NOT NULL,
  berth_days REAL NOT NULL,
  note TEXT NOT NULL
, lander TEXT CHECK (lander IS NULL OR json_type(lander) = 'object'), turnaround_days REAL NOT NULL DEFAULT 0 CHECK (turnaround_days >= 0), cost_per_flight REAL CHECK (cost_per_flight IS NULL OR cost_per_flight >= 0), cost_unit TEXT NOT NULL DEFAULT '', hardware_kg REAL CHECK (hardware_kg IS NULL OR hardware_kg >= 0)) STRICT, WITHOUT ROWID;

CREATE TABLE depot (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  orbit TEXT NOT NULL,
  window_period_days REAL,
  window_reference_at INTEGER,
  ports INTEGER NOT NULL CHECK (ports >= 0),
  note TEXT NOT NULL, window_list TEXT CHECK (window_list IS NULL OR json_type(window_list) = 'object'), lunar_orbit TEXT CHECK (lunar_orbit IS NULL OR json_type(lunar_orbit) = 'object'),
  CHECK ((window_period_days IS NULL) = (window_reference_at IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE edit_change (
  step_id INTEGER NOT NULL REFERENCES edit_step,
  line INTEGER NOT NULL,
  kind TEXT NOT NULL,
  row_id TEXT NOT NULL,
  before TEXT CHECK (before IS NULL OR json_valid(before)),
  after TEXT CHECK (after IS NULL OR json_valid(after)),
  PRIMARY KEY (step_id, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE edit_entry (
  step_id INTEGER NOT NULL REFERENCES edit_step,
  line INTEGER NOT NULL,
  -- The first writing of the entry.
  entry_no INTEGER NOT NULL REFERENCES entry,
  effect TEXT NOT NULL CHECK (effect IN ('written', 'taken back')),
  PRIMARY KEY (step_id, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE edit_step (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  at INTEGER NOT NULL,
  author TEXT NOT NULL,
  label TEXT NOT NULL,
  reason TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'replaced')),
  -- Who undid or redid it last, and when.
  turned_by TEXT,
  turned_at INTEGER
, digest BLOB CHECK (digest IS NULL OR length(digest) = 32)) STRICT;

CREATE TABLE entry (
  no INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  at INTEGER NOT NULL,
  kind TEXT NOT NULL,
  subject_key TEXT,
  reverses_no INTEGER UNIQUE REFERENCES entry,
  -- The entry that this one writes again, after an undo.
  rewrites_no INTEGER REFERENCES entry,
  note TEXT NOT NULL,
  author TEXT NOT NULL,
  recorded_at INTEGER NOT NULL,
  -- open: its postings are being written; in force; taken back: a counter-entry stands against it; counter: such an entry.
  state TEXT NOT NULL CHECK (state IN ('open', 'in force', 'taken back', 'counter')),
  unsealed_no INTEGER REFERENCES unsealed DEFERRABLE INITIALLY DEFERRED, since_at INTEGER CHECK (since_at IS NULL OR since_at < at),
  CHECK ((state = 'open') = (unsealed_no IS NOT NULL)),
  CHECK ((kind = 'reversal') = (reverses_no IS NOT NULL))
) STRICT;

CREATE TABLE entry_digest (
  entry_no INTEGER PRIMARY KEY REFERENCES entry,
  digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;

CREATE TABLE flight (
  id TEXT PRIMARY KEY,
  plan_case_id TEXT NOT NULL REFERENCES plan_case DEFERRABLE INITIALLY DEFERRED,
  key TEXT NOT NULL,
  name TEXT NOT NULL,
  craft_id TEXT NOT NULL REFERENCES craft DEFERRABLE INITIALLY DEFERRED,
  origin TEXT NOT NULL CHECK (json_type(origin) = 'object'),
  depot_id TEXT NOT NULL REFERENCES depot DEFERRABLE INITIALLY DEFERRED,
  depart_at INTEGER NOT NULL,
  arrive_at INTEGER NOT NULL,
  berth_days REAL NOT NULL,
  loads TEXT NOT NULL CHECK (json_type(loads) = 'array'),
  overflow TEXT NOT NULL,
  status TEXT NOT NULL,
  note TEXT NOT NULL,
  origin_source_id TEXT AS (origin ->> '$.sourceId') REFERENCES source (id) DEFERRABLE INITIALLY DEFERRED,
  origin_depot_id TEXT AS (origin ->> '$.depotId') REFERENCES depot (id) DEFERRABLE INITIALLY DEFERRED, lost_at INTEGER,
  CHECK (arrive_at >= depart_at)
) STRICT, WITHOUT ROWID;

CREATE TABLE ledger (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  programme TEXT NOT NULL CHECK (length(programme) BETWEEN 1 AND 80),
  is_demonstration INTEGER NOT NULL CHECK (is_demonstration IN (0, 1)),
  as_of_at INTEGER,
  revision INTEGER NOT NULL CHECK (revision >= 0)
, rows_digest BLOB CHECK (rows_digest IS NULL OR length(rows_digest) = 32)) STRICT;

CREATE TABLE log_mark (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  mark TEXT NOT NULL,
  -- Raised with every log that begins, so that each has this row.
  logs INTEGER NOT NULL
) STRICT;

CREATE TABLE loss_period (
  id TEXT PRIMARY KEY,
  tank_id TEXT NOT NULL REFERENCES tank DEFERRABLE INITIALLY DEFERRED,
  plan_case_id TEXT REFERENCES plan_case DEFERRABLE INITIALLY DEFERRED,
  from_at INTEGER,
  until_at INTEGER,
  basis TEXT NOT NULL CHECK (json_type(basis) = 'object'),
  reason TEXT NOT NULL,
  note TEXT NOT NULL,
  CHECK (from_at IS NULL OR until_at IS NULL OR from_at < until_at)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_case (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  based_on_id TEXT,
  short_policy TEXT NOT NULL,
  horizon_at INTEGER NOT NULL,
  position INTEGER NOT NULL,
  note TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE posting (
  entry_no INTEGER NOT NULL REFERENCES entry,
  line INTEGER NOT NULL,
  account_no INTEGER NOT NULL REFERENCES account,
  grams INTEGER NOT NULL,
  -- The entry's instant, for the index.
  at INTEGER NOT NULL,
  -- Whether the entry states the level of the tank (opening, reading, closing).
  is_stating INTEGER NOT NULL CHECK (is_stating IN (0, 1)),
  PRIMARY KEY (entry_no, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE profile (
  id TEXT PRIMARY KEY,
  class_id TEXT NOT NULL REFERENCES craft_class DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  steps TEXT NOT NULL CHECK (json_type(steps) = 'array'),
  reserve TEXT NOT NULL CHECK (json_type(reserve) = 'object'),
  note TEXT NOT NULL
, landing TEXT CHECK (landing IS NULL OR json_type(landing) = 'object')) STRICT, WITHOUT ROWID;

CREATE TABLE propellant (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  symbol TEXT NOT NULL,
  fluid TEXT,
  density_kg_per_m3 REAL NOT NULL CHECK (density_kg_per_m3 > 0),
  position INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE reading (
  id TEXT PRIMARY KEY,
  tank_id TEXT NOT NULL REFERENCES tank DEFERRABLE INITIALLY DEFERRED,
  at INTEGER NOT NULL,
  mass_kg REAL NOT NULL CHECK (mass_kg >= 0),
  sigma_kg REAL NOT NULL CHECK (sigma_kg > 0),
  -- As first written; after an undo and redo the entry in force is the one that writes it again.
  entry_id TEXT,
  is_withdrawn INTEGER NOT NULL CHECK (is_withdrawn IN (0, 1)),
  note TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE report_issue (
  number INTEGER PRIMARY KEY CHECK (number >= 1),
  issued_at INTEGER NOT NULL,
  author TEXT NOT NULL CHECK (length(author) BETWEEN 1 AND 80),
  note TEXT NOT NULL,
  -- No reference: the plan case may be removed, its issues stay.
  plan_case_id TEXT NOT NULL,
  case_name TEXT NOT NULL,
  choices TEXT NOT NULL CHECK (json_type(choices) = 'object'),
  -- SHA-256, hexadecimal, of the plan, the records and the choices that the report was made from.
  input_hash TEXT NOT NULL CHECK (length(input_hash) = 64),
  -- The finished report as JSON, gzip: it prints the same whatever becomes of the plan.
  content BLOB NOT NULL,
  -- SHA-256, hexadecimal, of all the above, the content unpacked.
  seal TEXT NOT NULL CHECK (length(seal) = 64),
  -- The newest step of the edit history that the report knows; 0: the issue came in with a document.
  last_step_id INTEGER NOT NULL CHECK (last_step_id >= 0)
) STRICT;

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

CREATE TABLE sortie (
  id TEXT PRIMARY KEY,
  plan_case_id TEXT NOT NULL REFERENCES plan_case DEFERRABLE INITIALLY DEFERRED,
  key TEXT NOT NULL,
  campaign_id TEXT NOT NULL REFERENCES campaign DEFERRABLE INITIALLY DEFERRED,
  lander_id TEXT NOT NULL REFERENCES craft DEFERRABLE INITIALLY DEFERRED,
  depot_id TEXT NOT NULL REFERENCES depot DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  load_at INTEGER NOT NULL,
  return_at INTEGER NOT NULL,
  demand TEXT NOT NULL CHECK (json_type(demand) = 'object'),
  status TEXT NOT NULL,
  note TEXT NOT NULL, profile_id TEXT AS (demand ->> '$.profileId') REFERENCES profile (id) DEFERRABLE INITIALLY DEFERRED, stood_down_at INTEGER,
  CHECK (return_at >= load_at)
) STRICT, WITHOUT ROWID;

CREATE TABLE source (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  kind TEXT NOT NULL,
  note TEXT NOT NULL
, plant TEXT CHECK (plant IS NULL OR json_type(plant) = 'object')) STRICT, WITHOUT ROWID;

CREATE TABLE sqlite_sequence(name,seq);

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

CREATE TABLE tank (
  id TEXT PRIMARY KEY,
  owner_kind TEXT NOT NULL CHECK (owner_kind IN ('depot', 'craft')),
  owner_id TEXT NOT NULL,
  propellant_id TEXT NOT NULL REFERENCES propellant DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  volume_m3 REAL,
  ullage_percent REAL NOT NULL,
  maximum_fill_kg REAL NOT NULL CHECK (maximum_fill_kg >= 0),
  heel_kg REAL NOT NULL CHECK (heel_kg >= 0),
  reserve_kg REAL NOT NULL CHECK (reserve_kg >= 0),
  rank INTEGER,
  depot_id TEXT AS (CASE owner_kind WHEN 'depot' THEN owner_id END) REFERENCES depot (id) DEFERRABLE INITIALLY DEFERRED,
  craft_id TEXT AS (CASE owner_kind WHEN 'craft' THEN owner_id END) REFERENCES craft (id) DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE unsealed (entry_no INTEGER PRIMARY KEY, CHECK (0)) STRICT;

CREATE TRIGGER account_is_kept BEFORE DELETE ON account
BEGIN
  SELECT RAISE(ABORT, 'an account is never deleted');
END;

CREATE TRIGGER account_starts_empty BEFORE INSERT ON account
WHEN NEW.balance_grams <> 0
  OR EXISTS (SELECT 1 FROM account a WHERE a.no = NEW.no OR (a.kind = NEW.kind AND a.owner_id = NEW.owner_id AND a.propellant_id = NEW.propellant_id))
  OR (NEW.kind = 'tank' AND EXISTS (SELECT 1 FROM tank t WHERE t.id = NEW.owner_id AND t.propellant_id <> NEW.propellant_id))
BEGIN
  SELECT RAISE(ABORT, 'an account is new, starts empty, and is for the propellant that its tank holds');
END;

CREATE TRIGGER account_stays_what_it_is BEFORE UPDATE ON account
WHEN NEW.no <> OLD.no OR NEW.kind <> OLD.kind OR NEW.owner_id <> OLD.owner_id OR NEW.propellant_id <> OLD.propellant_id
BEGIN
  SELECT RAISE(ABORT, 'an account stays what it is');
END;

CREATE TRIGGER counter_entry_mirrors BEFORE UPDATE OF state ON entry
WHEN OLD.state = 'open' AND OLD.reverses_no IS NOT NULL AND EXISTS (
  SELECT 1 FROM posting p WHERE p.entry_no IN (OLD.no, OLD.reverses_no) GROUP BY p.account_no HAVING sum(p.grams) <> 0)
BEGIN
  SELECT RAISE(ABORT, 'a counter-entry takes back exactly what the entry wrote');
END;

CREATE TRIGGER counter_entry_takes_back AFTER UPDATE OF state ON entry
WHEN OLD.state = 'open' AND NEW.state = 'counter'
BEGIN
  UPDATE entry SET state = 'taken back' WHERE no = NEW.reverses_no;
END;

CREATE TRIGGER entry_balances BEFORE UPDATE OF state ON entry
WHEN OLD.state = 'open' AND (
  (SELECT count(*) FROM posting p WHERE p.entry_no = OLD.no) < 2
  OR EXISTS (
    SELECT 1 FROM posting p JOIN account a ON a.no = p.account_no
    WHERE p.entry_no = OLD.no GROUP BY a.propellant_id HAVING sum(p.grams) <> 0))
BEGIN
  SELECT RAISE(ABORT, 'an entry has two or more postings that sum to zero for each propellant');
END;

CREATE TRIGGER entry_begins_open BEFORE INSERT ON entry
WHEN NEW.state <> 'open' OR EXISTS (SELECT 1 FROM entry e WHERE e.no = NEW.no OR e.id = NEW.id)
BEGIN
  SELECT RAISE(ABORT, 'an entry begins open, under a new id');
END;

CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
BEGIN
  SELECT RAISE(ABORT, 'the journal is append-only: an entry is never deleted');
END;

CREATE TRIGGER entry_stands BEFORE UPDATE ON entry
WHEN NEW.no IS NOT OLD.no OR NEW.id IS NOT OLD.id OR NEW.at IS NOT OLD.at OR NEW.kind IS NOT OLD.kind
  OR NEW.subject_key IS NOT OLD.subject_key OR NEW.reverses_no IS NOT OLD.reverses_no
  OR NEW.rewrites_no IS NOT OLD.rewrites_no OR NEW.note IS NOT OLD.note OR NEW.author IS NOT OLD.author
  OR NEW.recorded_at IS NOT OLD.recorded_at OR NEW.since_at IS NOT OLD.since_at
  OR NOT (
    (OLD.state = 'open' AND NEW.state = 'in force' AND OLD.reverses_no IS NULL)
    OR (OLD.state = 'open' AND NEW.state = 'counter' AND OLD.reverses_no IS NOT NULL)
    OR (OLD.state = 'in force' AND NEW.state = 'taken back'
        AND EXISTS (SELECT 1 FROM entry c WHERE c.reverses_no = OLD.no AND c.state = 'counter'))
  )
BEGIN
  SELECT RAISE(ABORT, 'the journal is append-only: an entry is never changed');
END;

CREATE TRIGGER entry_takes_back_one_in_force BEFORE INSERT ON entry
WHEN NEW.reverses_no IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM entry e WHERE e.no = NEW.reverses_no AND e.state = 'in force' AND e.at = NEW.at)
BEGIN
  SELECT RAISE(ABORT, 'only an entry in force can be taken back, at its own instant');
END;

CREATE TRIGGER owner_with_records_is_kept_craft BEFORE DELETE ON craft
WHEN EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.kind NOT IN ('tank', 'source', 'transit') AND a.owner_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a craft with records cannot be removed');
END;

CREATE TRIGGER owner_with_records_is_kept_depot BEFORE DELETE ON depot
WHEN EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.kind NOT IN ('tank', 'source', 'transit') AND a.owner_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a depot with records cannot be removed');
END;

CREATE TRIGGER owner_with_records_is_kept_source BEFORE DELETE ON source
WHEN EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.kind = 'source' AND a.owner_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a source with records cannot be removed');
END;

CREATE TRIGGER posting_counts AFTER INSERT ON posting
BEGIN
  UPDATE account SET balance_grams = balance_grams + NEW.grams WHERE no = NEW.account_no;
END;

CREATE TRIGGER posting_is_kept BEFORE DELETE ON posting
BEGIN
  SELECT RAISE(ABORT, 'the journal is append-only: a posting is never deleted');
END;

CREATE TRIGGER posting_joins_an_open_entry BEFORE INSERT ON posting
WHEN NOT EXISTS (
    SELECT 1 FROM entry e WHERE e.no = NEW.entry_no AND e.state = 'open' AND e.at = NEW.at
      AND NEW.is_stating = (e.kind IN ('opening', 'reading', 'closing')))
  OR EXISTS (SELECT 1 FROM posting p WHERE p.entry_no = NEW.entry_no AND p.line = NEW.line)
BEGIN
  SELECT RAISE(ABORT, 'the journal is append-only: a posting joins an entry that is being written, at its instant');
END;

CREATE TRIGGER posting_stands BEFORE UPDATE ON posting
BEGIN
  SELECT RAISE(ABORT, 'the journal is append-only: a posting is never changed');
END;

CREATE TRIGGER propellant_with_records_is_kept BEFORE DELETE ON propellant
WHEN EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.propellant_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a propellant with records cannot be removed');
END;

CREATE TRIGGER report_issue_is_kept BEFORE DELETE ON report_issue
BEGIN
  SELECT RAISE(ABORT, 'an issue of a report is never deleted');
END;

CREATE TRIGGER report_issue_stands BEFORE UPDATE ON report_issue
BEGIN
  SELECT RAISE(ABORT, 'an issue of a report is never changed');
END;

CREATE TRIGGER report_issue_takes_the_next_number BEFORE INSERT ON report_issue
WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM report_issue)
BEGIN
  SELECT RAISE(ABORT, 'issues of reports are numbered 1, 2, 3 without a gap');
END;

CREATE TRIGGER risk_run_stands BEFORE UPDATE ON risk_run
BEGIN
  SELECT RAISE(ABORT, 'a kept run is never changed');
END;

CREATE TRIGGER study_stands BEFORE UPDATE ON study
BEGIN
  SELECT RAISE(ABORT, 'a kept study is never changed');
END;

CREATE TRIGGER tank_with_records_is_kept BEFORE DELETE ON tank
WHEN EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.kind = 'tank' AND a.owner_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a tank with records cannot be removed');
END;

CREATE TRIGGER tank_with_records_keeps_its_propellant BEFORE UPDATE OF propellant_id ON tank
WHEN NEW.propellant_id <> OLD.propellant_id AND EXISTS (
  SELECT 1 FROM account a JOIN posting p ON p.account_no = a.no JOIN entry e ON e.no = p.entry_no
  WHERE a.kind = 'tank' AND a.owner_id = OLD.id AND e.state = 'in force')
BEGIN
  SELECT RAISE(ABORT, 'a tank with records keeps its propellant');
END;
