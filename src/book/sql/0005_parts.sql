-- 0005_parts.sql - what bears on a part of the building, what covers it, and
-- what was foreseen of a mix before it was made again.

-- Loads, spans and steel of a part: one row a part.
CREATE TABLE part_use (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES part_use (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  form TEXT NOT NULL CHECK (form IN ('floor', 'floor-panel', 'wall', 'roof',
    'roof-panel', 'vault', 'dome', 'lintel', 'block', 'other')),
  span_m REAL CHECK (span_m > 0),
  load_n_m REAL CHECK (load_n_m >= 0),      -- on a metre of wall or lintel
  area_load_pa REAL CHECK (area_load_pa >= 0),
  wind_pa REAL CHECK (wind_pa >= 0),
  point_load_n REAL CHECK (point_load_n > 0),
  point_width_m REAL CHECK (point_width_m > 0), -- of a square foot
  subgrade_pa REAL CHECK (subgrade_pa > 0),
  subgrade_sinks_m REAL CHECK (subgrade_sinks_m > 0),
  modulus_pa REAL CHECK (modulus_pa > 0),
  radius_m REAL CHECK (radius_m > 0),
  steel_m2 REAL CHECK (steel_m2 > 0),       -- in a metre of width
  effective_m REAL CHECK (effective_m > 0), -- pressed face to steel
  yield_pa REAL CHECK (yield_pa > 0),
  lift_m REAL CHECK (lift_m > 0),           -- poured at once
  grip TEXT NOT NULL DEFAULT '' CHECK (grip IN ('', 'ends', 'inner', 'middle')),
  moisture_ratio REAL CHECK (moisture_ratio >= 0),
  safety REAL CHECK (safety >= 1),
  UNIQUE (part_id, revision),
  UNIQUE (origin, revision)
) STRICT;

-- A layer beside the foamed concrete: plaster, board, membrane.
CREATE TABLE part_layer (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES part_layer (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  side TEXT NOT NULL CHECK (side IN ('inside', 'outside')),
  name TEXT NOT NULL CHECK (name <> ''),
  thickness_m REAL CHECK (thickness_m > 0),
  density_kg_m3 REAL CHECK (density_kg_m3 > 0),
  strength_pa REAL CHECK (strength_pa > 0),
  conductivity_w_mk REAL CHECK (conductivity_w_mk > 0),
  resistance_m2k_w REAL CHECK (resistance_m2k_w >= 0),
  vapour_ratio REAL CHECK (vapour_ratio > 0), -- mu, against still air
  UNIQUE (part_id, side, name, revision),
  UNIQUE (origin, revision)
) STRICT;

-- Foreseen before fresh batches are made: the range of their mean.
CREATE TABLE prediction (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES prediction (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  mix_id INTEGER NOT NULL REFERENCES mix (id),
  measure TEXT NOT NULL CHECK (measure <> ''),
  batches INTEGER NOT NULL CHECK (batches >= 1),      -- fresh ones
  after_batch_id INTEGER NOT NULL REFERENCES batch (id), -- the last known
  low REAL NOT NULL,
  median REAL NOT NULL,
  high REAL NOT NULL,
  UNIQUE (part_id, mix_id, measure, revision),
  UNIQUE (origin, revision)
) STRICT;
