-- 0006_warnings.sql - the rules that warn, as this build has set them: what is
-- not here stands as the program brings it.  And how long foam stands in a jar.

CREATE TABLE warning (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES warning (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),     -- W1 to W30
  is_on INTEGER NOT NULL CHECK (is_on IN (0, 1)),
  limit_1 REAL,                              -- SI; NULL: as it comes
  limit_2 REAL,
  limit_3 REAL,
  reason TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- Foam left standing in a jar: what had run out of it, how long after.
CREATE TABLE foam_standing (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES foam_standing (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  generator_id INTEGER NOT NULL REFERENCES generator (id),
  code TEXT NOT NULL CHECK (code <> ''),     -- the jar
  foam_kg REAL NOT NULL CHECK (foam_kg > 0), -- in the jar
  after_s REAL NOT NULL CHECK (after_s > 0),
  drained_kg REAL NOT NULL CHECK (drained_kg >= 0),
  read_on TEXT NOT NULL DEFAULT '',
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (generator_id, code, after_s, revision),
  UNIQUE (origin, revision)
) STRICT;

-- How long a mix takes to set, so that the life of its foam can be held
-- against it; of a batch, at its own temperature.
ALTER TABLE batch ADD COLUMN set_s REAL CHECK (set_s > 0); -- thumb leaves no dent

-- The moment of a check, and how many batches the book held then: whether the
-- next one is due.
ALTER TABLE foam_check ADD COLUMN read_at_s INTEGER;      -- seconds since 1970
ALTER TABLE foam_check ADD COLUMN batches_before INTEGER
  CHECK (batches_before >= 0);
