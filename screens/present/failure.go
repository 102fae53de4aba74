package present

import "example.org/driploop/i18n"

// Error says in the person's words what went wrong and what to do. One that
// nobody foresaw is told as it is, behind a sentence of ours.
func (p Presenter) Error(err error) string {
	if words, ok := p.W.Problem(err); ok {
		return words
	}
	if words, ok := StoreProblem(p.W, err); ok {
		return words
	}
	return p.W.T("page.unforeseen", i18n.Args{"What": err.Error()})
}
