-- What a production plant makes of water, and when it works. Shipped: never edit.

ALTER TABLE source ADD COLUMN plant TEXT CHECK (plant IS NULL OR json_type(plant) = 'object');

-- The edit history holds rows as they were written: give those the new property, so that they can still be undone.
UPDATE edit_change SET before = json_insert(before, '$.plant', NULL), after = json_insert(after, '$.plant', NULL)
WHERE kind = 'source';
