package store

import (
	"context"
	"errors"
	"fmt"

	"example.org/driploop/model/durable"
	"github.com/mattn/go-sqlite3"
)

// Codes of an OpenError. They are stable and have a text in every language.
const (
	CodeOptions     = "options"      // Options lacks what Open needs
	CodeNotFolder   = "not_folder"   // the data folder's path is a file
	CodeNotWritable = "not_writable" // nothing can be written in the folder
	CodeNoSpace     = "no_space"     // the disk is full (also an OpError)
	CodeLocked      = "locked"       // another program has the folder; PID says which
	CodeNotOurs     = "not_ours"     // driploop.db is something else's file
	CodeNewer       = "newer"        // made by a later version: open for reading only
	CodeDamaged     = "damaged"      // the file is damaged (also an OpError)
	CodePragma      = "pragma"       // the engine did not take a setting; Name, Wanted, Got
	CodeEngine      = "engine"       // the SQLite linked in is too old; Wanted, Got
	CodeMigration   = "migration"    // the schema could not be brought up to date
	CodeSnapshot    = "snapshot"     // a snapshot could not be made, or is no good
)

// Codes of an OpError, beside CodeNoSpace and CodeDamaged.
const (
	CodeReadOnly   = "read_only"  // the Store takes no changes; see Store.ReadOnly
	CodeRefused    = "refused"    // the request itself is wrong; Reason says how
	CodeConstraint = "constraint" // the schema forbids it (reference, allowed values)
	CodeBusy       = "busy"       // some other program held the file too long
	CodeCancelled  = "cancelled"  // the context ended first; nothing was changed
	CodeGone       = "gone"       // the file has lost its name, or was written over; Reason says how, see Store.Gone
	CodeIO         = "io"         // reading or writing failed
)

// Reasons of an OpError with CodeRefused.
const (
	ReasonTable    = "unknown_table"
	ReasonColumn   = "unknown_column"
	ReasonType     = "type"         // the column takes another type
	ReasonText     = "text"         // not UTF-8, or with a zero byte
	ReasonLong     = "too_long"     // longer than MaxText
	ReasonMissing  = "missing"      // a column that must be given is not
	ReasonKey      = "key_changed"  // an update may not change the key
	ReasonEmpty    = "empty"        // no Ops, or an Op that says nothing
	ReasonNoBefore = "before_lacks" // After names a column that Before does not
)

// Reasons of an OpError with CodeGone. What the file holds is still held, but for the
// last.
const (
	ReasonMoved    = string(durable.Moved)    // it was moved away
	ReasonRemoved  = string(durable.Removed)  // it was deleted
	ReasonReplaced = string(durable.Replaced) // another file stands in its place
	// ReasonOverwritten says that another program wrote over it: what was read since
	// may be of either file.
	ReasonOverwritten = "overwritten"
)

// ErrNothing says that there is nothing to undo or redo.
var ErrNothing = errors.New("nothing to undo or redo")

// OpenError says why a data folder was not opened (or, from Store.ReadOnly,
// why only for reading). Unused fields are zero.
type OpenError struct {
	Code   string
	Path   string // the file or folder this is about
	Name   string // the pragma's name
	Wanted string
	Got    string
	Detail string // what SQLite's check said, or a short code
	PID    int    // who holds the lock, 0 when unknown
	Free   uint64 // bytes free, with CodeNoSpace
	Err    error
}

// Error gives every field that is set, for a log; it is not text for people.
func (e *OpenError) Error() string {
	s := "open " + e.Path + ": " + e.Code
	if e.Name != "" {
		s += " " + e.Name
	}
	if e.Wanted != "" || e.Got != "" {
		s += fmt.Sprintf(" wanted %q got %q", e.Wanted, e.Got)
	}
	if e.Detail != "" {
		s += " (" + e.Detail + ")"
	}
	if e.PID != 0 {
		s += fmt.Sprintf(" process %d", e.PID)
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap gives the cause.
func (e *OpenError) Unwrap() error { return e.Err }

// OpError says why a reading or a change failed. A change that failed left
// nothing behind.
type OpError struct {
	Code   string
	Op     string // apply, undo, redo, load, setting, snapshot, verify
	Table  string
	Column string
	Path   string // with CodeGone
	Reason string // with CodeRefused and CodeGone
	Err    error
}

// Error gives every field that is set, for a log; it is not text for people.
func (e *OpError) Error() string {
	s := e.Op + ": " + e.Code
	if e.Reason != "" {
		s += " " + e.Reason
	}
	if e.Path != "" {
		s += " " + e.Path
	}
	if e.Table != "" {
		s += " " + e.Table
		if e.Column != "" {
			s += "." + e.Column
		}
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap gives the cause.
func (e *OpError) Unwrap() error { return e.Err }

// ConflictError says that a row is not what the change took it for: someone
// changed it since. The change was not made.
type ConflictError struct {
	Table    string
	Key      Row
	Expected Row // nil: no row was expected
	Found    Row // nil: there is no such row
}

// Error names table and key for a log.
func (e *ConflictError) Error() string {
	return fmt.Sprintf("conflict in %s %v: expected %v, found %v", e.Table, e.Key, e.Expected, e.Found)
}

// codeOf sorts an error of the engine or the system into one of the codes.
func codeOf(err error) string {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return CodeCancelled
	}
	if durable.IsNoSpace(err) {
		return CodeNoSpace
	}
	var se sqlite3.Error
	if !errors.As(err, &se) {
		return CodeIO
	}
	switch se.Code {
	case sqlite3.ErrFull:
		return CodeNoSpace
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB:
		return CodeDamaged
	case sqlite3.ErrReadonly:
		return CodeReadOnly
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return CodeBusy
	case sqlite3.ErrConstraint, sqlite3.ErrMismatch:
		return CodeConstraint
	case sqlite3.ErrInterrupt:
		return CodeCancelled
	}
	if durable.IsNoSpace(se.SystemErrno) {
		return CodeNoSpace
	}
	return CodeIO
}

// opError wraps err unless it already is one of this package's errors.
func opError(op, table string, err error) error {
	var oe *OpError
	var ce *ConflictError
	if err == nil || errors.As(err, &oe) || errors.As(err, &ce) || errors.Is(err, ErrNothing) {
		return err
	}
	return &OpError{Code: codeOf(err), Op: op, Table: table, Err: err}
}

// openError wraps err as an OpenError; fallback is the code when the error
// itself says nothing more exact.
func openError(path, fallback string, err error) error {
	var oe *OpenError
	if err == nil || errors.As(err, &oe) {
		return err
	}
	code := codeOf(err)
	if code == CodeIO || code == CodeConstraint {
		code = fallback
	}
	return &OpenError{Code: code, Path: path, Err: err}
}
