-- 0011_photo.sql - photos of batches: which file, of what, how large.
CREATE TABLE photo (
  id INTEGER PRIMARY KEY,
  origin INTEGER NOT NULL REFERENCES photo (id),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1)),
  history_id INTEGER NOT NULL REFERENCES history (id),
  typed TEXT NOT NULL DEFAULT '',
  code TEXT NOT NULL CHECK (code <> ''),
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  file_id INTEGER NOT NULL REFERENCES file (id),
  added_s INTEGER NOT NULL,                  -- since 1970, UTC
  width INTEGER NOT NULL CHECK (width >= 1), -- pixels, as it is shown
  height INTEGER NOT NULL CHECK (height >= 1),
  remark TEXT NOT NULL DEFAULT '',
  UNIQUE (code, revision),
  UNIQUE (origin, revision)
) STRICT;
