-- A book of version 1, as the first version of the program made it: the plan of
-- demo/ with its batches 01 and 02 (invented), dumped table by table.
BEGIN;
PRAGMA application_id = 1182233204;
PRAGMA user_version = 1;
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
CREATE TABLE quantity (
  id INTEGER PRIMARY KEY,
  history_id INTEGER NOT NULL REFERENCES history (id),
  decision_id INTEGER NOT NULL REFERENCES decision (id),
  what TEXT NOT NULL CHECK (what <> ''),
  value REAL NOT NULL,
  unit TEXT NOT NULL,
  UNIQUE (decision_id, what)
) STRICT;
INSERT INTO history VALUES(1,'2026-11-25T13:15:12Z','tester','new book','',NULL,X'b79ab5d215995cc4d5a11da6000d855f0e3b21cd37bf96d9ffaac725c2d56dbe',X'fc83037a67215469d5d9b49bdfecd944a3563478278b531db05573b5dc42d677');
INSERT INTO history VALUES(2,'2026-11-25T13:15:12Z','tester','import','readings-may',NULL,X'348558ccbe335b763a49338540b7ab0f7b031a0e35c3ff66ba9b416e00b6a19b',X'1f1403487bbabf6d3122df3f6ed8a0261d640862ff63ae9392d73e0352b76ab4');
INSERT INTO book_info VALUES(1,1,1,0,1,'','Stored book','','us','units');
INSERT INTO material VALUES(1,1,1,0,2,'{"code": "cement", "name": "cement", "role": "cement", "package [kg]": "25", "price [units]": "3.50"}','cement','cement','cement',NULL,NULL,NULL,NULL,NULL,25.0,350,'');
INSERT INTO material VALUES(2,2,1,0,2,'{"code": "ash", "name": "fly ash", "role": "binder", "package [kg]": "25", "price [units]": "1.25"}','ash','fly ash','binder',NULL,NULL,NULL,NULL,NULL,25.0,125,'');
INSERT INTO material VALUES(3,3,1,0,2,'{"code": "water", "name": "rain water from the tank", "role": "water", "hardness [mg/L]": "34", "note": "drop kit; the well water (290 by strip) was never used"}','water','rain water from the tank','water',NULL,NULL,NULL,NULL,0.034,NULL,NULL,'drop kit; the well water (290 by strip) was never used');
INSERT INTO material VALUES(4,4,1,0,2,'{"code": "agent-s", "name": "synthetic agent 1:40", "role": "agent", "package [kg]": "20", "price [units]": "80.00", "note": "package size invented"}','agent-s','synthetic agent 1:40','agent',NULL,NULL,NULL,NULL,NULL,20.0,8000,'package size invented');
INSERT INTO material VALUES(5,5,1,0,2,'{"code": "agent-p", "name": "protein agent 1:33", "role": "agent", "package [kg]": "20", "price [units]": "110.00", "note": "package size invented"}','agent-p','protein agent 1:33','agent',NULL,NULL,NULL,NULL,NULL,20.0,11000,'package size invented');
INSERT INTO material VALUES(6,6,1,0,2,'{"code": "fibre", "name": "PP micro fibre 12 mm", "role": "fibre", "package [kg]": "1", "price [units]": "9.00", "note": "package size invented"}','fibre','PP micro fibre 12 mm','fibre',NULL,NULL,NULL,NULL,NULL,1.0,900,'package size invented');
INSERT INTO mix VALUES(1,1,1,0,2,'{"code": "B", "name": "Baseline", "why": "ordinary mix", "matrix": "B", "wet_target [kg/m3]": "720", "foam [L/m3]": "636", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "456", "mass_water [kg/m3]": "219", "mass_agent-s [kg/m3]": "1.085"}','B','Baseline','ordinary mix','B','',720.0,0.636,70.0,NULL);
INSERT INTO mix VALUES(2,2,1,0,2,'{"code": "D", "name": "Dense", "why": "floor; also gives the density exponent", "matrix": "D", "wet_target [kg/m3]": "880", "foam [L/m3]": "546", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "569", "mass_water [kg/m3]": "273", "mass_agent-s [kg/m3]": "1.085"}','D','Dense','floor; also gives the density exponent','D','',880.0,0.546,70.0,NULL);
INSERT INTO mix VALUES(3,3,1,0,2,'{"code": "L", "name": "Light", "why": "roof fill", "matrix": "L", "wet_target [kg/m3]": "480", "foam [L/m3]": "770", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "288", "mass_water [kg/m3]": "138", "mass_agent-s [kg/m3]": "1.085"}','L','Light','roof fill','L','',480.0,0.77,70.0,NULL);
INSERT INTO mix VALUES(4,4,1,0,2,'{"code": "F", "name": "Ash", "why": "cost", "matrix": "F", "wet_target [kg/m3]": "720", "foam [L/m3]": "619", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "320", "mass_ash [kg/m3]": "137", "mass_water [kg/m3]": "219", "mass_agent-s [kg/m3]": "1.085"}','F','Ash','cost','F','',720.0,0.619,70.0,NULL);
INSERT INTO mix VALUES(5,5,1,0,2,'{"code": "P", "name": "PP fibre", "why": "cracking", "matrix": "P", "wet_target [kg/m3]": "720", "foam [L/m3]": "636", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "456", "mass_water [kg/m3]": "219", "mass_agent-s [kg/m3]": "1.085", "mass_fibre [kg/m3]": "1.2"}','P','PP fibre','cracking','P','',720.0,0.636,70.0,NULL);
INSERT INTO mix VALUES(6,6,1,0,2,'{"code": "Q", "name": "Protein", "why": "finer bubbles", "matrix": "Q", "wet_target [kg/m3]": "720", "foam [L/m3]": "635", "foam_target [g/L]": "66", "mass_cement [kg/m3]": "458", "mass_water [kg/m3]": "220", "mass_agent-p [kg/m3]": "1.23"}','Q','Protein','finer bubbles','Q','',720.0,0.635,66.0,NULL);
INSERT INTO mix VALUES(7,7,1,0,2,'{"code": "W", "name": "Ladder wire", "why": "lintel strips", "matrix": "B", "reinforcement": "one ladder strip of two 4 mm galvanised wires, cross wires every 100 mm, 15 mm cover; 0.6 units a m", "wet_target [kg/m3]": "720", "foam [L/m3]": "636", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "456", "mass_water [kg/m3]": "219", "mass_agent-s [kg/m3]": "1.085"}','W','Ladder wire','lintel strips','B','one ladder strip of two 4 mm galvanised wires, cross wires every 100 mm, 15 mm cover; 0.6 units a m',720.0,0.636,70.0,NULL);
INSERT INTO mix VALUES(8,8,1,0,2,'{"code": "G", "name": "Glass mesh", "why": "wall skin", "matrix": "B", "reinforcement": "one alkali-resistant glass mesh layer 10 mm from the bottom; 1.1 units a m2", "wet_target [kg/m3]": "720", "foam [L/m3]": "636", "foam_target [g/L]": "70", "mass_cement [kg/m3]": "456", "mass_water [kg/m3]": "219", "mass_agent-s [kg/m3]": "1.085"}','G','Glass mesh','wall skin','B','one alkali-resistant glass mesh layer 10 mm from the bottom; 1.1 units a m2',720.0,0.636,70.0,NULL);
INSERT INTO mix_part VALUES(1,1,1,0,2,'{"mass": "456 kg/m3"}',1,1,456.0);
INSERT INTO mix_part VALUES(2,2,1,0,2,'{"mass": "219 kg/m3"}',1,3,219.0);
INSERT INTO mix_part VALUES(3,3,1,0,2,'{"mass": "1.085 kg/m3"}',1,4,1.085);
INSERT INTO mix_part VALUES(4,4,1,0,2,'{"mass": "569 kg/m3"}',2,1,569.0);
INSERT INTO mix_part VALUES(5,5,1,0,2,'{"mass": "273 kg/m3"}',2,3,273.0);
INSERT INTO mix_part VALUES(6,6,1,0,2,'{"mass": "1.085 kg/m3"}',2,4,1.085);
INSERT INTO mix_part VALUES(7,7,1,0,2,'{"mass": "288 kg/m3"}',3,1,288.0);
INSERT INTO mix_part VALUES(8,8,1,0,2,'{"mass": "138 kg/m3"}',3,3,138.0);
INSERT INTO mix_part VALUES(9,9,1,0,2,'{"mass": "1.085 kg/m3"}',3,4,1.085);
INSERT INTO mix_part VALUES(10,10,1,0,2,'{"mass": "320 kg/m3"}',4,1,320.0);
INSERT INTO mix_part VALUES(11,11,1,0,2,'{"mass": "137 kg/m3"}',4,2,137.0);
INSERT INTO mix_part VALUES(12,12,1,0,2,'{"mass": "219 kg/m3"}',4,3,219.0);
INSERT INTO mix_part VALUES(13,13,1,0,2,'{"mass": "1.085 kg/m3"}',4,4,1.085);
INSERT INTO mix_part VALUES(14,14,1,0,2,'{"mass": "456 kg/m3"}',5,1,456.0);
INSERT INTO mix_part VALUES(15,15,1,0,2,'{"mass": "219 kg/m3"}',5,3,219.0);
INSERT INTO mix_part VALUES(16,16,1,0,2,'{"mass": "1.085 kg/m3"}',5,4,1.085);
INSERT INTO mix_part VALUES(17,17,1,0,2,'{"mass": "1.2 kg/m3"}',5,6,1.2);
INSERT INTO mix_part VALUES(18,18,1,0,2,'{"mass": "458 kg/m3"}',6,1,458.0);
INSERT INTO mix_part VALUES(19,19,1,0,2,'{"mass": "220 kg/m3"}',6,3,220.0);
INSERT INTO mix_part VALUES(20,20,1,0,2,'{"mass": "1.23 kg/m3"}',6,5,1.23);
INSERT INTO mix_part VALUES(21,21,1,0,2,'{"mass": "456 kg/m3"}',7,1,456.0);
INSERT INTO mix_part VALUES(22,22,1,0,2,'{"mass": "219 kg/m3"}',7,3,219.0);
INSERT INTO mix_part VALUES(23,23,1,0,2,'{"mass": "1.085 kg/m3"}',7,4,1.085);
INSERT INTO mix_part VALUES(24,24,1,0,2,'{"mass": "456 kg/m3"}',8,1,456.0);
INSERT INTO mix_part VALUES(25,25,1,0,2,'{"mass": "219 kg/m3"}',8,3,219.0);
INSERT INTO mix_part VALUES(26,26,1,0,2,'{"mass": "1.085 kg/m3"}',8,4,1.085);
INSERT INTO trial VALUES(1,1,1,0,2,'{"code": "T1", "question": "Which mix for the floor layer, the walls and the roof fill?", "baseline": "B"}','T1','Which mix for the floor layer, the walls and the roof fill?',1);
INSERT INTO trial_rule VALUES(1,1,1,0,2,'{"trial": "T1", "code": "settled", "measure": "settling_loss_24h", "above": "15 %", "action": "exclude", "set_on": "2026-03-13", "reason": "settled this far it is another material"}',1,'settled','settling_loss_24h',0.15,'exclude','2026-03-13','settled this far it is another material');
INSERT INTO trial_rule VALUES(2,2,1,0,2,'{"trial": "T1", "code": "wet", "measure": "wet_density_off", "above": "10 %", "action": "exclude", "set_on": "2026-03-13", "reason": "not the mix that was meant"}',1,'wet','wet_density_off',0.1,'exclude','2026-03-13','not the mix that was meant');
INSERT INTO trial_rule VALUES(3,3,1,0,2,'{"trial": "T1", "code": "foam", "measure": "foam_density_off", "above": "10 %", "action": "flag", "set_on": "2026-03-13", "reason": "the foam was not the foam that was meant"}',1,'foam','foam_density_off',0.1,'flag','2026-03-13','the foam was not the foam that was meant');
INSERT INTO trial_rule VALUES(4,4,1,0,2,'{"trial": "T1", "code": "moist", "measure": "moisture", "above": "13 %", "action": "flag", "set_on": "2026-03-13", "reason": "more than 5 points above the 8 % that is the top of the usual 5 to 8 %"}',1,'moist','moisture',0.13,'flag','2026-03-13','more than 5 points above the 8 % that is the top of the usual 5 to 8 %');
INSERT INTO batch VALUES(1,1,1,0,2,'{"code": "01", "trial": "T1", "mix": "B", "practice": "no", "made_on": "2026-03-16", "day": "1", "water_hardness [mg/L]": "34", "air [degC]": "17", "slurry_temperature [degC]": "19", "blending [min]": "2.2", "slurry_density [kg/m3]": "1850", "foam_start [g/L]": "71", "foam_middle [g/L]": "70", "foam_end [g/L]": "72", "wet [kg/m3]": "725", "volume [L]": "29.8", "spread [mm]": "165", "consistency": "2", "loss_15min [%]": "0", "loss_1h [%]": "0", "loss_3h [%]": "1", "loss_24h [%]": "1"}','01',1,1,0,'before','2026-03-16',1,0.034,17.0,19.0,132.0,1850.0,71.0,70.0,72.0,725.0,0.0298,0.165,2,'');
INSERT INTO batch VALUES(2,2,1,0,2,'{"code": "02", "trial": "T1", "mix": "P", "practice": "no", "made_on": "2026-03-16", "day": "1", "water_hardness [mg/L]": "34", "air [degC]": "18", "slurry_temperature [degC]": "20", "blending [min]": "2.6", "slurry_density [kg/m3]": "1845", "foam_start [g/L]": "72", "foam_middle [g/L]": "73", "foam_end [g/L]": "72", "wet [kg/m3]": "725", "volume [L]": "29.9", "spread [mm]": "150", "consistency": "3", "loss_15min [%]": "0", "loss_1h [%]": "0", "loss_3h [%]": "0", "loss_24h [%]": "0"}','02',1,5,0,'before','2026-03-16',1,0.034,18.0,20.0,156.0,1845.0,72.0,73.0,72.0,725.0,0.0299,0.15,3,'');
INSERT INTO settling VALUES(1,1,1,0,2,'{"loss_15min": "0 %"}',1,900.0,0.0);
INSERT INTO settling VALUES(2,2,1,0,2,'{"loss_1h": "0 %"}',1,3600.0,0.0);
INSERT INTO settling VALUES(3,3,1,0,2,'{"loss_3h": "1 %"}',1,10800.0,0.01);
INSERT INTO settling VALUES(4,4,1,0,2,'{"loss_24h": "1 %"}',1,86400.0,0.01);
INSERT INTO settling VALUES(5,5,1,0,2,'{"loss_15min": "0 %"}',2,900.0,0.0);
INSERT INTO settling VALUES(6,6,1,0,2,'{"loss_1h": "0 %"}',2,3600.0,0.0);
INSERT INTO settling VALUES(7,7,1,0,2,'{"loss_3h": "0 %"}',2,10800.0,0.0);
INSERT INTO settling VALUES(8,8,1,0,2,'{"loss_24h": "0 %"}',2,86400.0,0.0);
INSERT INTO specimen VALUES(1,1,1,0,2,'{"code": "01-B-1", "batch": "01", "form": "beam", "width [mm]": "100", "depth [mm]": "73.5", "length [mm]": "700", "mass [kg]": "3.02", "moisture [%]": "6", "fate": "tested", "fate_age": "28 d", "reinforced": "no", "remark": "one bag sat on the rim (off centre)"}','01-B-1',1,'beam',0.1,0.0735,0.7000000000000001,NULL,3.02,0.06,'tested',2419200.0,0,'one bag sat on the rim (off centre)');
INSERT INTO specimen VALUES(2,2,1,0,2,'{"code": "01-B-2", "batch": "01", "form": "beam", "width [mm]": "100", "depth [mm]": "73.9", "length [mm]": "700", "mass [kg]": "3.05", "moisture [%]": "6", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','01-B-2',1,'beam',0.1,0.07390000000000001,0.7000000000000001,NULL,3.05,0.06,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(3,3,1,0,2,'{"code": "01-B-3", "batch": "01", "form": "beam", "width [mm]": "100", "depth [mm]": "73.6", "length [mm]": "700", "mass [kg]": "3.05", "moisture [%]": "6", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','01-B-3',1,'beam',0.1,0.0736,0.7000000000000001,NULL,3.05,0.06,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(4,4,1,0,2,'{"code": "02-P-1", "batch": "02", "form": "beam", "width [mm]": "99", "depth [mm]": "75.1", "length [mm]": "700", "mass [kg]": "3.04", "moisture [%]": "5", "fate": "tested", "fate_age": "28 d", "reinforced": "no", "remark": "sagged and held 30 s at the same load; then unloaded"}','02-P-1',2,'beam',0.099,0.0751,0.7000000000000001,NULL,3.04,0.05,'tested',2419200.0,0,'sagged and held 30 s at the same load; then unloaded');
INSERT INTO specimen VALUES(5,5,1,0,2,'{"code": "02-P-2", "batch": "02", "form": "beam", "width [mm]": "100", "depth [mm]": "74.9", "length [mm]": "700", "mass [kg]": "3.06", "moisture [%]": "5", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','02-P-2',2,'beam',0.1,0.07490000000000001,0.7000000000000001,NULL,3.06,0.05,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(6,6,1,0,2,'{"code": "02-P-3", "batch": "02", "form": "beam", "width [mm]": "100", "depth [mm]": "75.3", "length [mm]": "700", "mass [kg]": "3.07", "moisture [%]": "5", "fate": "tested", "fate_age": "28 d", "reinforced": "no", "remark": "sagged and held 30 s at the same load; then unloaded"}','02-P-3',2,'beam',0.1,0.07529999999999999,0.7000000000000001,NULL,3.07,0.05,'tested',2419200.0,0,'sagged and held 30 s at the same load; then unloaded');
INSERT INTO specimen VALUES(7,7,1,0,2,'{"code": "01-B-p1", "batch": "01", "form": "panel", "width [mm]": "300", "depth [mm]": "59", "length [mm]": "300", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','01-B-p1',1,'panel',0.3,0.059000000000000004,0.3,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(8,8,1,0,2,'{"code": "02-P-p1", "batch": "02", "form": "panel", "width [mm]": "300", "depth [mm]": "60", "length [mm]": "300", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','02-P-p1',2,'panel',0.3,0.06,0.3,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(9,9,1,0,2,'{"code": "01-B-c1", "batch": "01", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "7 d", "reinforced": "no"}','01-B-c1',1,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',604800.0,0,'');
INSERT INTO specimen VALUES(10,10,1,0,2,'{"code": "01-B-c2", "batch": "01", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','01-B-c2',1,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(11,11,1,0,2,'{"code": "01-B-c3", "batch": "01", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','01-B-c3',1,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(12,12,1,0,2,'{"code": "02-P-c1", "batch": "02", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "7 d", "reinforced": "no"}','02-P-c1',2,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',604800.0,0,'');
INSERT INTO specimen VALUES(13,13,1,0,2,'{"code": "02-P-c2", "batch": "02", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','02-P-c2',2,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(14,14,1,0,2,'{"code": "02-P-c3", "batch": "02", "form": "cube", "width [mm]": "100", "depth [mm]": "100", "length [mm]": "100", "fate": "tested", "fate_age": "28 d", "reinforced": "no"}','02-P-c3',2,'cube',0.1,0.1,0.1,NULL,NULL,NULL,'tested',2419200.0,0,'');
INSERT INTO specimen VALUES(15,15,1,0,2,'{"code": "01-B-o1", "batch": "01", "form": "other", "fate": "tested", "fate_age": "28 d", "reinforced": "no", "remark": "side tests"}','01-B-o1',1,'other',NULL,NULL,NULL,NULL,NULL,NULL,'tested',2419200.0,0,'side tests');
INSERT INTO specimen VALUES(16,16,1,0,2,'{"code": "02-P-o1", "batch": "02", "form": "other", "fate": "tested", "fate_age": "28 d", "reinforced": "no", "remark": "side tests"}','02-P-o1',2,'other',NULL,NULL,NULL,NULL,NULL,NULL,'tested',2419200.0,0,'side tests');
INSERT INTO reading VALUES(1,1,1,0,2,'{"specimen": "01-B-1", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "18.6", "broke [kg]": "20.6", "hold [s]": "11", "remark": "one bag sat on the rim (off centre)"}',1,'1','bending',2419200.0,'one bag sat on the rim (off centre)');
INSERT INTO reading VALUES(2,2,1,0,2,'{"specimen": "01-B-2", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "22.6", "broke [kg]": "24.6", "hold [s]": "14"}',2,'1','bending',2419200.0,'');
INSERT INTO reading VALUES(3,3,1,0,2,'{"specimen": "01-B-3", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "20.6", "broke [kg]": "22.6", "hold [s]": "8"}',3,'1','bending',2419200.0,'');
INSERT INTO reading VALUES(4,4,1,0,2,'{"specimen": "02-P-1", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "22.6", "broke [kg]": "24.6", "hold [s]": "8", "after_held [kg]": "22.6", "sag [mm]": "6", "remark": "sagged and held 30 s at the same load; then unloaded"}',4,'1','bending',2419200.0,'sagged and held 30 s at the same load; then unloaded');
INSERT INTO reading VALUES(5,5,1,0,2,'{"specimen": "02-P-2", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "24.6", "broke [kg]": "26.6", "hold [s]": "8"}',5,'1','bending',2419200.0,'');
INSERT INTO reading VALUES(6,6,1,0,2,'{"specimen": "02-P-3", "code": "1", "kind": "bending", "age": "28 d", "loading": "centre", "span [mm]": "600", "strap [mm]": "50", "on_rig [kg]": "2.60", "on_rig_included": "yes", "held [kg]": "26.6", "broke [kg]": "28.6", "hold [s]": "3", "after_held [kg]": "26.6", "sag [mm]": "9", "remark": "sagged and held 30 s at the same load; then unloaded"}',6,'1','bending',2419200.0,'sagged and held 30 s at the same load; then unloaded');
INSERT INTO reading VALUES(7,7,1,0,2,'{"specimen": "01-B-p1", "code": "centre", "kind": "drop", "age": "28 d", "place": "centre", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "13.5", "went_through": "no", "cracked": "no"}',7,'centre','drop',2419200.0,'');
INSERT INTO reading VALUES(8,8,1,0,2,'{"specimen": "01-B-p1", "code": "edge", "kind": "drop", "age": "28 d", "place": "edge", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "14.0", "went_through": "no", "cracked": "no"}',7,'edge','drop',2419200.0,'');
INSERT INTO reading VALUES(9,9,1,0,2,'{"specimen": "01-B-p1", "code": "corner", "kind": "drop", "age": "28 d", "place": "corner", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "16.5", "went_through": "no", "cracked": "no"}',7,'corner','drop',2419200.0,'');
INSERT INTO reading VALUES(10,10,1,0,2,'{"specimen": "02-P-p1", "code": "centre", "kind": "drop", "age": "28 d", "place": "centre", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "12.5", "went_through": "no", "cracked": "no"}',8,'centre','drop',2419200.0,'');
INSERT INTO reading VALUES(11,11,1,0,2,'{"specimen": "02-P-p1", "code": "edge", "kind": "drop", "age": "28 d", "place": "edge", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "13.5", "went_through": "no", "cracked": "no"}',8,'edge','drop',2419200.0,'');
INSERT INTO reading VALUES(12,12,1,0,2,'{"specimen": "02-P-p1", "code": "corner", "kind": "drop", "age": "28 d", "place": "corner", "bar [kg]": "2.40", "height [m]": "0.90", "tip": "ball", "tip_diameter [mm]": "25", "tube_loss [%]": "6", "dent [mm]": "16.0", "went_through": "no", "cracked": "no"}',8,'corner','drop',2419200.0,'');
INSERT INTO reading VALUES(13,13,1,0,2,'{"specimen": "01-B-c1", "code": "1", "kind": "crushing", "age": "7 d", "gauge [bar]": "73.75", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',9,'1','crushing',604800.0,'');
INSERT INTO reading VALUES(14,14,1,0,2,'{"specimen": "01-B-c2", "code": "1", "kind": "crushing", "age": "28 d", "gauge [bar]": "98.75", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',10,'1','crushing',2419200.0,'');
INSERT INTO reading VALUES(15,15,1,0,2,'{"specimen": "01-B-c3", "code": "1", "kind": "crushing", "age": "28 d", "gauge [bar]": "98.75", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',11,'1','crushing',2419200.0,'');
INSERT INTO reading VALUES(16,16,1,0,2,'{"specimen": "02-P-c1", "code": "1", "kind": "crushing", "age": "7 d", "gauge [bar]": "86.25", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',12,'1','crushing',604800.0,'');
INSERT INTO reading VALUES(17,17,1,0,2,'{"specimen": "02-P-c2", "code": "1", "kind": "crushing", "age": "28 d", "gauge [bar]": "106.25", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',13,'1','crushing',2419200.0,'');
INSERT INTO reading VALUES(18,18,1,0,2,'{"specimen": "02-P-c3", "code": "1", "kind": "crushing", "age": "28 d", "gauge [bar]": "97.50", "gauge_zero [bar]": "0", "gauge_step [bar]": "1.25", "ram_diameter [mm]": "40"}',14,'1','crushing',2419200.0,'');
INSERT INTO reading VALUES(19,19,1,0,2,'{"specimen": "01-B-o1", "code": "1", "kind": "other", "age": "28 d", "quantity": "water_taken_up_by_volume", "value": "17 %"}',15,'1','other',2419200.0,'');
INSERT INTO reading VALUES(20,20,1,0,2,'{"specimen": "02-P-o1", "code": "1", "kind": "other", "age": "28 d", "quantity": "water_taken_up_by_volume", "value": "17 %"}',16,'1','other',2419200.0,'');
INSERT INTO reading_bending VALUES(1,2,'centre',0.6,0.05,2.6,1,18.6,20.6,11.0,NULL,NULL,NULL);
INSERT INTO reading_bending VALUES(2,2,'centre',0.6,0.05,2.6,1,22.6,24.6,14.0,NULL,NULL,NULL);
INSERT INTO reading_bending VALUES(3,2,'centre',0.6,0.05,2.6,1,20.6,22.6,8.0,NULL,NULL,NULL);
INSERT INTO reading_bending VALUES(4,2,'centre',0.6,0.05,2.6,1,22.6,24.6,8.0,22.6,NULL,0.006);
INSERT INTO reading_bending VALUES(5,2,'centre',0.6,0.05,2.6,1,24.6,26.6,8.0,NULL,NULL,NULL);
INSERT INTO reading_bending VALUES(6,2,'centre',0.6,0.05,2.6,1,26.6,28.6,3.0,26.6,NULL,0.009000000000000001);
INSERT INTO reading_drop VALUES(7,2,'centre',2.4,0.9,'ball',0.025,NULL,0.06,0.0135,0,0);
INSERT INTO reading_drop VALUES(8,2,'edge',2.4,0.9,'ball',0.025,NULL,0.06,0.014,0,0);
INSERT INTO reading_drop VALUES(9,2,'corner',2.4,0.9,'ball',0.025,NULL,0.06,0.0165,0,0);
INSERT INTO reading_drop VALUES(10,2,'centre',2.4,0.9,'ball',0.025,NULL,0.06,0.0125,0,0);
INSERT INTO reading_drop VALUES(11,2,'edge',2.4,0.9,'ball',0.025,NULL,0.06,0.0135,0,0);
INSERT INTO reading_drop VALUES(12,2,'corner',2.4,0.9,'ball',0.025,NULL,0.06,0.016,0,0);
INSERT INTO reading_crushing VALUES(13,2,7375000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_crushing VALUES(14,2,9875000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_crushing VALUES(15,2,9875000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_crushing VALUES(16,2,8625000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_crushing VALUES(17,2,10625000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_crushing VALUES(18,2,9750000.0,0.0,125000.0,0.04,NULL,NULL,NULL);
INSERT INTO reading_other VALUES(19,2,'water_taken_up_by_volume',0.17);
INSERT INTO reading_other VALUES(20,2,'water_taken_up_by_volume',0.17);
INSERT INTO part VALUES(1,1,1,0,2,'{"code": "floor", "name": "Floor layer", "kind": "floor", "thickness [mm]": "80", "volume [m3]": "4.3", "least_bending_strength [N/mm2]": "0.45", "least_crushing_energy [J/cm3]": "6", "requirement_source": "duty sheet", "note": "outside area 54.36 m2 x 80 mm = 4.35 m3; the duty sheet says 4.3"}','floor','Floor layer','floor',NULL,NULL,0.08,NULL,4.3,NULL,NULL,'outside area 54.36 m2 x 80 mm = 4.35 m3; the duty sheet says 4.3');
INSERT INTO part VALUES(2,2,1,0,2,'{"code": "wall-w", "name": "Workshop walls", "kind": "wall", "length [m]": "22.0", "height [m]": "2.4", "thickness [mm]": "200", "openings [m2]": "7.2", "least_screw_pull [kN]": "0.4", "most_dry_density [kg/m3]": "700", "requirement_source": "duty sheet", "note": "9.12 m3; bending as high as possible"}','wall-w','Workshop walls','wall',22.0,2.4,0.2,7.2,NULL,NULL,NULL,'9.12 m3; bending as high as possible');
INSERT INTO part VALUES(3,3,1,0,2,'{"code": "wall-g", "name": "Guest house walls", "kind": "wall", "length [m]": "18.4", "height [m]": "2.4", "thickness [mm]": "200", "openings [m2]": "6.0", "least_screw_pull [kN]": "0.4", "most_dry_density [kg/m3]": "700", "requirement_source": "duty sheet", "note": "7.63 m3; bending as high as possible"}','wall-g','Guest house walls','wall',18.4,2.4,0.2,6.0,NULL,NULL,NULL,'7.63 m3; bending as high as possible');
INSERT INTO part VALUES(4,4,1,0,2,'{"code": "roof", "name": "Roof fill", "kind": "roof", "thickness [mm]": "120", "volume [m3]": "7.0", "most_dry_density [kg/m3]": "420", "most_settling_loss [%]": "5", "most_breakage [%]": "0", "requirement_source": "duty sheet", "note": "outside area 54.36 m2 x 120 mm = 6.52 m3; the duty sheet says 7.0"}','roof','Roof fill','roof',NULL,NULL,0.12,NULL,7.0,NULL,NULL,'outside area 54.36 m2 x 120 mm = 6.52 m3; the duty sheet says 7.0');
INSERT INTO requirement VALUES(1,1,1,0,2,'{"least_bending_strength": "0.45 N/mm2"}',1,'bending_strength','least',450000.0,'duty sheet');
INSERT INTO requirement VALUES(2,2,1,0,2,'{"least_crushing_energy": "6 J/cm3"}',1,'crushing_energy','least',6000000.0,'duty sheet');
INSERT INTO requirement VALUES(3,3,1,0,2,'{"least_screw_pull": "0.4 kN"}',2,'screw_pull','least',400.0,'duty sheet');
INSERT INTO requirement VALUES(4,4,1,0,2,'{"most_dry_density": "700 kg/m3"}',2,'dry_density','most',700.0,'duty sheet');
INSERT INTO requirement VALUES(5,5,1,0,2,'{"least_screw_pull": "0.4 kN"}',3,'screw_pull','least',400.0,'duty sheet');
INSERT INTO requirement VALUES(6,6,1,0,2,'{"most_dry_density": "700 kg/m3"}',3,'dry_density','most',700.0,'duty sheet');
INSERT INTO requirement VALUES(7,7,1,0,2,'{"most_dry_density": "420 kg/m3"}',4,'dry_density','most',420.0,'duty sheet');
INSERT INTO requirement VALUES(8,8,1,0,2,'{"most_settling_loss": "5 %"}',4,'settling_loss','most',0.05,'duty sheet');
INSERT INTO requirement VALUES(9,9,1,0,2,'{"most_breakage": "0 %"}',4,'breakage','most',0.0,'duty sheet');
COMMIT;
