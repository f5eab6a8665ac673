-- 0001_start.sql - the record of one build: what was planned, made, read.
--
-- Facts are only added.  Each row of a fact table carries
--   origin      the id of the thing's first row (its identity; children point
--               at it), equal to id in the first row
--   revision    1, 2, ...; the row with the highest is what holds now
--   withdrawn   1: the thing no longer holds from this revision on
--   history_id  the entry of the history that wrote the row
--   typed       the cells as the person wrote them (JSON object), or ''
-- so a correction is a new row and the old one stays.

CREATE TABLE history (
  id INTEGER PRIMARY KEY,
  at TEXT NOT NULL CHECK (length(at) = 20),
  who TEXT NOT NULL,
  what TEXT NOT NULL CHECK (what <> ''),
  detail TEXT NOT NULL DEFAULT '',
  submission TEXT UNIQUE,
  rows_digest BLOB NOT NULL CHECK (length(rows_digest) = 32),
  chain_digest BLOB NOT NULL CHECK (length(chain_digest) = 32)
) STRICT;

CREATE TABLE book_info (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES book_info (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  name TEXT NOT NULL CHECK (name <> ''),
  note TEXT NOT NULL DEFAULT '',
  gallon TEXT NOT NULL DEFAULT 'us' CHECK (gallon IN ('us', 'imperial')),
  currency TEXT NOT NULL DEFAULT 'units',
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE material (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES material (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('cement', 'binder', 'sand', 'filler',
    'water', 'fibre', 'admixture', 'agent', 'reinforcement', 'other')),
  particle_density_kg_m3 REAL CHECK (particle_density_kg_m3 > 0),
  bulk_density_kg_m3 REAL CHECK (bulk_density_kg_m3 > 0),
  moisture_ratio REAL CHECK (moisture_ratio >= 0),
  absorption_ratio REAL CHECK (absorption_ratio >= 0),
  hardness_kg_m3 REAL CHECK (hardness_kg_m3 >= 0),
  package_kg REAL CHECK (package_kg > 0),
  price_cents INTEGER CHECK (price_cents >= 0),
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE material_lot (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES material_lot (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  material_id INTEGER NOT NULL REFERENCES material (id),
  code TEXT NOT NULL CHECK (code <> ''),
  bought_on TEXT NOT NULL DEFAULT '',
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (material_id, code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE mix (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES mix (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  name TEXT NOT NULL,
  why TEXT NOT NULL DEFAULT '',
  matrix_code TEXT NOT NULL,        -- the plain mix whose matrix it shares; itself
  reinforcement TEXT NOT NULL DEFAULT '',
  wet_target_kg_m3 REAL CHECK (wet_target_kg_m3 > 0),
  foam_m3_per_m3 REAL CHECK (foam_m3_per_m3 > 0 AND foam_m3_per_m3 < 1),
  foam_target_kg_m3 REAL CHECK (foam_target_kg_m3 > 0),
  blending_target_s REAL CHECK (blending_target_s > 0),
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE mix_part (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES mix_part (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  mix_id INTEGER NOT NULL REFERENCES mix (id),
  material_id INTEGER NOT NULL REFERENCES material (id),
  mass_kg_per_m3 REAL NOT NULL CHECK (mass_kg_per_m3 > 0),
  UNIQUE (mix_id, material_id, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE trial (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES trial (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  question TEXT NOT NULL DEFAULT '',
  baseline_mix_id INTEGER NOT NULL REFERENCES mix (id),
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- A rule of validity, set before casting.
CREATE TABLE trial_rule (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES trial_rule (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  trial_id INTEGER NOT NULL REFERENCES trial (id),
  code TEXT NOT NULL CHECK (code <> ''),
  measure TEXT NOT NULL CHECK (measure IN ('settling_loss_24h',
    'wet_density_off', 'foam_density_off', 'blending_time_off', 'moisture',
    'age_off')),
  above REAL NOT NULL CHECK (above >= 0),
  action TEXT NOT NULL CHECK (action IN ('exclude', 'flag')),
  set_on TEXT NOT NULL DEFAULT '',
  reason TEXT NOT NULL DEFAULT '',
  UNIQUE (trial_id, code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE batch (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES batch (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  trial_id INTEGER NOT NULL REFERENCES trial (id),
  mix_id INTEGER NOT NULL REFERENCES mix (id),
  practice INTEGER NOT NULL DEFAULT 0 CHECK (practice IN (0, 1)),
  practice_set TEXT NOT NULL DEFAULT 'before'
    CHECK (practice_set IN ('before', 'after')),
  made_on TEXT NOT NULL DEFAULT '',
  day INTEGER CHECK (day >= 0),
  water_hardness_kg_m3 REAL CHECK (water_hardness_kg_m3 >= 0),
  air_degc REAL,
  slurry_degc REAL,
  blending_s REAL CHECK (blending_s >= 0),
  slurry_kg_m3 REAL CHECK (slurry_kg_m3 > 0),
  foam_start_kg_m3 REAL CHECK (foam_start_kg_m3 > 0),
  foam_middle_kg_m3 REAL CHECK (foam_middle_kg_m3 > 0),
  foam_end_kg_m3 REAL CHECK (foam_end_kg_m3 > 0),
  wet_kg_m3 REAL CHECK (wet_kg_m3 > 0),
  volume_m3 REAL CHECK (volume_m3 > 0),
  spread_m REAL CHECK (spread_m >= 0),
  consistency INTEGER CHECK (consistency BETWEEN 1 AND 5),
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;
CREATE INDEX batch_by_mix ON batch (mix_id);

-- How much of the height was lost, this long after casting.
CREATE TABLE settling (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES settling (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  after_s REAL NOT NULL CHECK (after_s >= 0),
  loss_ratio REAL NOT NULL CHECK (loss_ratio > -1 AND loss_ratio < 1),
  UNIQUE (batch_id, after_s, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE specimen (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES specimen (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  form TEXT NOT NULL CHECK (form IN ('beam', 'panel', 'cube', 'cylinder',
    'prism', 'bar', 'other')),
  width_m REAL CHECK (width_m > 0),
  depth_m REAL CHECK (depth_m > 0),   -- height of a beam, thickness of a panel
  length_m REAL CHECK (length_m > 0),
  diameter_m REAL CHECK (diameter_m > 0),
  mass_kg REAL CHECK (mass_kg > 0),   -- on the day of the test
  moisture_ratio REAL CHECK (moisture_ratio >= 0),
  fate TEXT NOT NULL CHECK (fate IN ('waiting', 'tested',
    'snapped at stripping', 'snapped in handling', 'accident', 'not filled',
    'set aside')),
  fate_age_s REAL CHECK (fate_age_s >= 0),
  reinforced INTEGER NOT NULL DEFAULT 0 CHECK (reinforced IN (0, 1)),
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;
CREATE INDEX specimen_by_batch ON specimen (batch_id);

-- Readings: one row a reading whatever the test; what the test adds stands in
-- the table of its kind, with the same id.
CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES reading (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  specimen_id INTEGER NOT NULL REFERENCES specimen (id),
  code TEXT NOT NULL CHECK (code <> ''), -- tells readings of a specimen apart
  kind TEXT NOT NULL CHECK (kind IN ('bending', 'drop', 'crushing', 'weighing',
    'other')),
  age_s REAL CHECK (age_s >= 0),
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (specimen_id, kind, code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE reading_bending (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  loading TEXT CHECK (loading IN ('centre', 'third')),
  span_m REAL CHECK (span_m > 0),
  strap_m REAL CHECK (strap_m >= 0),
  on_rig_kg REAL CHECK (on_rig_kg >= 0),      -- hanger and bucket
  on_rig_included INTEGER NOT NULL DEFAULT 0 CHECK (on_rig_included IN (0, 1)),
  held_kg REAL NOT NULL CHECK (held_kg >= 0),
  broke_kg REAL CHECK (broke_kg > held_kg),   -- NULL: ran out of weights
  hold_s REAL CHECK (hold_s >= 0),            -- into the hold that broke it
  after_held_kg REAL CHECK (after_held_kg >= 0), -- held after the first crack
  after_broke_kg REAL CHECK (after_broke_kg > after_held_kg),
  sag_m REAL CHECK (sag_m >= 0)
) STRICT;

CREATE TABLE reading_drop (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  place TEXT NOT NULL CHECK (place IN ('centre', 'edge', 'corner')),
  bar_kg REAL CHECK (bar_kg > 0),
  height_m REAL CHECK (height_m > 0),
  tip TEXT CHECK (tip IN ('flat', 'ball', 'cone')),
  tip_diameter_m REAL CHECK (tip_diameter_m > 0),
  tip_angle_rad REAL CHECK (tip_angle_rad > 0 AND tip_angle_rad < 3.1415927),
  tube_loss_ratio REAL CHECK (tube_loss_ratio >= 0 AND tube_loss_ratio < 1),
  dent_m REAL CHECK (dent_m >= 0),            -- NULL only where it went through
  went_through INTEGER NOT NULL DEFAULT 0 CHECK (went_through IN (0, 1)),
  cracked INTEGER NOT NULL DEFAULT 0 CHECK (cracked IN (0, 1)),
  CHECK (dent_m IS NOT NULL OR went_through = 1)
) STRICT;

CREATE TABLE reading_crushing (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  gauge_pa REAL CHECK (gauge_pa >= 0),
  gauge_zero_pa REAL CHECK (gauge_zero_pa >= 0),
  gauge_step_pa REAL CHECK (gauge_step_pa > 0), -- read to this
  ram_diameter_m REAL CHECK (ram_diameter_m > 0),
  load_n REAL CHECK (load_n >= 0),
  held_n REAL CHECK (held_n >= 0),
  broke_n REAL CHECK (broke_n > held_n),
  CHECK (gauge_pa IS NOT NULL OR load_n IS NOT NULL OR held_n IS NOT NULL)
) STRICT;

CREATE TABLE reading_weighing (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  state TEXT NOT NULL CHECK (state IN ('as cast', 'at test', 'air dry',
    'oven dry', 'saturated', 'in water')),
  mass_kg REAL NOT NULL CHECK (mass_kg > 0)
) STRICT;

CREATE TABLE reading_other (
  reading_id INTEGER PRIMARY KEY REFERENCES reading (id),
  history_id INTEGER NOT NULL REFERENCES history (id),
  quantity TEXT NOT NULL CHECK (quantity IN ('water_taken_up_by_volume',
    'screw_pull', 'drying_shrinkage', 'moisture')),
  value REAL NOT NULL                          -- ratio; N for screw_pull
) STRICT;

CREATE TABLE part (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES part (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  name TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('floor', 'wall', 'roof', 'other')),
  length_m REAL CHECK (length_m > 0),
  height_m REAL CHECK (height_m > 0),   -- or width of a floor, a roof
  thickness_m REAL CHECK (thickness_m > 0),
  openings_m2 REAL CHECK (openings_m2 >= 0),
  volume_m3 REAL CHECK (volume_m3 > 0), -- where it is given as such
  waste_ratio REAL CHECK (waste_ratio >= 0 AND waste_ratio < 1),
  batch_m3 REAL CHECK (batch_m3 > 0),
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE requirement (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES requirement (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  measure TEXT NOT NULL CHECK (measure IN ('bending_strength',
    'crushing_strength', 'crushing_energy', 'dent', 'dry_density',
    'settling_loss', 'conductivity', 'cost', 'breakage', 'screw_pull')),
  bound TEXT NOT NULL CHECK (bound IN ('least', 'most')),
  value REAL NOT NULL CHECK (value >= 0), -- SI; cost in cents a m3
  source TEXT NOT NULL DEFAULT '',
  UNIQUE (part_id, measure, bound, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE decision (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES decision (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  part_id INTEGER NOT NULL REFERENCES part (id),
  mix_id INTEGER NOT NULL REFERENCES mix (id),
  reason TEXT NOT NULL DEFAULT '',
  figures TEXT NOT NULL DEFAULT '',
  UNIQUE (part_id, revision),
  UNIQUE (origin, revision)
) STRICT;

-- What the decision takes, as it was counted on that day.
CREATE TABLE quantity (
  id INTEGER PRIMARY KEY,
  history_id INTEGER NOT NULL REFERENCES history (id),
  decision_id INTEGER NOT NULL REFERENCES decision (id),
  what TEXT NOT NULL CHECK (what <> ''),
  value REAL NOT NULL,
  unit TEXT NOT NULL,
  UNIQUE (decision_id, what)
) STRICT;
