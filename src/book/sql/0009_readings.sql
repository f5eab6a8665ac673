-- 0009_readings.sql - the other home tests as readings of a piece: moisture,
-- water taken up and drawn up, drying, shortening, screws, frost, the hot box.

-- The kinds of readings are more now; SQLite changes a CHECK only by making the
-- table again (its "ALTER TABLE", section 7).  Rows and columns stay as they
-- were.
CREATE TABLE reading_again (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES reading_again (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  specimen_id INTEGER NOT NULL REFERENCES specimen (id),
  code TEXT NOT NULL CHECK (code <> ''), -- tells readings of a specimen apart
  kind TEXT NOT NULL CHECK (kind IN ('bending', 'drop', 'crushing', 'weighing',
    'other', 'moisture', 'soaking', 'rise', 'drying', 'shrinkage', 'screw',
    'frost', 'hot box')),
  age_s REAL CHECK (age_s >= 0),
  remark TEXT NOT NULL DEFAULT '',
  rig_id INTEGER REFERENCES rig (id),
  UNIQUE (specimen_id, kind, code, revision),
  UNIQUE (origin, revision)
) STRICT;
INSERT INTO reading_again SELECT * FROM reading;
DROP TABLE reading;
ALTER TABLE reading_again RENAME TO reading;

-- Water in a piece, by weighing or by the height of its wet edge.
CREATE TABLE reading_water (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  after_s REAL CHECK (after_s >= 0),           -- in the water
  mass_kg REAL CHECK (mass_kg > 0),            -- as it is then
  dry_kg REAL CHECK (dry_kg > 0),              -- from the oven
  mass_step_kg REAL CHECK (mass_step_kg > 0),  -- the scale is read to this
  height_m REAL CHECK (height_m >= 0),         -- of the wet edge
  height_step_m REAL CHECK (height_step_m > 0),
  face_m2 REAL CHECK (face_m2 > 0),            -- in the water
  wanted_ratio REAL CHECK (wanted_ratio > 0),  -- moisture the plaster takes
  CHECK (mass_kg IS NOT NULL OR height_m IS NOT NULL),
  CHECK (dry_kg <= mass_kg)
) STRICT;

-- Between two studs on a bar.
CREATE TABLE reading_length (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  length_m REAL NOT NULL CHECK (length_m > 0),
  step_m REAL CHECK (step_m > 0),
  degc REAL CHECK (degc > -273.15)
) STRICT;

CREATE TABLE reading_screw (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  held_n REAL NOT NULL CHECK (held_n >= 0),
  broke_n REAL CHECK (broke_n >= held_n AND broke_n > 0), -- NULL: still held
  step_n REAL CHECK (step_n > 0),
  diameter_m REAL CHECK (diameter_m > 0),
  depth_m REAL CHECK (depth_m > 0)             -- of the thread in the piece
) STRICT;

CREATE TABLE reading_frost (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  cycles INTEGER NOT NULL CHECK (cycles >= 1),
  before_kg REAL NOT NULL CHECK (before_kg > 0),
  after_kg REAL NOT NULL CHECK (after_kg > 0),
  mass_step_kg REAL CHECK (mass_step_kg > 0),
  before_m REAL CHECK (before_m > 0),          -- one size of it
  after_m REAL CHECK (after_m > 0),
  length_step_m REAL CHECK (length_step_m > 0)
) STRICT;

CREATE TABLE reading_hot_box (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  power_w REAL NOT NULL CHECK (power_w > 0),
  leak_w REAL CHECK (leak_w >= 0 AND leak_w < power_w),
  area_m2 REAL CHECK (area_m2 > 0),            -- NULL: width x length
  thickness_m REAL CHECK (thickness_m > 0),    -- NULL: depth of the piece
  warm_degc REAL NOT NULL,
  cold_degc REAL NOT NULL CHECK (cold_degc < warm_degc),
  power_step_w REAL CHECK (power_step_w > 0),
  temperature_step_k REAL CHECK (temperature_step_k > 0)
) STRICT;

-- A part may ask for these too.
CREATE TABLE requirement_again (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES requirement_again (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  measure TEXT NOT NULL CHECK (measure IN ('bending_strength',
    'crushing_strength', 'crushing_energy', 'dent', 'dry_density',
    'settling_loss', 'conductivity', 'cost', 'breakage', 'screw_pull',
    'water_taken_up', 'water_drawn_up', 'drying_shrinkage', 'frost_loss')),
  bound TEXT NOT NULL CHECK (bound IN ('least', 'most')),
  value REAL NOT NULL CHECK (value >= 0), -- SI; cost in cents a m3
  source TEXT NOT NULL DEFAULT '',
  UNIQUE (part_id, measure, bound, revision),
  UNIQUE (origin, revision)
) STRICT;
INSERT INTO requirement_again SELECT * FROM requirement;
DROP TABLE requirement;
ALTER TABLE requirement_again RENAME TO requirement;
