-- +goose Up

-- A fish or a group of one kind that goes by a name in this tank. species is
-- the key of the catalogue where it is known.
CREATE TABLE fish (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  name    TEXT NOT NULL,
  species TEXT,
  count   INTEGER NOT NULL CHECK (count >= 0),
  since   TEXT,
  gone    TEXT,
  deleted TEXT
) STRICT;
CREATE INDEX fish_by_tank ON fish (tank);

-- A fish that looks wrong: open until closed is set. about is whom it concerns,
-- as typed, where it is no fish of the list; many is how many show it.
CREATE TABLE sick (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  fish    TEXT REFERENCES fish (id),
  about   TEXT NOT NULL,
  many    TEXT,
  opened  TEXT NOT NULL,
  zone    TEXT NOT NULL,
  closed  TEXT,
  outcome TEXT,
  note    TEXT,
  deleted TEXT
) STRICT;
CREATE INDEX sick_by_tank ON sick (tank, opened);

-- A sign seen; seen is the civil time it was first ticked, gone when it was
-- unticked as no longer seen.
CREATE TABLE sick_sign (
  sick TEXT NOT NULL REFERENCES sick (id),
  sign TEXT NOT NULL,
  seen TEXT NOT NULL,
  gone TEXT,
  PRIMARY KEY (sick, sign, seen)
) STRICT, WITHOUT ROWID;

-- A test kit of the person's own, one row a thing it measures: the unit and
-- basis its card prints, its smallest step, and the steps of its colour card as
-- JSON of texts as typed.
CREATE TABLE kit (
  id         TEXT NOT NULL PRIMARY KEY,
  name       TEXT NOT NULL,
  reading    TEXT NOT NULL,
  unit       TEXT NOT NULL,
  basis      TEXT,
  resolution TEXT,
  steps      TEXT NOT NULL CHECK (json_valid(steps)),
  deleted    TEXT
) STRICT;

ALTER TABLE entry ADD COLUMN sick TEXT REFERENCES sick (id);
ALTER TABLE entry_value ADD COLUMN kit TEXT REFERENCES kit (id);

-- An entry as it stood before an edit, as JSON; n counts from 1.
CREATE TABLE entry_past (
  entry TEXT NOT NULL REFERENCES entry (id),
  n     INTEGER NOT NULL,
  at    TEXT NOT NULL,
  was   TEXT NOT NULL CHECK (json_valid(was)),
  PRIMARY KEY (entry, n)
) STRICT, WITHOUT ROWID;

-- A picture. The original lies in the data folder under its hash; what a person
-- does to it stands here and in mark. taken is civil time, NULL when unknown;
-- taken_from says who told it. turned is the person's own quarter turns on top
-- of the picture's orientation. white is the patch that a person called white.
CREATE TABLE photo (
  id          TEXT NOT NULL PRIMARY KEY,
  tank        TEXT NOT NULL REFERENCES tank (id),
  entry       TEXT REFERENCES entry (id),
  fish        TEXT REFERENCES fish (id),
  hash        TEXT NOT NULL,
  format      TEXT NOT NULL,
  bytes       INTEGER NOT NULL,
  width       INTEGER NOT NULL,
  height      INTEGER NOT NULL,
  orientation INTEGER NOT NULL CHECK (orientation BETWEEN 1 AND 8),
  turned      INTEGER NOT NULL CHECK (turned BETWEEN 0 AND 3),
  taken       TEXT,
  zone        TEXT,
  taken_from  TEXT NOT NULL CHECK (taken_from IN ('', 'exif', 'file', 'person')),
  latitude    TEXT,
  longitude   TEXT,
  name        TEXT NOT NULL,
  caption     TEXT,
  white       TEXT,
  added       TEXT NOT NULL,
  problem     TEXT,
  deleted     TEXT
) STRICT;
CREATE INDEX photo_by_tank ON photo (tank, taken);
CREATE INDEX photo_by_entry ON photo (entry);
CREATE INDEX photo_by_hash ON photo (hash);

