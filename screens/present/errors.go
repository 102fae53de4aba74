package present

import (
	"errors"
	"path/filepath"
	"strconv"

	"example.org/driploop/i18n"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// StoreProblem writes what the data folder has to say when it cannot be opened,
// read or written: what happened, what was kept, what to do. For an error that is
// not of the store it reports false.
func StoreProblem(w *i18n.Words, err error) (string, bool) {
	code, args := "", i18n.Args{}
	var open *store.OpenError
	var op *store.OpError
	var conflict *store.ConflictError
	switch {
	case errors.As(err, &open):
		code = open.Code
		args = i18n.Args{"Path": open.Path, "Process": strconv.Itoa(open.PID), "Setting": open.Name, "Wanted": open.Wanted, "Got": open.Got}
		if code == store.CodeLocked && filepath.Base(open.Path) == store.LockName {
			args["Path"] = filepath.Dir(open.Path) // people know the folder, not the lock in it
		}
		if code == store.CodeLocked && open.PID == 0 {
			code = lockedBySome
		}
	case errors.As(err, &op):
		if code = op.Code; !ofOp(code) {
			code = store.CodeIO
		}
		if code == store.CodeGone {
			args = i18n.Args{"Path": op.Path}
			switch op.Reason {
			case store.ReasonRemoved, store.ReasonReplaced, store.ReasonOverwritten:
				code += "_" + op.Reason
			}
		}
	case errors.As(err, &conflict):
		code = "conflict"
	case errors.Is(err, store.ErrNothing):
		code = "nothing"
	default:
		return "", false
	}
	key := working.Key("err.store." + code)
	if !w.Has(key) { // a code of a later store
		key = "err.store.io"
	}
	return w.T(key, args), true
}

// ofOp reports whether a code is one that reading or changing gives; the texts of
// the others name a folder.
func ofOp(code string) bool {
	switch code {
	case store.CodeReadOnly, store.CodeRefused, store.CodeConstraint, store.CodeBusy, store.CodeCancelled, store.CodeIO,
		store.CodeNoSpace, store.CodeDamaged, store.CodeSnapshot, store.CodeGone:
		return true
	}
	return false
}

// lockedBySome is the code of a lock whose holder is not known.
const lockedBySome = "locked_by_some"
