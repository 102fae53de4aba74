-- +goose Up

-- What else is known of a fish or a group: how many of it are males, the length
-- of one of them as typed and the day it had it, where they came from, and what
-- was paid for all, as typed.
ALTER TABLE fish ADD COLUMN males INTEGER CHECK (males >= 0);
ALTER TABLE fish ADD COLUMN length_text TEXT;
ALTER TABLE fish ADD COLUMN length_unit TEXT;
ALTER TABLE fish ADD COLUMN length_at TEXT;
ALTER TABLE fish ADD COLUMN source TEXT;
ALTER TABLE fish ADD COLUMN price TEXT;

-- What an entry of the daybook did to the number of a fish or a group: how many
-- more there were after it (came, born) or fewer (died, sold, given, lost), and 0
-- where it tells of them and changes no number (measured).
CREATE TABLE fish_change (
  entry  TEXT NOT NULL REFERENCES entry (id),
  fish   TEXT NOT NULL REFERENCES fish (id),
  change INTEGER NOT NULL,
  why    TEXT NOT NULL,
  PRIMARY KEY (entry, fish)
) STRICT, WITHOUT ROWID;
CREATE INDEX fish_change_by_fish ON fish_change (fish);

-- Animals that a person means to add.
CREATE TABLE wish (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  species TEXT NOT NULL,
  count   INTEGER NOT NULL CHECK (count > 0),
  males   INTEGER CHECK (males >= 0),
  added   TEXT NOT NULL,
  deleted TEXT
) STRICT;
CREATE INDEX wish_by_tank ON wish (tank);

-- Twenty pinches of a food on a scale, as typed: what one pinch of this person weighs.
CREATE TABLE pinch (
  id      TEXT NOT NULL PRIMARY KEY,
  food    TEXT NOT NULL,
  text    TEXT NOT NULL,
  unit    TEXT NOT NULL,
  at      TEXT NOT NULL,
  deleted TEXT
) STRICT;

-- A bag of a home-coming: who is in it, how it is done, and what was measured, as
-- JSON of measures as typed. It is open until closed; entry is what it wrote.
CREATE TABLE bag (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  name    TEXT NOT NULL,
  species TEXT,
  count   INTEGER CHECK (count > 0),
  way     TEXT NOT NULL,
  given   TEXT NOT NULL CHECK (json_valid(given)),
  steps   TEXT NOT NULL CHECK (json_valid(steps)),
  opened  TEXT NOT NULL,
  zone    TEXT NOT NULL,
  closed  TEXT,
  entry   TEXT REFERENCES entry (id),
  deleted TEXT
) STRICT;
CREATE INDEX bag_by_tank ON bag (tank, opened);

ALTER TABLE timer ADD COLUMN bag TEXT REFERENCES bag (id);

-- Who handed over the starter profile that a tank began with, as they said, their
-- notes as JSON by language, and the name of the key that signed it.
CREATE TABLE handed (
  tank       TEXT NOT NULL PRIMARY KEY REFERENCES tank (id),
  name       TEXT NOT NULL,
  address    TEXT NOT NULL,
  hours      TEXT NOT NULL,
  notes      TEXT NOT NULL CHECK (json_valid(notes)),
  thumbprint TEXT,
  at         TEXT NOT NULL
) STRICT, WITHOUT ROWID;

PRAGMA user_version = 3;
