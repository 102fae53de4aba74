package parts

import (
	"strings"
	"time"
	"unicode"
)

// typed finds options by the first letters that the person types.
type typed struct {
	letters string
	last    time.Time
}

// typePause is how long letters belong together.
const typePause = time.Second // judgement

// seek adds a letter and gives the option that now fits, or -1. The same letter
// again goes from one fitting option to the next after at.
func (t *typed) seek(r rune, options []Option, at int) int {
	return t.seekIn(r, len(options), at, func(i int) string { return options[i].Label })
}

// seekIn is seek among count names.
func (t *typed) seekIn(r rune, count, at int, name func(i int) string) int {
	if !unicode.IsPrint(r) {
		return -1
	}
	now := time.Now()
	if now.Sub(t.last) > typePause {
		t.letters = ""
	}
	t.last = now
	letter := strings.ToLower(string(r))
	if t.letters != letter {
		t.letters += letter
	}
	from := at
	if len([]rune(t.letters)) > 1 {
		from = at - 1 // the present one may still fit
	}
	for i := 1; i <= count; i++ {
		j := (from + i + count) % count
		if strings.HasPrefix(strings.ToLower(name(j)), t.letters) {
			return j
		}
	}
	return -1
}
