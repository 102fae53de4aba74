-- +goose Up

-- A tank is the aquarium a person sets up; 'example' comes with the program,
-- 'profile' from a starter profile.
CREATE TABLE tank (
  id      TEXT NOT NULL PRIMARY KEY,
  name    TEXT NOT NULL,
  origin  TEXT NOT NULL CHECK (origin IN ('own', 'example', 'profile')),
  created TEXT NOT NULL,
  retired TEXT,
  deleted TEXT
) STRICT;

-- One answered field of the guided set-up; text is the answer as typed.
CREATE TABLE answer (
  tank   TEXT NOT NULL REFERENCES tank (id),
  field  TEXT NOT NULL,
  kind   TEXT NOT NULL,
  text   TEXT NOT NULL,
  unit   TEXT,
  basis  TEXT,
  origin TEXT NOT NULL CHECK (origin IN ('person', 'profile', 'default')),
  at     TEXT NOT NULL,
  PRIMARY KEY (tank, field)
) STRICT, WITHOUT ROWID;

-- A step finished; basis is JSON of the answers it relied on.
CREATE TABLE done (
  tank  TEXT NOT NULL REFERENCES tank (id),
  step  TEXT NOT NULL,
  at    TEXT NOT NULL,
  basis TEXT NOT NULL CHECK (json_valid(basis)),
  PRIMARY KEY (tank, step)
) STRICT, WITHOUT ROWID;

-- A safety note acknowledged, with the text that was shown.
CREATE TABLE ack (
  id          TEXT NOT NULL PRIMARY KEY,
  tank        TEXT NOT NULL REFERENCES tank (id),
  step        TEXT NOT NULL,
  note        TEXT NOT NULL,
  lang        TEXT NOT NULL,
  shown       TEXT NOT NULL,
  source_hash TEXT NOT NULL,
  at          TEXT NOT NULL
) STRICT;
CREATE INDEX ack_by_tank ON ack (tank, at);

-- An entry of the daybook. at is what the wall clock showed, zone its offset
-- from UTC, seq the order of insertion, which no clock can disturb.
CREATE TABLE entry (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  kind    TEXT NOT NULL,
  at      TEXT NOT NULL CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-1][0-9]-[0-3][0-9]T[0-2][0-9]:[0-5][0-9]*'),
  zone    TEXT NOT NULL CHECK (zone GLOB '[+-][0-1][0-9]:[0-5][0-9]'),
  seq     INTEGER NOT NULL,
  note    TEXT,
  step    TEXT,
  deleted TEXT,
  edited  TEXT
) STRICT, WITHOUT ROWID;
CREATE INDEX entry_by_tank ON entry (tank, at, seq);
CREATE INDEX entry_by_seq ON entry (seq);

-- One reading of an entry, as typed.
CREATE TABLE entry_value (
  entry     TEXT NOT NULL REFERENCES entry (id),
  name      TEXT NOT NULL,
  text      TEXT NOT NULL,
  unit      TEXT,
  basis     TEXT,
  qualifier TEXT NOT NULL CHECK (qualifier IN ('', 'not_detected', 'over_range')),
  PRIMARY KEY (entry, name)
) STRICT, WITHOUT ROWID;

-- A running wait (acclimation, heating up). elapsed_ms is what a clock that
-- cannot be set has counted up to last_seen, so that a changed wall clock does
-- not lengthen or shorten the wait.
CREATE TABLE timer (
  id         TEXT NOT NULL PRIMARY KEY,
  tank       TEXT NOT NULL REFERENCES tank (id),
  kind       TEXT NOT NULL,
  started    TEXT NOT NULL,
  due        TEXT,
  ended      TEXT,
  detail     TEXT,
  elapsed_ms INTEGER NOT NULL CHECK (elapsed_ms >= 0),
  last_seen  TEXT NOT NULL
) STRICT;
CREATE INDEX timer_by_tank ON timer (tank, started);

CREATE TABLE setting (
  name  TEXT NOT NULL PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- The history of changes: ops is JSON of every row before and after. tank is
-- '' for what belongs to no tank, so it is no reference.
CREATE TABLE undo (
  seq          INTEGER PRIMARY KEY,
  tank         TEXT NOT NULL,
  label        TEXT NOT NULL,
  label_values TEXT NOT NULL CHECK (json_valid(label_values)),
  at           TEXT NOT NULL,
  ops          TEXT NOT NULL CHECK (json_valid(ops)),
  undone       INTEGER NOT NULL CHECK (undone IN (0, 1))
) STRICT;
CREATE INDEX undo_by_tank ON undo (tank, seq);

PRAGMA user_version = 1;
