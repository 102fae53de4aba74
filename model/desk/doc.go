// Package desk is the visit desk: the list of slips that a shop was handed, apart
// from its own tanks. It stands on SQLite for one machine and on PostgreSQL where
// several counters share it.
//
// Contract:
//
//   - Open gives a Desk by where it is: a folder, or the address of a PostgreSQL
//     database. What is there is looked at before anything is written; a desk of a
//     later version of the program is refused.
//   - A change is a batch of single statements in one transaction: none reads what
//     another wrote, so the same batch stands on either engine.
//   - A slip is kept byte for byte as it was handed over, its hash beside it. Once
//     Receive returns nil it survives a kill or a power cut. Receiving it again
//     changes nothing and says so.
//   - Forget leaves nothing of a slip in the desk's files: SQLite overwrites what it
//     frees and empties its log, PostgreSQL writes the tables anew. What a server's
//     own log and its backups keep is the server's matter.
//   - Errors are *Error. No text of one holds a password.
//
// Nouns: a Visit is what the list shows of a slip; the slip itself is opened by
// package slip. A counter is one program at the desk, by a name of its own.
//
// Times are UTC to the microsecond, as PostgreSQL keeps them; sizes are bytes. The
// engines differ in the names of two types and in how they forget, in engine.go;
// every statement is the same text.
package desk
