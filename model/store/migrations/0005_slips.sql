-- +goose Up

-- A visit slip that was handed over: of which tank, under whose words, which days it
-- tells of and the case that it was about. A reply finds the tank again by its id.
CREATE TABLE visit (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  label   TEXT NOT NULL,
  first   TEXT NOT NULL,
  last    TEXT NOT NULL,
  sick    TEXT REFERENCES sick (id),
  at      TEXT NOT NULL
) STRICT;
CREATE INDEX visit_by_tank ON visit (tank, at);

-- A reply slip that something was taken from: which visit it answers, who answers, as
-- they said, when they made it and the name of the key that signed it.
CREATE TABLE reply (
  id         TEXT NOT NULL PRIMARY KEY,
  tank       TEXT NOT NULL REFERENCES tank (id),
  visit      TEXT NOT NULL,
  name       TEXT NOT NULL,
  address    TEXT NOT NULL,
  hours      TEXT NOT NULL,
  thumbprint TEXT,
  made       TEXT NOT NULL,
  at         TEXT NOT NULL
) STRICT;
CREATE INDEX reply_by_tank ON reply (tank, at);

-- What was taken of it, by its place in the reply.
CREATE TABLE reply_taken (
  reply TEXT NOT NULL REFERENCES reply (id),
  item  TEXT NOT NULL,
  at    TEXT NOT NULL,
  PRIMARY KEY (reply, item)
) STRICT, WITHOUT ROWID;

-- The reply that an entry of the daybook came from: it is the shop's, not the keeper's.
ALTER TABLE entry ADD COLUMN reply TEXT REFERENCES reply (id);

PRAGMA user_version = 5;
