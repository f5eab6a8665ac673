-- 0007_rig.sql - the rigs of the bench, what each was held against, and on which
-- of them a reading was taken.

CREATE TABLE rig (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES rig (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  test TEXT NOT NULL CHECK (test IN ('bending', 'drop', 'crushing')),
  loading TEXT CHECK (loading IN ('centre', 'third')),
  span_m REAL CHECK (span_m > 0),
  strap_m REAL CHECK (strap_m >= 0),
  hanger_kg REAL CHECK (hanger_kg >= 0),
  bar_kg REAL CHECK (bar_kg > 0),
  height_m REAL CHECK (height_m > 0),
  tip TEXT CHECK (tip IN ('flat', 'ball', 'cone')),
  tip_diameter_m REAL CHECK (tip_diameter_m > 0),
  tip_angle_rad REAL CHECK (tip_angle_rad > 0 AND tip_angle_rad < 3.1415927),
  ram_m REAL CHECK (ram_m > 0),                -- bore of the jack
  gauge_step_pa REAL CHECK (gauge_step_pa > 0),
  rule_step_m REAL CHECK (rule_step_m > 0),    -- what sizes are read to
  scale_step_kg REAL CHECK (scale_step_kg > 0), -- what weights are read to
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- Something known put on a rig, and what the rig said of it.
CREATE TABLE rig_check (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES rig_check (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  rig_id INTEGER NOT NULL REFERENCES rig (id),
  code TEXT NOT NULL CHECK (code <> ''),
  what TEXT NOT NULL CHECK (what IN ('dead load', 'exit speed', 'check piece',
    'weight')),
  read_on TEXT NOT NULL DEFAULT '',
  known_kg REAL CHECK (known_kg > 0),   -- dead load; what a weight says
  found_kg REAL CHECK (found_kg > 0),   -- a weight weighed; what broke a piece
  gauge_pa REAL CHECK (gauge_pa >= 0),  -- under a dead load; at a break
  zero_pa REAL CHECK (zero_pa >= 0),    -- with nothing on it
  height_m REAL CHECK (height_m > 0),   -- fallen through the guide
  speed_m_s REAL CHECK (speed_m_s > 0), -- at its end
  dent_m REAL CHECK (dent_m > 0),       -- in a check piece
  piece TEXT NOT NULL DEFAULT '',       -- what the check piece is
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (rig_id, code, revision),
  UNIQUE (origin, revision)
) STRICT;

ALTER TABLE reading ADD COLUMN rig_id INTEGER REFERENCES rig (id);
ALTER TABLE bending_session ADD COLUMN rig_id INTEGER REFERENCES rig (id);
