-- How the columns of tables that were brought in were read, remembered by their headings. Shipped: never edit.

CREATE TABLE column_mapping (
  kind TEXT NOT NULL CHECK (kind IN ('flights', 'sorties', 'readings')),
  -- The headings of the table in their order, as a JSON list of texts.
  headings TEXT NOT NULL CHECK (json_type(headings) = 'array'),
  mapping TEXT NOT NULL CHECK (json_type(mapping) = 'object'),
  -- When it was last used; the oldest are forgotten.
  used_at INTEGER NOT NULL,
  PRIMARY KEY (kind, headings)
) STRICT, WITHOUT ROWID;
