package desk

import (
	"context"
	"errors"
	"net"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"
	"github.com/mattn/go-sqlite3"
)

// Codes of an Error. They are stable and have a text in every language.
const (
	CodeAddress   = "address"   // not a folder and not an address that is understood
	CodeReach     = "reach"     // the server does not answer, or the folder is not there
	CodeDenied    = "denied"    // the server or the folder does not let this counter in
	CodeNewer     = "newer"     // made by a later version of the program
	CodeNotOurs   = "not_ours"  // something else's file or tables
	CodeDamaged   = "damaged"   // the file is damaged
	CodeNoSpace   = "no_space"  // the disk is full
	CodeBusy      = "busy"      // others held it too long
	CodeCancelled = "cancelled" // the context ended first; nothing was changed
	CodeAbsent    = "absent"    // there is no such slip
	CodeTooLarge  = "too_large" // larger than MaxFile
	CodeText      = "text"      // a text that is not UTF-8, holds a zero byte or is longer than MaxText
	CodeChanged   = "changed"   // the slip under that id is another one
	CodeFailed    = "failed"    // reading or writing failed otherwise
)

// Error says why the desk was not opened or did not do what was asked; nothing
// was changed then.
type Error struct {
	Code  string
	Where string // the folder, or the server without user and password
	Field string // with CodeText
	Err   error
}

// Error is for a log, not for people.
func (e *Error) Error() string {
	s := "desk"
	for _, part := range []string{e.Where, e.Code, e.Field} {
		if part != "" {
			s += ": " + part
		}
	}
	if e.Err != nil {
		s += ": " + e.Err.Error()
	}
	return s
}

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Err }

// told makes an *Error of what an engine said.
func (d *Desk) told(err error) error {
	var own *Error
	if err == nil || errors.As(err, &own) {
		return err
	}
	return &Error{Code: codeOf(err), Where: d.where, Err: err}
}

// codeOf tells what a failure is. Sources: SQLite, "Result and Error Codes";
// PostgreSQL, appendix A, "Error Codes".
func codeOf(err error) string {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return CodeCancelled
	}
	var lite sqlite3.Error
	if errors.As(err, &lite) {
		switch lite.Code {
		case sqlite3.ErrBusy, sqlite3.ErrLocked:
			return CodeBusy
		case sqlite3.ErrFull:
			return CodeNoSpace
		case sqlite3.ErrCorrupt:
			return CodeDamaged
		case sqlite3.ErrNotADB:
			return CodeNotOurs
		case sqlite3.ErrCantOpen:
			return CodeReach
		case sqlite3.ErrPerm, sqlite3.ErrReadonly, sqlite3.ErrAuth:
			return CodeDenied
		}
		return CodeFailed
	}
	var pg *pgconn.PgError
	if errors.As(err, &pg) {
		switch class := pg.Code[:min(2, len(pg.Code))]; {
		case class == "28" || pg.Code == "42501":
			return CodeDenied
		case pg.Code == "3D000", class == "08", class == "57":
			return CodeReach
		case pg.Code == "53100":
			return CodeNoSpace
		case class == "53", class == "55", class == "40":
			return CodeBusy
		case class == "XX":
			return CodeDamaged
		}
		return CodeFailed
	}
	var connect *pgconn.ConnectError
	var network net.Error
	if errors.As(err, &connect) || errors.As(err, &network) || strings.Contains(err.Error(), "unexpected EOF") {
		return CodeReach
	}
	return CodeFailed
}
