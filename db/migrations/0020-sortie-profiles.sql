-- Sortie profiles, the lander's data sheet, and the dates at which engines are changed. Shipped: never edit.

CREATE TABLE profile (
  id TEXT PRIMARY KEY,
  class_id TEXT NOT NULL REFERENCES craft_class DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  steps TEXT NOT NULL CHECK (json_type(steps) = 'array'),
  reserve TEXT NOT NULL CHECK (json_type(reserve) = 'object'),
  note TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX profile_by_class ON profile (class_id);

ALTER TABLE craft_class ADD COLUMN lander TEXT CHECK (lander IS NULL OR json_type(lander) = 'object');
ALTER TABLE craft ADD COLUMN engine_changes TEXT NOT NULL DEFAULT '[]' CHECK (json_type(engine_changes) = 'array');

ALTER TABLE sortie ADD COLUMN profile_id TEXT AS (demand ->> '$.profileId') REFERENCES profile (id) DEFERRABLE INITIALLY DEFERRED;
CREATE INDEX sortie_by_profile ON sortie (profile_id);

-- The edit history holds rows as they were written: give those the new properties, so that they can still be undone.
UPDATE edit_change SET before = json_insert(before, '$.lander', NULL), after = json_insert(after, '$.lander', NULL)
WHERE kind = 'craftClass';
UPDATE edit_change SET
  before = json_insert(before, '$.engineChanges', json('[]')),
  after = json_insert(after, '$.engineChanges', json('[]'))
WHERE kind = 'craft';
