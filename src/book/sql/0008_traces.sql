-- 0008_traces.sql - files kept byte for byte, the traces of loggers that were
-- read from them, and how batches cured.

-- A file as it came; its code is the checksum of its bytes (BLAKE2b, 32 bytes,
-- RFC 7693), so that none is kept twice.
CREATE TABLE file (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES file (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (length(code) = 64),
  name TEXT NOT NULL,                        -- as it was called
  media TEXT NOT NULL,                       -- "text/csv"
  bytes INTEGER NOT NULL CHECK (bytes >= 0),
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

CREATE TABLE file_piece (
  id INTEGER PRIMARY KEY,
  history_id INTEGER NOT NULL REFERENCES history (id),
  file_id INTEGER NOT NULL REFERENCES file (id),
  place INTEGER NOT NULL CHECK (place >= 1),
  bytes BLOB NOT NULL,
  UNIQUE (file_id, place)
) STRICT;

-- A logger's trace, as it was understood, and what it says.
CREATE TABLE trace (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES trace (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  file_id INTEGER NOT NULL REFERENCES file (id),
  specimen_id INTEGER REFERENCES specimen (id),
  kind TEXT NOT NULL CHECK (kind IN ('load', 'blow', 'temperature')),
  how TEXT NOT NULL,                         -- how it was understood
  rows INTEGER NOT NULL CHECK (rows >= 2),
  skipped INTEGER NOT NULL CHECK (skipped >= 0),
  dated INTEGER NOT NULL CHECK (dated IN (0, 1)),
  first_s REAL NOT NULL,
  last_s REAL NOT NULL CHECK (last_s >= first_s),
  gap_s REAL NOT NULL CHECK (gap_s >= 0),    -- longest between two rows
  gap_at_s REAL NOT NULL,
  division REAL NOT NULL CHECK (division >= 0), -- SI of the kind
  highest REAL NOT NULL,
  lowest REAL NOT NULL,
  zero REAL,                                 -- taken off a load
  crack_n REAL,
  after_n REAL,
  end_n REAL,
  stiffness_n_m REAL,
  energy_j REAL,
  crack_energy_j REAL,
  blow_s REAL CHECK (blow_s >= 0),
  speed_lost_m_s REAL,
  depth_m REAL,
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;

-- The same as few points: for a picture and for a temperature's history.
CREATE TABLE trace_point (
  id INTEGER PRIMARY KEY,
  history_id INTEGER NOT NULL REFERENCES history (id),
  trace_id INTEGER NOT NULL REFERENCES trace (id),
  place INTEGER NOT NULL CHECK (place >= 1),
  from_s REAL NOT NULL,
  to_s REAL NOT NULL CHECK (to_s >= from_s),
  mean REAL NOT NULL,
  low REAL NOT NULL,
  high REAL NOT NULL,
  sag_m REAL,
  UNIQUE (trace_id, place)
) STRICT;

-- How a batch cured for a while: at a temperature that was said or logged.
CREATE TABLE cure (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES cure (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  code TEXT NOT NULL CHECK (code <> ''),
  from_s INTEGER NOT NULL,                   -- since 1970, UTC
  to_s INTEGER NOT NULL CHECK (to_s > from_s),
  degc REAL,
  trace_id INTEGER REFERENCES trace (id),
  keeping TEXT NOT NULL CHECK (keeping IN ('', 'wrapped', 'moist', 'water',
    'air')),
  remark TEXT NOT NULL DEFAULT '',
  CHECK ((degc IS NULL) <> (trace_id IS NULL)),
  UNIQUE (batch_id, code, revision),
  UNIQUE (origin, revision)
) STRICT;
