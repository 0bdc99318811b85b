-- When a flight was lost and when a sortie stood down: neither need move mass, so no journal entry says it. With this
-- form a class of landers may also state the walls of its tanks, within the list that it has. Shipped: never edit.

ALTER TABLE flight ADD COLUMN lost_at INTEGER;
ALTER TABLE sortie ADD COLUMN stood_down_at INTEGER;

-- The edit history holds new and removed rows whole, as they were written: give those the new property, so that they can
-- still be undone. Of a changed row it holds what differs, and neither state has anything to say here.
UPDATE edit_change SET
  before = CASE WHEN json_extract(before, '$."#"') IS NULL THEN json_insert(before, '$.lostAt', NULL) ELSE before END,
  after = CASE WHEN json_extract(after, '$."#"') IS NULL THEN json_insert(after, '$.lostAt', NULL) ELSE after END
WHERE kind = 'flight';
UPDATE edit_change SET
  before = CASE WHEN json_extract(before, '$."#"') IS NULL THEN json_insert(before, '$.stoodDownAt', NULL) ELSE before END,
  after = CASE WHEN json_extract(after, '$."#"') IS NULL THEN json_insert(after, '$.stoodDownAt', NULL) ELSE after END
WHERE kind = 'sortie';
