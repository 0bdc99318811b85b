-- A metered handover is recorded by its end and flowed evenly since its beginning. Shipped: never edit.

ALTER TABLE entry ADD COLUMN since_at INTEGER CHECK (since_at IS NULL OR since_at < at);

DROP TRIGGER entry_stands;
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

CREATE INDEX entry_metered ON entry (at) WHERE since_at IS NOT NULL;
