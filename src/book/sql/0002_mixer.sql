-- 0002_mixer.sql - what is at hand at the mixer: where a material's figures come
-- from, mixer and scale, foam generators and their checks, what really went
-- into a batch, and the order in which a trial is to be made.

ALTER TABLE material ADD COLUMN carbon_ratio REAL;    -- kg of CO2 per kg
ALTER TABLE material ADD COLUMN dilution_ratio REAL   -- water to 1 of agent
  CHECK (dilution_ratio >= 0);

-- Where a figure of a material comes from.
CREATE TABLE material_basis (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES material_basis (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  material_id INTEGER NOT NULL REFERENCES material (id),
  figure TEXT NOT NULL CHECK (figure IN ('particle_density', 'bulk_density',
    'moisture', 'absorption', 'carbon')),
  basis TEXT NOT NULL CHECK (basis IN ('typical', 'weighed', 'stated')),
  source TEXT NOT NULL DEFAULT '',
  UNIQUE (material_id, figure, revision),
  UNIQUE (origin, revision)
) STRICT;

-- The mixer and the scale: one of each holds at a time.
CREATE TABLE gear (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES gear (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  mixer_m3 REAL CHECK (mixer_m3 > 0),           -- the most it takes
  scale_step_kg REAL CHECK (scale_step_kg > 0),
  spare_ratio REAL CHECK (spare_ratio >= 0 AND spare_ratio <= 1),
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE generator (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES generator (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  metering TEXT NOT NULL CHECK (metering IN ('volume', 'seconds', 'density')),
  target_kg_m3 REAL NOT NULL CHECK (target_kg_m3 > 0),
  vessel_m3 REAL NOT NULL CHECK (vessel_m3 > 0),   -- true volume, by water
  vessel_u_m3 REAL CHECK (vessel_u_m3 >= 0),
  vessel_kg REAL NOT NULL CHECK (vessel_kg >= 0),  -- empty
  scale_step_kg REAL NOT NULL CHECK (scale_step_kg > 0),
  dilution_ratio REAL CHECK (dilution_ratio >= 0),
  rate_m3_s REAL CHECK (rate_m3_s > 0),
  note TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- The vessel of the generator filled with foam and weighed.
CREATE TABLE foam_check (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES foam_check (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  generator_id INTEGER NOT NULL REFERENCES generator (id),
  batch_id INTEGER REFERENCES batch (id),    -- NULL: between batches
  code TEXT NOT NULL CHECK (code <> ''),
  read_on TEXT NOT NULL DEFAULT '',
  moment TEXT NOT NULL CHECK (moment IN ('start', 'middle', 'end')),
  gross_kg REAL NOT NULL CHECK (gross_kg > 0),
  fill_s REAL CHECK (fill_s > 0),
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

ALTER TABLE batch ADD COLUMN generator_id INTEGER REFERENCES generator (id);
ALTER TABLE batch ADD COLUMN foam_m3 REAL CHECK (foam_m3 >= 0); -- put in
ALTER TABLE batch ADD COLUMN foam_s REAL CHECK (foam_s >= 0);   -- of running

-- What was really put in, in one batch, as weighed.
CREATE TABLE batch_part (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES batch_part (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  material_id INTEGER NOT NULL REFERENCES material (id),
  mass_kg REAL NOT NULL CHECK (mass_kg > 0),
  lot TEXT NOT NULL DEFAULT '',
  UNIQUE (batch_id, material_id, revision),
  UNIQUE (origin, revision)
) STRICT;

ALTER TABLE trial ADD COLUMN plan_seed INTEGER; -- draws the order again
ALTER TABLE trial ADD COLUMN pieces INTEGER CHECK (pieces >= 0); -- of a batch

-- The order in which the batches of a trial are to be made.
CREATE TABLE trial_slot (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES trial_slot (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  trial_id INTEGER NOT NULL REFERENCES trial (id),
  batch_code TEXT NOT NULL CHECK (batch_code <> ''),
  place INTEGER NOT NULL CHECK (place >= 1),
  day INTEGER NOT NULL CHECK (day >= 1),
  mix_id INTEGER NOT NULL REFERENCES mix (id),
  UNIQUE (trial_id, batch_code, revision),
  UNIQUE (origin, revision)
) STRICT;