-- A mark beside a picture, never in it: its points in thousandths of the
-- upright picture's sides as JSON, with words or, for a known length, a measure.
CREATE TABLE mark (
  id     TEXT NOT NULL PRIMARY KEY,
  photo  TEXT NOT NULL REFERENCES photo (id),
  kind   TEXT NOT NULL,
  points TEXT NOT NULL CHECK (json_valid(points)),
  words  TEXT,
  text   TEXT,
  unit   TEXT
) STRICT;
CREATE INDEX mark_by_photo ON mark (photo);

-- A small picture made from an original; it can be made again at any time.
CREATE TABLE thumb (
  hash   TEXT NOT NULL,
  side   INTEGER NOT NULL,
  width  INTEGER NOT NULL,
  height INTEGER NOT NULL,
  jpeg   BLOB NOT NULL,
  PRIMARY KEY (hash, side)
) STRICT, WITHOUT ROWID;

-- What recurs: rule is an RRULE of RFC 5545, start the civil time of the first,
-- code says which of the usual rounds it is ('own' has a title).
CREATE TABLE round (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  code    TEXT NOT NULL,
  title   TEXT,
  rule    TEXT NOT NULL,
  start   TEXT NOT NULL,
  paused  TEXT,
  note    TEXT,
  deleted TEXT
) STRICT;
CREATE INDEX round_by_tank ON round (tank);

-- One occurrence that was done or skipped; entry is what it wrote in the daybook.
CREATE TABLE round_done (
  round  TEXT NOT NULL REFERENCES round (id),
  due    TEXT NOT NULL,
  state  TEXT NOT NULL CHECK (state IN ('done', 'skipped')),
  reason TEXT,
  entry  TEXT REFERENCES entry (id),
  at     TEXT NOT NULL,
  PRIMARY KEY (round, due)
) STRICT, WITHOUT ROWID;

-- A time away, with what the one who looks after the tank is asked to do.
CREATE TABLE away (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  first   TEXT NOT NULL,
  last    TEXT NOT NULL,
  who     TEXT,
  note    TEXT,
  deleted TEXT
) STRICT;
CREATE INDEX away_by_tank ON away (tank, first);

-- What an archive of a later version said of a row that no column here holds: it
-- is kept as JSON and given back when the daybook is taken out again. row is the
-- key of the row as a JSON list; name is empty for a whole row of an unknown table.
CREATE TABLE kept (
  tbl   TEXT NOT NULL,
  row   TEXT NOT NULL,
  name  TEXT NOT NULL,
  value TEXT NOT NULL CHECK (json_valid(value)),
  PRIMARY KEY (tbl, row, name)
) STRICT, WITHOUT ROWID;

-- The last number given to an entry. A number once given is never given again,
-- not even when the entry that bore it is undone, so that its redo still finds
-- it free; it used to be the largest one present.
CREATE TABLE entry_seq (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  last INTEGER NOT NULL
) STRICT;
UPDATE entry SET seq = o.n FROM (SELECT id, row_number() OVER (ORDER BY seq, id) AS n FROM entry) AS o WHERE o.id = entry.id;
INSERT INTO entry_seq (only, last) SELECT 1, coalesce(max(seq), 0) FROM entry;
DROP INDEX entry_by_seq;
CREATE UNIQUE INDEX entry_by_seq ON entry (seq);

-- The words of entries, for searching; docid is entry.seq.
CREATE VIRTUAL TABLE entry_text USING fts4 (note, tokenize=unicode61 "remove_diacritics=2");
INSERT INTO entry_text (docid, note) SELECT seq, note FROM entry WHERE note IS NOT NULL;

-- +goose StatementBegin
CREATE TRIGGER entry_text_added AFTER INSERT ON entry WHEN new.note IS NOT NULL BEGIN
  INSERT INTO entry_text (docid, note) VALUES (new.seq, new.note);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER entry_text_gone AFTER DELETE ON entry WHEN old.note IS NOT NULL BEGIN
  DELETE FROM entry_text WHERE docid = old.seq;
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER entry_text_changed AFTER UPDATE OF note ON entry WHEN old.note IS NOT new.note BEGIN
  DELETE FROM entry_text WHERE docid = old.seq;
  INSERT INTO entry_text (docid, note) SELECT new.seq, new.note WHERE new.note IS NOT NULL;
END;
-- +goose StatementEnd

PRAGMA user_version = 2;
