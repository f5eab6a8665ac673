-- 0004_pour.sql - where each batch went in the building, and what was made of it.

CREATE TABLE placing (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES placing (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  part_id INTEGER NOT NULL REFERENCES part (id),
  lift INTEGER NOT NULL CHECK (lift >= 1),
  from_m REAL CHECK (from_m >= 0),
  to_m REAL CHECK (to_m > from_m),
  verdict TEXT NOT NULL DEFAULT ''
    CHECK (verdict IN ('', 'accept', 'mark', 'hold', 'reject')),
  reason TEXT NOT NULL DEFAULT '',
  UNIQUE (batch_id, revision),
  UNIQUE (origin, revision)
) STRICT;
