-- Issues of reports, kept for good: what was asked, a hash of what it was made from, and the finished report. Shipped: never edit.

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

CREATE TRIGGER report_issue_takes_the_next_number BEFORE INSERT ON report_issue
WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM report_issue)
BEGIN
  SELECT RAISE(ABORT, 'issues of reports are numbered 1, 2, 3 without a gap');
END;

CREATE TRIGGER report_issue_stands BEFORE UPDATE ON report_issue
BEGIN
  SELECT RAISE(ABORT, 'an issue of a report is never changed');
END;

CREATE TRIGGER report_issue_is_kept BEFORE DELETE ON report_issue
BEGIN
  SELECT RAISE(ABORT, 'an issue of a report is never deleted');
END;
