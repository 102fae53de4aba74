package claim

import (
	"errors"
	"fmt"
)

// Kind is a kind of file that the program opens.
type Kind struct {
	Ending string            // with its dot, in small letters
	Type   string            // media type
	Format string            // what its first part says; empty where that comes last
	Code   string            // tells the kinds apart: letters alone
	Names  map[string]string // what people call it, by language tag (BCP 47), "en" among them
}

// Claim is what the system is told.
type Claim struct {
	ID      string            // of the program, a domain backwards
	Name    string            // of the program
	About   map[string]string // what the entry is for, as Kind.Names
	Program []string          // the program's whole path, and the words before the files
	Icon    []byte            // a PNG of IconSide by IconSide pixels
	Kinds   []Kind
	// Lang is the language of the names where the system keeps them in one alone.
	Lang string
	// Data is the folder of the person's own data that every program shares:
	// XDG_DATA_HOME. Windows has none.
	Data string
}

// IconSide is the side of the icon, in pixels.
const IconSide = 128

// State is how a claim stands.
type State struct {
	// Made: the system opens the files with just this program.
	Made bool
	// Some: something of it is there, perhaps of the program when it lay elsewhere.
	Some bool
	// Places are the records: paths of files, or keys. They are there, or would be.
	Places []string
}

// ErrCannot says that this system has no such records.
var ErrCannot = errors.New("claim: the system takes none")

// ToolError says that a record was written which the system takes notice of once a
// tool of its own has run, and that the tool is not there or failed.
type ToolError struct {
	Tool string
	Err  error
}

// Error is for a log.
func (e *ToolError) Error() string { return fmt.Sprintf("claim: %s: %v", e.Tool, e.Err) }

// Unwrap gives the cause: exec.ErrNotFound where the tool is not there.
func (e *ToolError) Unwrap() error { return e.Err }
