PRAGMA application_id = 1148348784;
PRAGMA user_version = 1;
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
CREATE TABLE done (
  tank  TEXT NOT NULL REFERENCES tank (id),
  step  TEXT NOT NULL,
  at    TEXT NOT NULL,
  basis TEXT NOT NULL CHECK (json_valid(basis)),
  PRIMARY KEY (tank, step)
) STRICT, WITHOUT ROWID;
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
CREATE TABLE entry_value (
  entry     TEXT NOT NULL REFERENCES entry (id),
  name      TEXT NOT NULL,
  text      TEXT NOT NULL,
  unit      TEXT,
  basis     TEXT,
  qualifier TEXT NOT NULL CHECK (qualifier IN ('', 'not_detected', 'over_range')),
  PRIMARY KEY (entry, name)
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
CREATE TABLE tank (
  id      TEXT NOT NULL PRIMARY KEY,
  name    TEXT NOT NULL,
  origin  TEXT NOT NULL CHECK (origin IN ('own', 'example', 'profile')),
  created TEXT NOT NULL,
  retired TEXT,
  deleted TEXT
) STRICT;
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
CREATE TABLE undo (
  seq          INTEGER PRIMARY KEY,
  tank         TEXT NOT NULL,
  label        TEXT NOT NULL,
  label_values TEXT NOT NULL CHECK (json_valid(label_values)),
  at           TEXT NOT NULL,
  ops          TEXT NOT NULL CHECK (json_valid(ops)),
  undone       INTEGER NOT NULL CHECK (undone IN (0, 1))
) STRICT;
CREATE INDEX ack_by_tank ON ack (tank, at);
CREATE INDEX entry_by_seq ON entry (seq);
CREATE INDEX entry_by_tank ON entry (tank, at, seq);
CREATE INDEX timer_by_tank ON timer (tank, started);
CREATE INDEX undo_by_tank ON undo (tank, seq);
INSERT INTO ack VALUES ('a1', 't1', 'place', 'load', 'de', 'Ein Satz.', 'ab12', '2026-11-25T07:10:00Z');
INSERT INTO answer VALUES ('t1', 'length', 'number', '60,5', 'cm', NULL, 'person', '2026-11-25T07:10:00Z');
INSERT INTO answer VALUES ('t1', 'place', 'choice', 'floor', NULL, NULL, 'profile', '2026-11-25T07:10:00Z');
INSERT INTO done VALUES ('t1', 'place', '2026-11-25T07:10:00Z', '{"place":"floor"}');
INSERT INTO entry VALUES ('t1-e000001', 't1', 'test', '2026-01-01T08:01', '+01:00', 1, 'n', NULL, NULL, NULL);
INSERT INTO entry VALUES ('t1-e000002', 't1', 'test', '2026-01-01T08:02', '+01:00', 2, 'nn', NULL, NULL, NULL);
INSERT INTO entry VALUES ('t1-e000003', 't1', 'test', '2026-01-01T08:03', '+01:00', 3, 'nnn', NULL, NULL, NULL);
INSERT INTO entry_value VALUES ('t1-e000001', 'nitrate', '1', 'mg/l', 'ion', '');
INSERT INTO entry_value VALUES ('t1-e000001', 'nitrite', '1', 'mg/l', 'ion', '');
INSERT INTO entry_value VALUES ('t1-e000002', 'nitrate', '2', 'mg/l', 'ion', '');
INSERT INTO entry_value VALUES ('t1-e000002', 'nitrite', '2', 'mg/l', 'ion', '');
INSERT INTO entry_value VALUES ('t1-e000003', 'nitrate', '3', 'mg/l', 'ion', '');
INSERT INTO entry_value VALUES ('t1-e000003', 'nitrite', '3', 'mg/l', 'ion', '');
INSERT INTO schema_step VALUES (1, 0, 1, '2026-11-25 08:10:00');
INSERT INTO schema_step VALUES (2, 1, 1, '2026-11-25 08:10:00');
INSERT INTO setting VALUES ('language', 'de');
INSERT INTO tank VALUES ('t1', 'Tank t1', 'own', '2026-11-25T07:10:00Z', NULL, NULL);
INSERT INTO timer VALUES ('w1', 't1', 'acclimate', '2026-11-25T07:10:00Z', NULL, NULL, NULL, 90000, '2026-11-25T07:10:00Z');
INSERT INTO undo VALUES (1, 't1', 'tank.added', '{}', '2026-11-25T07:10:00Z', '[{"table":"tank","before":null,"after":{"created":"2026-11-25T07:10:00Z","deleted":null,"id":"t1","name":"Tank t1","origin":"own","retired":null}}]', 0);
INSERT INTO undo VALUES (2, 't1', 'set', '{"name":"O''Brien é 水"}', '2026-11-25T07:10:00Z', '[{"table":"answer","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":null,"field":"length","kind":"number","origin":"person","tank":"t1","text":"60,5","unit":"cm"}},{"table":"answer","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":null,"field":"place","kind":"choice","origin":"profile","tank":"t1","text":"floor","unit":null}},{"table":"done","before":null,"after":{"at":"2026-11-25T07:10:00Z","basis":"{\"place\":\"floor\"}","step":"place","tank":"t1"}},{"table":"ack","before":null,"after":{"at":"2026-11-25T07:10:00Z","id":"a1","lang":"de","note":"load","shown":"Ein Satz.","source_hash":"ab12","step":"place","tank":"t1"}},{"table":"timer","before":null,"after":{"detail":null,"due":null,"elapsed_ms":90000,"ended":null,"id":"w1","kind":"acclimate","last_seen":"2026-11-25T07:10:00Z","started":"2026-11-25T07:10:00Z","tank":"t1"}}]', 0);
INSERT INTO undo VALUES (3, 't1', 'entry.added', '{"n":"1"}', '2026-01-01T08:01:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:01","deleted":null,"edited":null,"id":"t1-e000001","kind":"test","note":"n","seq":1,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000001","name":"nitrite","qualifier":"","text":"1","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000001","name":"nitrate","qualifier":"","text":"1","unit":"mg/l"}}]', 0);
INSERT INTO undo VALUES (4, 't1', 'entry.added', '{"n":"2"}', '2026-01-01T08:02:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:02","deleted":null,"edited":null,"id":"t1-e000002","kind":"test","note":"nn","seq":2,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000002","name":"nitrite","qualifier":"","text":"2","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000002","name":"nitrate","qualifier":"","text":"2","unit":"mg/l"}}]', 0);
INSERT INTO undo VALUES (5, 't1', 'entry.added', '{"n":"3"}', '2026-01-01T08:03:00Z', '[{"table":"entry","before":null,"after":{"at":"2026-01-01T08:03","deleted":null,"edited":null,"id":"t1-e000003","kind":"test","note":"nnn","seq":3,"step":null,"tank":"t1","zone":"+01:00"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000003","name":"nitrite","qualifier":"","text":"3","unit":"mg/l"}},{"table":"entry_value","before":null,"after":{"basis":"ion","entry":"t1-e000003","name":"nitrate","qualifier":"","text":"3","unit":"mg/l"}}]', 0);
