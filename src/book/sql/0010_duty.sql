-- 0010_duty.sql - what is usually asked of a kind of part, as this build has set
-- it, and how what remains after the must-haves is weighed.

-- What is not here stands as the program brings it.
CREATE TABLE usual_requirement (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES usual_requirement (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  form TEXT NOT NULL CHECK (form <> ''),     -- wall, dome, roof-pitched ...
  measure TEXT NOT NULL CHECK (measure <> ''),
  bound TEXT NOT NULL CHECK (bound IN ('least', 'most')),
  value REAL NOT NULL CHECK (value >= 0),    -- SI; cost in cents a m3
  is_asked INTEGER NOT NULL CHECK (is_asked IN (0, 1)), -- 0: no longer
  source TEXT NOT NULL CHECK (source <> ''),
  UNIQUE (form, measure, bound, revision),
  UNIQUE (origin, revision)
) STRICT;

-- Of one part, or of the whole house.
CREATE TABLE choice_weight (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES choice_weight (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER REFERENCES part (id),      -- NULL: the house
  criterion TEXT NOT NULL CHECK (criterion <> ''),
  weight REAL NOT NULL CHECK (weight >= 0),
  UNIQUE (origin, revision)
) STRICT;

-- How a roof panel leans: from level, 0 to below a right angle.
ALTER TABLE part_use ADD COLUMN pitch_rad REAL
  CHECK (pitch_rad >= 0 AND pitch_rad < 1.5707963267948966);

-- A part may ask whatever a mix is measured by: the table as it was, without
-- the list of measures that was frozen into it.
CREATE TABLE requirement_wider (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES requirement (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  measure TEXT NOT NULL CHECK (measure <> ''),
  bound TEXT NOT NULL CHECK (bound IN ('least', 'most')),
  value REAL NOT NULL CHECK (value >= 0), -- SI; cost in cents a m3
  source TEXT NOT NULL DEFAULT '',
  UNIQUE (part_id, measure, bound, revision),
  UNIQUE (origin, revision)
) STRICT;
INSERT INTO requirement_wider SELECT * FROM requirement;
DROP TABLE requirement;
ALTER TABLE requirement_wider RENAME TO requirement;
