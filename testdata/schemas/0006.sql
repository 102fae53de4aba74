PRAGMA application_id = 1148348784;
PRAGMA user_version = 6;
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
CREATE TABLE away (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  first   TEXT NOT NULL,
  last    TEXT NOT NULL,
  who     TEXT,
  note    TEXT,
  deleted TEXT
) STRICT;
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
CREATE TABLE done (
  tank  TEXT NOT NULL REFERENCES tank (id),
  step  TEXT NOT NULL,
  at    TEXT NOT NULL,
  basis TEXT NOT NULL CHECK (json_valid(basis)),
  PRIMARY KEY (tank, step)
) STRICT, WITHOUT ROWID;
CREATE TABLE draft (
  tank    TEXT NOT NULL PRIMARY KEY REFERENCES tank (id),
  notes   TEXT NOT NULL CHECK (json_valid(notes)),
  feeding TEXT NOT NULL CHECK (json_valid(feeding))
, later TEXT CHECK (later IS NULL OR json_valid(later))) STRICT, WITHOUT ROWID;
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
, sick TEXT REFERENCES sick (id), reply TEXT REFERENCES reply (id)) STRICT, WITHOUT ROWID;
CREATE TABLE entry_past (
  entry TEXT NOT NULL REFERENCES entry (id),
  n     INTEGER NOT NULL,
  at    TEXT NOT NULL,
  was   TEXT NOT NULL CHECK (json_valid(was)),
  PRIMARY KEY (entry, n)
) STRICT, WITHOUT ROWID;
CREATE TABLE entry_seq (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  last INTEGER NOT NULL
) STRICT;
CREATE VIRTUAL TABLE entry_text USING fts4 (note, tokenize=unicode61 "remove_diacritics=2");
CREATE TABLE entry_value (
  entry     TEXT NOT NULL REFERENCES entry (id),
  name      TEXT NOT NULL,
  text      TEXT NOT NULL,
  unit      TEXT,
  basis     TEXT,
  qualifier TEXT NOT NULL CHECK (qualifier IN ('', 'not_detected', 'over_range')), kit TEXT REFERENCES kit (id),
  PRIMARY KEY (entry, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE fish (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  name    TEXT NOT NULL,
  species TEXT,
  count   INTEGER NOT NULL CHECK (count >= 0),
  since   TEXT,
  gone    TEXT,
  deleted TEXT
, males INTEGER CHECK (males >= 0), length_text TEXT, length_unit TEXT, length_at TEXT, source TEXT, price TEXT) STRICT;
CREATE TABLE fish_change (
  entry  TEXT NOT NULL REFERENCES entry (id),
  fish   TEXT NOT NULL REFERENCES fish (id),
  change INTEGER NOT NULL,
  why    TEXT NOT NULL,
  PRIMARY KEY (entry, fish)
) STRICT, WITHOUT ROWID;
CREATE TABLE handed (
  tank       TEXT NOT NULL PRIMARY KEY REFERENCES tank (id),
  name       TEXT NOT NULL,
  address    TEXT NOT NULL,
  hours      TEXT NOT NULL,
  notes      TEXT NOT NULL CHECK (json_valid(notes)),
  thumbprint TEXT,
  at         TEXT NOT NULL
, edition INTEGER CHECK (edition > 0), plan TEXT CHECK (plan IS NULL OR json_valid(plan)), feeding TEXT CHECK (feeding IS NULL OR json_valid(feeding)), marks TEXT, later TEXT CHECK (later IS NULL OR json_valid(later))) STRICT, WITHOUT ROWID;
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
CREATE TABLE kept (
  tbl   TEXT NOT NULL,
  row   TEXT NOT NULL,
  name  TEXT NOT NULL,
  value TEXT NOT NULL CHECK (json_valid(value)),
  PRIMARY KEY (tbl, row, name)
) STRICT, WITHOUT ROWID;
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
CREATE TABLE mark (
  id     TEXT NOT NULL PRIMARY KEY,
  photo  TEXT NOT NULL REFERENCES photo (id),
  kind   TEXT NOT NULL,
  points TEXT NOT NULL CHECK (json_valid(points)),
  words  TEXT,
  text   TEXT,
  unit   TEXT
) STRICT;
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
CREATE TABLE pinch (
  id      TEXT NOT NULL PRIMARY KEY,
  food    TEXT NOT NULL,
  text    TEXT NOT NULL,
  unit    TEXT NOT NULL,
  at      TEXT NOT NULL,
  deleted TEXT
) STRICT;
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
CREATE TABLE reply_taken (
  reply TEXT NOT NULL REFERENCES reply (id),
  item  TEXT NOT NULL,
  at    TEXT NOT NULL,
  PRIMARY KEY (reply, item)
) STRICT, WITHOUT ROWID;
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
, origin TEXT) STRICT;
CREATE TABLE round_done (
  round  TEXT NOT NULL REFERENCES round (id),
  due    TEXT NOT NULL,
  state  TEXT NOT NULL CHECK (state IN ('done', 'skipped')),
  reason TEXT,
  entry  TEXT REFERENCES entry (id),
  at     TEXT NOT NULL,
  PRIMARY KEY (round, due)
) STRICT, WITHOUT ROWID;
CREATE TABLE schema_step (
		id INTEGER PRIMARY KEY AUTOINCREMENT,
		version_id INTEGER NOT NULL,
		is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now'))
	);
CREATE TABLE setting (
  name  TEXT NOT NULL PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
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
CREATE TABLE sick_sign (
  sick TEXT NOT NULL REFERENCES sick (id),
  sign TEXT NOT NULL,
  seen TEXT NOT NULL,
  gone TEXT,
  PRIMARY KEY (sick, sign, seen)
) STRICT, WITHOUT ROWID;
CREATE TABLE tank (
  id      TEXT NOT NULL PRIMARY KEY,
  name    TEXT NOT NULL,
  origin  TEXT NOT NULL CHECK (origin IN ('own', 'example', 'profile')),
  created TEXT NOT NULL,
  retired TEXT,
  deleted TEXT
) STRICT;
CREATE TABLE thumb (
  hash   TEXT NOT NULL,
  side   INTEGER NOT NULL,
  width  INTEGER NOT NULL,
  height INTEGER NOT NULL,
  jpeg   BLOB NOT NULL,
  PRIMARY KEY (hash, side)
) STRICT, WITHOUT ROWID;
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
, bag TEXT REFERENCES bag (id)) STRICT;
CREATE TABLE undo (
  seq          INTEGER PRIMARY KEY,
  tank         TEXT NOT NULL,
  label        TEXT NOT NULL,
  label_values TEXT NOT NULL CHECK (json_valid(label_values)),
  at           TEXT NOT NULL,
  ops          TEXT NOT NULL CHECK (json_valid(ops)),
  undone       INTEGER NOT NULL CHECK (undone IN (0, 1))
) STRICT;
CREATE TABLE visit (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  label   TEXT NOT NULL,
  first   TEXT NOT NULL,
  last    TEXT NOT NULL,
  sick    TEXT REFERENCES sick (id),
  at      TEXT NOT NULL
) STRICT;
CREATE TABLE wish (
  id      TEXT NOT NULL PRIMARY KEY,
  tank    TEXT NOT NULL REFERENCES tank (id),
  species TEXT NOT NULL,
  count   INTEGER NOT NULL CHECK (count > 0),
  males   INTEGER CHECK (males >= 0),
  added   TEXT NOT NULL,
  deleted TEXT
) STRICT;
CREATE INDEX ack_by_tank ON ack (tank, at);
CREATE INDEX away_by_tank ON away (tank, first);
CREATE INDEX bag_by_tank ON bag (tank, opened);
CREATE UNIQUE INDEX entry_by_seq ON entry (seq);
CREATE INDEX entry_by_tank ON entry (tank, at, seq);
CREATE INDEX fish_by_tank ON fish (tank);
CREATE INDEX fish_change_by_fish ON fish_change (fish);
CREATE INDEX handout_by_tank ON handout (tank, at);
CREATE INDEX mark_by_photo ON mark (photo);
CREATE INDEX photo_by_entry ON photo (entry);
CREATE INDEX photo_by_hash ON photo (hash);
CREATE INDEX photo_by_tank ON photo (tank, taken);
CREATE INDEX reply_by_tank ON reply (tank, at);
CREATE INDEX round_by_tank ON round (tank);
CREATE INDEX sick_by_tank ON sick (tank, opened);
CREATE INDEX timer_by_tank ON timer (tank, started);
CREATE INDEX undo_by_tank ON undo (tank, seq);
CREATE INDEX visit_by_tank ON visit (tank, at);
CREATE INDEX wish_by_tank ON wish (tank);
CREATE TRIGGER entry_text_added AFTER INSERT ON entry WHEN new.note IS NOT NULL BEGIN
  INSERT INTO entry_text (docid, note) VALUES (new.seq, new.note);
END;
CREATE TRIGGER entry_text_changed AFTER UPDATE OF note ON entry WHEN old.note IS NOT new.note BEGIN
  DELETE FROM entry_text WHERE docid = old.seq;
  INSERT INTO entry_text (docid, note) SELECT new.seq, new.note WHERE new.note IS NOT NULL;
END;
CREATE TRIGGER entry_text_gone AFTER DELETE ON entry WHEN old.note IS NOT NULL BEGIN
  DELETE FROM entry_text WHERE docid = old.seq;
END;
INSERT INTO ack VALUES ('a1', 't1', 'place', 'load', 'de', 'Ein Satz.', 'ab12', '2026-11-25T07:10:00Z');
INSERT INTO answer VALUES ('t1', 'length', 'number', '60,5', 'cm', NULL, 'person', '2026-11-25T07:10:00Z');
INSERT INTO answer VALUES ('t1', 'place', 'choice', 'floor', NULL, NULL, 'profile', '2026-11-25T07:10:00Z');
INSERT INTO done VALUES ('t1', 'place', '2026-11-25T07:10:00Z', '{"place":"floor"}');
INSERT INTO entry VALUES ('t1-e000001', 't1', 'test', '2026-01-01T08:01', '+01:00', 1, 'n', NULL, NULL, NULL, NULL, NULL);
INSERT INTO entry VALUES ('t1-e000002', 't1', 'test', '2026-01-01T08:02', '+01:00', 2, 'nn', NULL, NULL, NULL, NULL, NULL);
INSERT INTO entry VALUES ('t1-e000003', 't1', 'test', '2026-01-01T08:03', '+01:00', 3, 'nnn', NULL, NULL, NULL, NULL, NULL);
INSERT INTO entry_seq VALUES (1, 3);
INSERT INTO entry_value VALUES ('t1-e000001', 'nitrate', '1', 'mg/l', 'ion', '', NULL);
INSERT INTO entry_value VALUES ('t1-e000001', 'nitrite', '1', 'mg/l', 'ion', '', NULL);
INSERT INTO entry_value VALUES ('t1-e000002', 'nitrate', '2', 'mg/l', 'ion', '', NULL);
INSERT INTO entry_value VALUES ('t1-e000002', 'nitrite', '2', 'mg/l', 'ion', '', NULL);
INSERT INTO entry_value VALUES ('t1-e000003', 'nitrate', '3', 'mg/l', 'ion', '', NULL);
INSERT INTO entry_value VALUES ('t1-e000003', 'nitrite', '3', 'mg/l', 'ion', '', NULL);
INSERT INTO schema_step VALUES (1, 0, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (2, 1, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (3, 2, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (4, 3, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (5, 4, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (6, 5, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (7, 6, 1, '2026-11-25 08:10:00');
INSERT INTO setting VALUES ('language', 'de');
INSERT INTO tank VALUES ('t1', 'Tank t1', 'own', '2026-11-25T07:10:00Z', NULL, NULL);
INSERT INTO timer VALUES ('w1', 't1', 'acclimate', '2026-11-25T07:10:00Z', NULL, NULL, NULL, 90000, '2026-11-25T07:10:00Z', NULL);
INSERT INTO undo VALUES (1, 't1', 'tank.added', '{}', '2026-11-25T07:10:00Z', '[{"table":"tank","before":null,"after":{"created":"2026-11-25T07:10:00Z","deleted":null,"id":"t1","name":"Tank t1","origin":"own","retired":null}}]', 0);
INSERT INTO undo VALUES (2, 't1', 'set', '{"name":"O''Brien é 水"}', '2026-11-25T07:10:00Z', '[{"table":"answer","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":null,"field":"length","kind":"number","origin":"person","tank":"t1","text":"60,5","unit":"cm"}},{"table":"answer","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":null,"field":"place","kind":"choice","origin":"profile","tank":"t1","text":"floor","unit":null}},{"table":"done","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":"{\"place\":\"floor\"}","step":"place","tank":"t1"}},{"table":"ack","before":null,"after":{"at":"2026-11-25T07:10:00Z","id":"a1","lang":"de","note":"load","shown":"Ein Satz.","source_hash":"ab12","step":"place","tank":"t1"}},{"table":"timer","before":null,"after":{"bag":null,"detail":null,"due":null,"elapsed_ms":90000,"ended":null,"id":"w1","kind":"acclimate","last_seen":"2026-11-25T07:10:00Z","started":"2026-11-25T07:10:00Z","tank":"t1"}}]', 0);
INSERT INTO undo VALUES (3, 't1', 'entry.added', '{"n":"1"}', '2026-01-01T08:01:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:01","deleted":null,"edited":null,"id":"t1-e000001","kind":"test","note":"n","reply":null,"seq":1,"sick":null,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000001","kit":null,"name":"nitrite","qualifier":"","text":"1","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000001","kit":null,"name":"nitrate","qualifier":"","text":"1","unit":"mg/l"}}]', 0);
INSERT INTO undo VALUES (4, 't1', 'entry.added', '{"n":"2"}', '2026-01-01T08:02:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:02","deleted":null,"edited":null,"id":"t1-e000002","kind":"test","note":"nn","reply":null,"seq":2,"sick":null,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000002","kit":null,"name":"nitrite","qualifier":"","text":"2","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000002","kit":null,"name":"nitrate","qualifier":"","text":"2","unit":"mg/l"}}]', 0);
INSERT INTO undo VALUES (5, 't1', 'entry.added', '{"n":"3"}', '2026-01-01T08:03:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:03","deleted":null,"edited":null,"id":"t1-e000003","kind":"test","note":"nnn","reply":null,"seq":3,"sick":null,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000003","kit":null,"name":"nitrite","qualifier":"","text":"3","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000003","kit":null,"name":"nitrate","qualifier":"","text":"3","unit":"mg/l"}}]', 0);
