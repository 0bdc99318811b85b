/**
 * Views for whoever reads a ledger with a program of their own: kilograms, ISO 8601 text in UTC, names. views.md tells of
 * them. They are temporary: the file itself is not touched, whatever form it has, and reading it is all that they need.
 */
export const VIEWS = `-- Every level that the books know: of a tank, at each instant at which something was booked on it.
CREATE TEMP VIEW level_view AS
SELECT
  strftime('%Y-%m-%dT%H:%M:%fZ', p.at / 1000.0, 'unixepoch') AS at,
  d.name AS depot, c.name AS craft, t.name AS tank, r.name AS propellant,
  sum(sum(p.grams)) OVER (PARTITION BY a.no ORDER BY p.at) / 1000.0 AS level_kg,
  sum(p.grams) / 1000.0 AS change_kg,
  t.maximum_fill_kg, t.reserve_kg, t.id AS tank_id, p.at AS at_ms
FROM posting p
JOIN account a ON a.no = p.account_no AND a.kind = 'tank'
JOIN tank t ON t.id = a.owner_id
JOIN propellant r ON r.id = a.propellant_id
LEFT JOIN depot d ON d.id = t.depot_id
LEFT JOIN craft c ON c.id = t.craft_id
GROUP BY a.no, p.at;

-- What was lost of a depot's propellant in a calendar month, as the loss statement has it: an instant at the end of a month belongs to it.
CREATE TEMP VIEW loss_by_month_view AS
SELECT
  strftime('%Y-%m', (p.at - 1) / 1000, 'unixepoch') AS month,
  d.name AS depot, r.name AS propellant,
  sum(CASE a.kind WHEN 'boil-off' THEN p.grams ELSE 0 END) / 1000.0 AS boil_off_kg,
  sum(CASE a.kind WHEN 'handover loss' THEN p.grams ELSE 0 END) / 1000.0 AS handover_loss_kg,
  sum(CASE a.kind WHEN 'vented' THEN p.grams ELSE 0 END) / 1000.0 AS vented_kg,
  sum(CASE a.kind WHEN 'unaccounted' THEN p.grams ELSE 0 END) / 1000.0 AS unaccounted_kg,
  d.id AS depot_id, r.id AS propellant_id
FROM posting p
JOIN account a ON a.no = p.account_no AND a.kind IN ('boil-off', 'handover loss', 'vented', 'unaccounted')
JOIN depot d ON d.id = a.owner_id
JOIN propellant r ON r.id = a.propellant_id
GROUP BY month, d.id, r.id;

-- Flights with what was planned when a record replaced it. The edit history keeps what a step changed: the first "before"
-- of a property from the step on that recorded the departure (or the loss) is what was planned; where no later step changed
-- it, it is as it is now. A ledger made from a document has no history of before: nothing is known as planned, and it is null.
CREATE TEMP VIEW flight_view AS
WITH recorded AS (
  SELECT h.row_id, min(h.step_id) AS step_id
  FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
  WHERE h.kind = 'flight' AND h.before ->> 'status' IN ('planned', 'firm') AND h.after ->> 'status' IN ('departed', 'arrived', 'lost')
  GROUP BY h.row_id
),
was AS (
  SELECT f.id, f.status AS status_now, q.step_id,
    (SELECT h.before ->> 'departAt' FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
     WHERE h.kind = 'flight' AND h.row_id = f.id AND h.step_id >= q.step_id AND h.before ->> 'departAt' IS NOT NULL
     ORDER BY h.step_id, h.line LIMIT 1) AS depart_at,
    (SELECT h.before ->> 'arriveAt' FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
     WHERE h.kind = 'flight' AND h.row_id = f.id AND h.step_id >= q.step_id AND h.before ->> 'arriveAt' IS NOT NULL
     ORDER BY h.step_id, h.line LIMIT 1) AS arrive_at,
    (SELECT h.before -> 'loads' FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
     WHERE h.kind = 'flight' AND h.row_id = f.id AND h.step_id >= q.step_id AND h.before ->> 'loads' IS NOT NULL
     ORDER BY h.step_id, h.line LIMIT 1) AS loads
  FROM flight f JOIN recorded q ON q.row_id = f.id
),
known AS (
  SELECT f.*, w.step_id,
    CASE WHEN f.status IN ('planned', 'firm', 'cancelled') THEN f.depart_at WHEN w.step_id IS NOT NULL THEN coalesce(w.depart_at, f.depart_at) END AS planned_depart,
    CASE WHEN f.status IN ('planned', 'firm', 'cancelled') THEN f.arrive_at WHEN w.step_id IS NOT NULL THEN coalesce(w.arrive_at, f.arrive_at) END AS planned_arrive,
    CASE WHEN f.status IN ('planned', 'firm', 'cancelled') THEN f.loads WHEN w.step_id IS NOT NULL THEN coalesce(w.loads, f.loads) END AS planned_loads,
    CASE WHEN f.status IN ('departed', 'arrived', 'lost') THEN f.depart_at END AS actual_depart,
    CASE f.status WHEN 'arrived' THEN f.arrive_at END AS actual_arrive
  FROM flight f LEFT JOIN was w ON w.id = f.id
)
SELECT
  p.name AS plan_case, k.name AS flight, c.name AS craft, coalesce(o.name, od.name) AS origin, d.name AS depot, k.status,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.planned_depart / 1000.0, 'unixepoch') AS planned_departure,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.actual_depart / 1000.0, 'unixepoch') AS actual_departure,
  (k.actual_depart - k.planned_depart) / 86400000.0 AS departed_late_days,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.planned_arrive / 1000.0, 'unixepoch') AS planned_arrival,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.actual_arrive / 1000.0, 'unixepoch') AS actual_arrival,
  (k.actual_arrive - k.planned_arrive) / 86400000.0 AS arrived_late_days,
  (SELECT sum(l.value ->> 'loadedKg') FROM json_each(k.planned_loads) l) AS planned_load_kg,
  CASE WHEN k.actual_depart IS NOT NULL THEN (SELECT sum(l.value ->> 'loadedKg') FROM json_each(k.loads) l) END AS actual_load_kg,
  k.planned_loads, k.loads, k.plan_case_id, k.id AS flight_id, k.key AS flight_key
FROM known k
JOIN plan_case p ON p.id = k.plan_case_id
JOIN craft c ON c.id = k.craft_id
JOIN depot d ON d.id = k.depot_id
LEFT JOIN source o ON o.id = k.origin_source_id
LEFT JOIN depot od ON od.id = k.origin_depot_id;

-- The loads of every flight by propellant: as planned when a record replaced them, and as they were.
CREATE TEMP VIEW flight_load_view AS
SELECT v.plan_case, v.flight, v.status, r.name AS propellant,
  (SELECT sum(l.value ->> 'loadedKg') FROM json_each(v.planned_loads) l WHERE l.value ->> 'propellantId' = r.id) AS planned_load_kg,
  CASE WHEN v.actual_departure IS NOT NULL THEN
    (SELECT sum(l.value ->> 'loadedKg') FROM json_each(v.loads) l WHERE l.value ->> 'propellantId' = r.id) END AS actual_load_kg,
  v.flight_id, r.id AS propellant_id
FROM flight_view v JOIN propellant r
WHERE EXISTS (SELECT 1 FROM json_each(v.loads) l WHERE l.value ->> 'propellantId' = r.id)
  OR EXISTS (SELECT 1 FROM json_each(v.planned_loads) l WHERE l.value ->> 'propellantId' = r.id);

-- Sorties with the loading and return that were planned when a record replaced them.
CREATE TEMP VIEW sortie_view AS
WITH recorded AS (
  SELECT h.row_id, min(h.step_id) AS step_id
  FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
  WHERE h.kind = 'sortie' AND h.before ->> 'status' = 'planned' AND h.after ->> 'status' IN ('departed', 'flown')
  GROUP BY h.row_id
),
known AS (
  SELECT x.*,
    CASE WHEN x.status NOT IN ('departed', 'flown') THEN x.load_at WHEN q.step_id IS NOT NULL THEN coalesce(
      (SELECT h.before ->> 'loadAt' FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
       WHERE h.kind = 'sortie' AND h.row_id = x.id AND h.step_id >= q.step_id AND h.before ->> 'loadAt' IS NOT NULL
       ORDER BY h.step_id, h.line LIMIT 1), x.load_at) END AS planned_load,
    CASE WHEN x.status NOT IN ('departed', 'flown') THEN x.return_at WHEN q.step_id IS NOT NULL THEN coalesce(
      (SELECT h.before ->> 'returnAt' FROM edit_change h JOIN edit_step s ON s.id = h.step_id AND s.state = 'done'
       WHERE h.kind = 'sortie' AND h.row_id = x.id AND h.step_id >= q.step_id AND h.before ->> 'returnAt' IS NOT NULL
       ORDER BY h.step_id, h.line LIMIT 1), x.return_at) END AS planned_return,
    CASE WHEN x.status IN ('departed', 'flown') THEN x.load_at END AS actual_load,
    CASE x.status WHEN 'flown' THEN x.return_at END AS actual_return
  FROM sortie x LEFT JOIN recorded q ON q.row_id = x.id
)
SELECT
  p.name AS plan_case, k.name AS sortie, c.name AS lander, d.name AS depot, k.status,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.planned_load / 1000.0, 'unixepoch') AS planned_loading,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.actual_load / 1000.0, 'unixepoch') AS actual_loading,
  (k.actual_load - k.planned_load) / 86400000.0 AS loaded_late_days,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.planned_return / 1000.0, 'unixepoch') AS planned_return,
  strftime('%Y-%m-%dT%H:%M:%fZ', k.actual_return / 1000.0, 'unixepoch') AS actual_return,
  (k.actual_return - k.planned_return) / 86400000.0 AS returned_late_days,
  k.plan_case_id, k.id AS sortie_id, k.key AS sortie_key
FROM known k
JOIN plan_case p ON p.id = k.plan_case_id
JOIN craft c ON c.id = k.lander_id
JOIN depot d ON d.id = k.depot_id;

-- Gauge readings, those found to be wrong too.
CREATE TEMP VIEW reading_view AS
SELECT
  strftime('%Y-%m-%dT%H:%M:%fZ', g.at / 1000.0, 'unixepoch') AS at, t.name AS tank, r.name AS propellant,
  g.mass_kg, g.sigma_kg, g.is_withdrawn, g.entry_id IS NOT NULL AS is_in_the_books, g.note, g.id AS reading_id, t.id AS tank_id, g.at AS at_ms
FROM reading g JOIN tank t ON t.id = g.tank_id JOIN propellant r ON r.id = t.propellant_id;

-- The journal, a line a posting: grams into (+) or out of (-) an account.
CREATE TEMP VIEW journal_view AS
SELECT
  strftime('%Y-%m-%dT%H:%M:%fZ', e.at / 1000.0, 'unixepoch') AS at, e.kind, e.state, a.kind AS account,
  coalesce(t.name, d.name, c.name, o.name, a.owner_id) AS whose, r.name AS propellant, p.grams / 1000.0 AS mass_kg,
  e.subject_key, e.note, e.author, strftime('%Y-%m-%dT%H:%M:%fZ', e.recorded_at / 1000.0, 'unixepoch') AS recorded, e.id AS entry_id, e.at AS at_ms
FROM posting p
JOIN entry e ON e.no = p.entry_no
JOIN account a ON a.no = p.account_no
JOIN propellant r ON r.id = a.propellant_id
LEFT JOIN tank t ON a.kind = 'tank' AND t.id = a.owner_id
LEFT JOIN depot d ON a.kind <> 'tank' AND d.id = a.owner_id
LEFT JOIN craft c ON a.kind NOT IN ('tank', 'source', 'transit') AND c.id = a.owner_id
LEFT JOIN source o ON a.kind = 'source' AND o.id = a.owner_id;
`;
