// Package store keeps a person's records in one SQLite file and is the only
// user of database/sql.
//
// Contract:
//
//   - Open takes the data folder's lock, checks what it finds before anything
//     is written, sets and reads back every pragma, upgrades the schema after a
//     verified snapshot, and gives a Store. What is not ours, damaged, newer,
//     held or not writable is told by *OpenError and left byte for byte as it was.
//   - Apply makes one Change durable in one transaction, with its inverse in the
//     undo history; once it returns nil the change survives a kill or power cut.
//     Undo and Redo walk that history, which survives a restart.
//   - Load reads rows of one table. Statements are made from the tables and
//     columns listed in this package and from bound values, never from text
//     that came from outside.
//   - Snapshot and Verify, Snapshots and Restore are the way back.
//
// Nouns: a Row is column name to value (string, int64 or nil); an Op is one
// row's before and after; a Change is the batch of Ops a person sees as one
// step. Keys are texts the program makes. entry.at is a civil date-time as the
// wall clock showed it ("2026-11-25T08:10") beside its zone offset ("+01:00")
// and seq, the order of insertion; every other time is UTC in RFC 3339. A number
// is kept as typed, with its unit and basis; missing is NULL, never zero.
//
// Files in the folder: driploop.db with its -wal and -shm, lock, bell for a
// moment, snapshots/ and aside/ (what a Restore replaced). While a Store is open nothing may open or
// copy driploop.db outside SQLite: closing such a handle drops SQLite's own
// locks. Source: SQLite documentation, "How To Corrupt An SQLite Database File".
//
// All methods are safe for use by several goroutines; they take turns on one
// connection.
package store
