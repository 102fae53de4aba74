-- +goose Up

-- Of the starter profile that a tank began with: which edition it was, the rounds
-- and the feeding that the shop proposed, as JSON, and the steps whose check failed
-- at the shop, with commas between them.
ALTER TABLE handed ADD COLUMN edition INTEGER CHECK (edition > 0);
ALTER TABLE handed ADD COLUMN plan TEXT CHECK (plan IS NULL OR json_valid(plan));
ALTER TABLE handed ADD COLUMN feeding TEXT CHECK (feeding IS NULL OR json_valid(feeding));
ALTER TABLE handed ADD COLUMN marks TEXT;

-- Where a round came from: 'profile' for one that a shop proposed and nobody has
-- changed since.
ALTER TABLE round ADD COLUMN origin TEXT;

-- A starter profile in work is a tank with a row here, which keeps it out of the
-- lists of tanks: its notes by language, and what it proposes for feeding, as JSON.
CREATE TABLE draft (
  tank    TEXT NOT NULL PRIMARY KEY REFERENCES tank (id),
  notes   TEXT NOT NULL CHECK (json_valid(notes)),
  feeding TEXT NOT NULL CHECK (json_valid(feeding))
) STRICT, WITHOUT ROWID;

-- Each time that a profile was handed out: as which edition, what it said (the hash
-- of it), in which way, and the family's name where one was written down.
CREATE TABLE handout (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  at      TEXT NOT NULL,
  edition INTEGER NOT NULL CHECK (edition > 0),
  print   TEXT NOT NULL,
  way     TEXT NOT NULL,
  label   TEXT,
  deleted TEXT
) STRICT;
CREATE INDEX handout_by_tank ON handout (tank, at);

PRAGMA user_version = 4;
