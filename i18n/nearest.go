package i18n

import (
	"sort"

	"golang.org/x/text/language"
)

// Nearest gives, of texts by language tag (BCP 47), the one that the person reads
// best: in the language spoken, in one that its readers mostly understand, in
// English, else the first by its tag. in is the tag of another language than the
// one spoken, "" where it is that one; all is "" where there is no text.
func (w *Words) Nearest(texts map[string]string) (text, in string) {
	tags := make([]string, 0, len(texts))
	for tag, t := range texts {
		if t != "" {
			tags = append(tags, tag)
		}
	}
	if len(tags) == 0 {
		return "", ""
	}
	sort.Strings(tags)
	best, own := tags[0], false
	if _, ok := texts[source]; ok {
		best = source
	}
	known := make([]language.Tag, len(tags))
	for i, tag := range tags {
		known[i] = language.Make(tag)
	}
	if _, i, sure := language.NewMatcher(known).Match(w.tag); sure >= language.High {
		best, own = tags[i], true
	} else if sure == language.Low {
		best = tags[i]
	}
	if !own {
		in = best
	}
	return texts[best], in
}
