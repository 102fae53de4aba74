package present

import (
	"context"
	"errors"
	"math"
	"path/filepath"

	"example.org/driploop/i18n"
	"example.org/driploop/model/desk"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/working"
)

// Error says in the person's words what went wrong and what to do. One that
// nobody foresaw is told as it is, behind a sentence of ours.
func (p Presenter) Error(err error) string {
	if words, ok := p.W.Problem(err); ok {
		return words
	}
	if words, ok := StoreProblem(p.W, err); ok {
		return words
	}
	var at *desk.Error
	if errors.As(err, &at) {
		return p.W.T(working.Key("err.desk."+at.Code), i18n.Args{"Where": at.Where})
	}
	if errors.Is(err, context.Canceled) {
		return p.W.T("err.store.cancelled", nil)
	}
	var file *durable.WriteError
	if errors.As(err, &file) {
		if durable.IsNoSpace(err) {
			return p.noSpace(file)
		}
		if errors.Is(err, durable.ErrNotFile) {
			return p.W.T("page.not_a_file", i18n.Args{"Path": file.Path})
		}
		return p.W.T("page.not_written", i18n.Args{"Path": file.Path})
	}
	return p.W.T("page.unforeseen", i18n.Args{"What": err.Error()})
}

// noSpace says that a disk was too full for a file, how much it needs and how much is
// free, as far as that can be told: what was written of it is gone again.
func (p Presenter) noSpace(e *durable.WriteError) string {
	key, args := working.Key("page.no_space"), i18n.Args{"Path": e.Path}
	if free, err := durable.Free(filepath.Dir(e.Path)); err == nil {
		mb := func(n float64) string { return p.W.Number(math.Ceil(n/1e5)/10, 3) }
		args["Free"], args["Need"] = mb(float64(free)), mb(float64(e.Need))
		switch {
		case e.Need == 0:
			key = "page.no_space_more"
		case uint64(e.Need) > free: // else it is a quota, of which the disk says nothing
			key = "page.no_space_need"
		}
	}
	return p.W.T(key, args)
}
