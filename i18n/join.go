package i18n

import "strings"

// Sentences writes sentences one behind the other, with a space between them. Behind a stop of
// Chinese or Japanese there is none: the stop brings its own room. What is empty is left out.
func Sentences(sentences ...string) string {
	var b strings.Builder
	for _, s := range sentences {
		if s == "" {
			continue
		}
		if said := b.String(); said != "" && !strings.HasSuffix(said, "。") && !strings.HasSuffix(said, " ") {
			b.WriteString(" ")
		}
		b.WriteString(s)
	}
	return b.String()
}

// Comma writes what is said of a thing behind it: Kitchen corner, 30.3 L. What is empty is
// left out.
func (w *Words) Comma(things ...string) string {
	said := ""
	for _, s := range things {
		switch {
		case s == "":
		case said == "":
			said = s
		default:
			said = w.T("list.comma", Args{"First": said, "Then": s})
		}
	}
	return said
}

// Colon writes what a thing is, or says, behind its name: Undo: Water change.
func (w *Words) Colon(name, said string) string {
	return w.T("list.colon", Args{"First": name, "Then": said})
}

// AtColon parts a text where Colon would have joined it: a name and what it is, or says. It is
// false, and the name the whole text, where the text has no colon.
func (w *Words) AtColon(text string) (name, said string, ok bool) {
	return strings.Cut(text, w.colon())
}

// colon is the mark as the language writes it, with the spaces about it. Nobody hears it.
func (w *Words) colon() string {
	return w.filled("list.colon", nil, Args{"First": "", "Then": ""})
}

// Stop ends what is first, which is no whole sentence, with a stop, and says the next behind
// it, which may be nothing. Where the first is empty, the next is all that is said.
func (w *Words) Stop(first, then string) string {
	if first == "" {
		return then
	}
	return strings.TrimRight(w.T("list.stop", Args{"First": first, "Then": then}), " ")
}
