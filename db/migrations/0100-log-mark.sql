-- Which log belongs to the file (db/log-mark.ts). Shipped: never edit.

CREATE TABLE log_mark (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  mark TEXT NOT NULL,
  -- Raised with every log that begins, so that each has this row.
  logs INTEGER NOT NULL
) STRICT;
INSERT INTO log_mark VALUES (1, 'log of 00000000000000000000000000000000', 0);
