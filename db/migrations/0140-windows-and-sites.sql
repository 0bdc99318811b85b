-- Departure windows as a list, a depot's orbit as data, and the landing site of a profile. Shipped: never edit.

ALTER TABLE depot ADD COLUMN window_list TEXT CHECK (window_list IS NULL OR json_type(window_list) = 'object');
ALTER TABLE depot ADD COLUMN lunar_orbit TEXT CHECK (lunar_orbit IS NULL OR json_type(lunar_orbit) = 'object');
ALTER TABLE profile ADD COLUMN landing TEXT CHECK (landing IS NULL OR json_type(landing) = 'object');

-- The edit history holds rows as they were written: give those the new properties, so that they can still be undone.
UPDATE edit_change SET
  before = json_insert(before, '$.windowList', NULL, '$.lunarOrbit', NULL),
  after = json_insert(after, '$.windowList', NULL, '$.lunarOrbit', NULL)
WHERE kind = 'depot';
UPDATE edit_change SET
  before = json_insert(before, '$.landing', NULL),
  after = json_insert(after, '$.landing', NULL)
WHERE kind = 'profile';
