package present

import (
	"context"
	"errors"

	"example.org/driploop/i18n"
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
	if errors.Is(err, context.Canceled) {
		return p.W.T("err.store.cancelled", nil)
	}
	var file *durable.WriteError
	if errors.As(err, &file) {
		key := working.Key("page.not_written")
		if durable.IsNoSpace(err) {
			key = "page.no_space"
		}
		return p.W.T(key, i18n.Args{"Path": file.Path})
	}
	return p.W.T("page.unforeseen", i18n.Args{"What": err.Error()})
}
