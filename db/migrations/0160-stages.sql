-- What lifting one craft leaves behind besides propellant and cargo. With this form a lander may also have further stages,
-- which steps of a profile and engine changes name: within the texts that they have, and a lander without is one stage as
-- before. Shipped: never edit.

ALTER TABLE craft_class ADD COLUMN hardware_kg REAL CHECK (hardware_kg IS NULL OR hardware_kg >= 0);

-- The edit history holds new and removed rows whole, as they were written: give those the new property, so that they can
-- still be undone. Of a changed row it holds what differs, and neither state has anything to say here.
UPDATE edit_change SET
  before = CASE WHEN json_extract(before, '$."#"') IS NULL THEN json_insert(before, '$.hardwareKg', NULL) ELSE before END,
  after = CASE WHEN json_extract(after, '$."#"') IS NULL THEN json_insert(after, '$.hardwareKg', NULL) ELSE after END
WHERE kind = 'craftClass';
