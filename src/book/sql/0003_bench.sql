-- 0003_bench.sql - the bench: forms, what becomes of a test piece between form
-- and test, weights hung one by one, and blows on one place.

-- What a test piece is cast in; inner sizes.
CREATE TABLE form (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES form (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  shape TEXT NOT NULL CHECK (shape IN ('beam', 'panel', 'cube', 'cylinder',
    'prism', 'bar', 'other')),
  width_m REAL CHECK (width_m > 0),
  depth_m REAL NOT NULL CHECK (depth_m > 0),   -- its height, as filled
  length_m REAL CHECK (length_m > 0),
  diameter_m REAL CHECK (diameter_m > 0),
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

ALTER TABLE specimen ADD COLUMN form_id INTEGER REFERENCES form (id);
ALTER TABLE specimen ADD COLUMN test_age_s REAL CHECK (test_age_s > 0); -- planned
ALTER TABLE specimen ADD COLUMN height_1_m REAL CHECK (height_1_m > 0);
ALTER TABLE specimen ADD COLUMN height_2_m REAL CHECK (height_2_m > 0);
ALTER TABLE specimen ADD COLUMN height_3_m REAL CHECK (height_3_m > 0);
ALTER TABLE specimen ADD COLUMN height_4_m REAL CHECK (height_4_m > 0);
ALTER TABLE specimen ADD COLUMN damage TEXT; -- chips and cracks

-- A beam on its supports, while weights are hung on it.
CREATE TABLE bending_session (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES bending_session (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  specimen_id INTEGER NOT NULL REFERENCES specimen (id),
  code TEXT NOT NULL CHECK (code <> ''),
  loading TEXT NOT NULL CHECK (loading IN ('centre', 'third')),
  span_m REAL NOT NULL CHECK (span_m > 0),
  strap_m REAL CHECK (strap_m >= 0),
  hanger_kg REAL NOT NULL CHECK (hanger_kg >= 0),
  weights TEXT NOT NULL,                 -- kilograms, commas between
  UNIQUE (specimen_id, code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- What was done in it, in order; an undoing is a step too.
CREATE TABLE bending_step (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES bending_step (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  specimen_id INTEGER NOT NULL REFERENCES specimen (id),
  code TEXT NOT NULL CHECK (code <> ''),
  place INTEGER NOT NULL CHECK (place >= 1),
  what TEXT NOT NULL CHECK (what IN ('added', 'sag', 'cracked', 'fell',
    'holding', 'undone')),
  mass_kg REAL CHECK (mass_kg > 0),
  sag_m REAL CHECK (sag_m >= 0),
  at TEXT NOT NULL CHECK (length(at) = 20),
  UNIQUE (specimen_id, code, place, revision),
  UNIQUE (origin, revision)
) STRICT;

ALTER TABLE reading_drop ADD COLUMN blows INTEGER CHECK (blows >= 1);
ALTER TABLE reading_drop ADD COLUMN from_edge_m REAL CHECK (from_edge_m >= 0);
ALTER TABLE reading_drop ADD COLUMN dent_step_m REAL CHECK (dent_step_m > 0);

-- Half of a broken beam, crushed between plates of this length.
ALTER TABLE reading_crushing ADD COLUMN plate_m REAL CHECK (plate_m > 0);
