-- How long a tanker of a class takes from leaving the port to its next departure, and what a flight of it costs. Shipped: never edit.

ALTER TABLE craft_class ADD COLUMN turnaround_days REAL NOT NULL DEFAULT 0 CHECK (turnaround_days >= 0);
ALTER TABLE craft_class ADD COLUMN cost_per_flight REAL CHECK (cost_per_flight IS NULL OR cost_per_flight >= 0);
ALTER TABLE craft_class ADD COLUMN cost_unit TEXT NOT NULL DEFAULT '';

-- The edit history holds rows as they were written: give those the new properties, so that they can still be undone.
UPDATE edit_change SET
  before = json_insert(before, '$.turnaroundDays', 0, '$.costPerFlight', NULL, '$.costUnit', ''),
  after = json_insert(after, '$.turnaroundDays', 0, '$.costPerFlight', NULL, '$.costUnit', '')
WHERE kind = 'craftClass';
