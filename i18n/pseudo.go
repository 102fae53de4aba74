package i18n

import (
	"strings"

	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"
)

// Pseudo is a language that is none: English with accents, two fifths longer and
// between brackets. What a page cuts, lays over something else or does not take
// from the messages shows in it at once. It is never among Languages.
const Pseudo = "qps"

// longer is how much longer a pseudo-text is. Judgement: German and Polish labels
// are up to that much longer than English ones.
const longer = 0.4

// real is the language whose numbers and dates a language uses.
func real(lang string) string {
	if lang == Pseudo {
		return source
	}
	return lang
}

// pretend fills t with the pseudo-texts of the source language.
func (t *tongue) pretend(from *tongue) error {
	var all []*goi18n.Message
	for key, m := range from.messages {
		c := *m
		if !technical(key) {
			for _, text := range []*string{&c.Zero, &c.One, &c.Two, &c.Few, &c.Many, &c.Other} {
				if *text != "" {
					*text = pseudo(*text)
				}
			}
		}
		t.messages[key], t.areas[key] = &c, from.areas[key]
		all = append(all, &c)
	}
	return t.bundle.AddMessages(language.Make(source), all...)
}

// technical are the messages that are read by machines or put together: units,
// numbers, dates, the words between the parts of a list, the toolkit's own.
func technical(key string) bool {
	for _, p := range []string{"unit.", "list.", "date.", "time.", "weekday.", "month.", "quantity.", "fyne.", "verb.line."} {
		if strings.HasPrefix(key, p) {
			return true
		}
	}
	return false
}

var accents = strings.NewReplacer("a", "á", "e", "é", "i", "î", "o", "ö", "u", "ü", "n", "ñ", "c", "ç", "A", "Á", "E", "É", "O", "Ö", "U", "Ü", "N", "Ñ")

// pseudo is a text with accents, longer and between brackets. Placeholders stay.
func pseudo(text string) string {
	var b strings.Builder
	rest, letters := text, 0
	for rest != "" {
		plain, after, ok := strings.Cut(rest, "{{")
		b.WriteString(accents.Replace(plain))
		letters += len([]rune(plain))
		if !ok {
			break
		}
		name, more, _ := strings.Cut(after, "}}")
		b.WriteString("{{" + name + "}}")
		letters += placeholderLetters
		rest = more
	}
	pad := int(float64(letters)*longer+0.5) - 2 // the brackets count
	for i := 0; i < pad; i++ {
		if i%6 == 0 { // in words, so that it wraps as a text does
			b.WriteByte(' ')
			continue
		}
		b.WriteRune('~')
	}
	return "[" + b.String() + "]"
}

// placeholderLetters is what a placeholder counts for. Judgement.
const placeholderLetters = 4
