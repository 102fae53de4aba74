package i18n

import (
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/language"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Args fill the placeholders of a message by name. A quantity.Value is written
// with its unit, a working.Key as its message, a number by Number, a time.Time
// as its date, a string as it is.
type Args map[string]any

// Words are the language, the region and the units of one person. The zero
// value is not usable; Speak makes them. They never change.
type Words struct {
	lang    string
	region  string
	system  quantity.System
	decimal rune
	tag     language.Tag
	local   *goi18n.Localizer
	english *goi18n.Localizer
}

// Speak returns the Words for a language of Languages, an ISO 3166 region (may
// be empty) and a system of units. A language that is not offered speaks
// English, an unknown system is metric.
func Speak(lang, region string, sys quantity.System) *Words {
	if baseOf(lang) != source {
		go in(source) // what lang is held against, read beside it
	}
	if !Spoken(lang) {
		lang = source
	}
	return speak(lang, region, sys)
}

// drafts are the languages that may be spoken while they are being written.
var drafts sync.Map

// Draft lets a language that is still being written be spoken from now on; what it
// lacks is English. It reports whether the language has messages at all.
func Draft(lang string) bool {
	if written()[lang] == nil {
		return false
	}
	drafts.Store(lang, true)
	return true
}

// Spoken reports whether Speak speaks a language: one that is offered, or a draft
// that was asked for.
func Spoken(lang string) bool {
	_, draft := drafts.Load(lang)
	return draft || Offered(lang)
}

func speak(lang, region string, sys quantity.System) *Words {
	if sys != quantity.US && sys != quantity.Imperial {
		sys = quantity.Metric
	}
	w := &Words{lang: lang, region: strings.ToUpper(region), system: sys, tag: language.Make(real(lang))}
	if r, err := language.ParseRegion(w.region); err == nil {
		if t, err := language.Compose(w.tag, r); err == nil {
			w.tag = t
		}
	} else {
		w.region = ""
	}
	w.decimal = decimalMark(w.tag)
	w.local = goi18n.NewLocalizer(in(lang).bundle, real(lang))
	w.english = w.local
	if baseOf(lang) != source {
		w.english = goi18n.NewLocalizer(in(source).bundle, source)
	}
	return w
}

// Language returns the language spoken, as a BCP 47 code.
func (w *Words) Language() string { return w.lang }

// Base returns the language without what is peculiar to a country: en for en-US.
func (w *Words) Base() string { return baseOf(w.lang) }

// Region returns the ISO 3166 code of the region, or "".
func (w *Words) Region() string { return w.region }

// System returns the system of units.
func (w *Words) System() quantity.System { return w.system }

// Decimal returns the decimal mark, '.' or ','.
func (w *Words) Decimal() rune { return w.decimal }

// T returns the message for key with args filled in.
func (w *Words) T(key working.Key, args Args) string {
	return w.render(string(key), nil, args)
}

// N returns the plural message for key and a count. The form is chosen by the
// count as it is shown (1.0 is not 1), which the message names {{.Count}}.
func (w *Words) N(key working.Key, count float64, args Args) string {
	plain := plainNumber(count, countFigures(count))
	filled := Args{"Count": w.localise(plain)}
	for k, v := range args {
		filled[k] = v
	}
	return w.render(string(key), operand(plain), filled)
}

// Has reports whether there is a message for key in the language spoken.
func (w *Words) Has(key working.Key) bool {
	_, ok := in(w.lang).messages[string(key)]
	return ok
}

// strict refuses a message whose placeholder is not filled; lenient leaves a
// mark in its place. Both parse to the same template, which is kept.
var strict = &template.TextParser{Option: "missingkey=error"}

func (w *Words) render(key string, plural any, args Args) string {
	text := w.filled(key, plural, args)
	if note := ear.Load(); note != nil {
		(*note)(key, text)
	}
	return text
}

// filled is the text of a message with its placeholders filled.
func (w *Words) filled(key string, plural any, args Args) string {
	data := map[string]any{}
	for k, v := range args {
		if w.namesPH(key, k) {
			v = w.withoutPH(v)
		}
		data[k] = w.say(v)
		if label, ok := v.(working.Key); ok && w.lowBehindColon(key, k, label) {
			data[k] = w.startsLow(data[k].(string))
		}
	}
	if m, ok := in(w.lang).messages[key]; ok && m.Zero+m.One+m.Two+m.Few+m.Many == "" {
		plural = nil // a message of one form has none for a count to choose
	}
	cfg := &goi18n.LocalizeConfig{MessageID: key, TemplateData: data, PluralCount: plural, TemplateParser: strict}
	for _, l := range []*goi18n.Localizer{w.local, w.english} {
		text, err := l.Localize(cfg)
		if err == nil {
			return oneStop(text, data)
		}
		recordMissing(w.lang, key)
		if m, ok := in(w.lang).messages[key]; ok { // a placeholder was not filled
			return unfilled(m.Other, data)
		}
	}
	return "«" + key + "»"
}

// lowAfterColon are the languages in which what follows a colon goes on in small letters,
// unless it is quoted or a name. Source: Ortografía de la lengua española 2010, 5.4.1;
// Lexique des règles typographiques, Imprimerie nationale; the usage of Italian,
// Polish, Portuguese and Ukrainian, from memory.
var lowAfterColon = []string{"es", "fr", "it", "pl", "pt", "uk"}

// lowBehindColon reports whether a label stands behind a colon in a message, in a
// language where it then loses its capital. Only names of quantities and of signs do:
// a step, a page and an animal keep the name they go by.
func (w *Words) lowBehindColon(key, placeholder string, label working.Key) bool {
	if !slices.Contains(lowAfterColon, w.Base()) || !strings.HasPrefix(string(label), "q.") && !strings.HasPrefix(string(label), "sign.") {
		return false
	}
	m, ok := in(w.lang).messages[key]
	if !ok {
		return false
	}
	before, _, found := strings.Cut(m.Other, "{{."+placeholder+"}}")
	return found && strings.HasSuffix(before, w.colon())
}

// startsLow writes a text with a small first letter, where that is not one of several
// capitals, as in KH.
func (w *Words) startsLow(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	if next, _ := utf8.DecodeRuneInString(text[n:]); !unicode.IsUpper(first) || unicode.IsUpper(next) || unicode.IsDigit(next) {
		return text
	}
	return string(unicode.ToLower(first)) + text[n:]
}

// StartsHigh writes a text with a capital first letter, as at the head of a row, unless
// the second one is a capital, as in pH.
func (w *Words) StartsHigh(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	if next, _ := utf8.DecodeRuneInString(text[n:]); n == 0 || unicode.IsUpper(next) {
		return text
	}
	if w.Base() == "tr" {
		return string(unicode.TurkishCase.ToUpper(first)) + text[n:]
	}
	return string(unicode.ToUpper(first)) + text[n:]
}

// namesPH reports whether the words of a message say pH of a placeholder themselves. They
// do not where the message begins with it and goes on with other words.
func (w *Words) namesPH(key, placeholder string) bool {
	m, ok := in(w.lang).messages[key]
	if !ok || key == "quantity.ph" || !strings.Contains(m.Other, "pH") {
		return false
	}
	rest, begins := strings.CutPrefix(m.Other, "{{."+placeholder+"}}")
	return !begins || strings.HasPrefix(strings.TrimLeft(rest, " "+noBreak), "pH")
}

// withoutPH writes a pH as its number alone, for a message that says what it is. What
// is no pH comes back as it is.
func (w *Words) withoutPH(v any) any {
	switch x := v.(type) {
	case quantity.Value:
		if u, ok := quantity.UnitOf("ph"); ok && x.Kind == u.Kind && quantity.Finite(x.X) {
			return w.localise(w.digits(x, u, 3))
		}
	case quantity.Measure:
		if x.Unit == "ph" {
			return w.localise(x.Number)
		}
	}
	return v
}

// oneStop takes out the full stop of a sentence that ends with an argument which
// brings its own, as "1:55 p. m." does.
func oneStop(text string, data map[string]any) string {
	for _, v := range data {
		if s, ok := v.(string); ok && strings.HasSuffix(s, ".") && !strings.HasSuffix(s, "..") {
			text = strings.ReplaceAll(text, s+".", s)
		}
	}
	return text
}

// unfilled fills what it can and leaves the names of the other placeholders
// between guillemets, so that nothing goes unsaid unseen.
func unfilled(text string, data map[string]any) string {
	for name, v := range data {
		if s, ok := v.(string); ok {
			text = strings.ReplaceAll(text, "{{."+name+"}}", s)
		}
	}
	return strings.NewReplacer("{{.", "«", "}}", "»").Replace(text)
}

// say writes one argument for a person.
func (w *Words) say(v any) string {
	switch x := v.(type) {
	case string:
		return x
	case quantity.Value:
		return w.Quantity(x)
	case quantity.Measure:
		return w.Measure(x)
	case working.Key:
		return w.T(x, nil)
	case float64:
		return w.Number(x, 3)
	case int:
		return w.localise(plainNumber(float64(x), countFigures(float64(x))))
	case time.Time:
		return w.Date(x)
	}
	recordMissing(w.lang, "argument of an unknown type")
	return "«?»"
}
