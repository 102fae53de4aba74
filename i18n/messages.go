package i18n

import (
	"embed"
	"fmt"
	"path"
	"slices"
	"sort"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"
	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"
)

//go:embed messages/*.toml
var files embed.FS

// source is the language in which messages are written first and to which a
// missing one falls back.
const source = "en"

// tongue is every message of one language.
type tongue struct {
	lang     string
	bundle   *goi18n.Bundle
	messages map[string]*goi18n.Message // by key
	areas    map[string]string          // key to area
}

// in gives the messages of a language, read on first use: the window waits for
// them at its start, so those of other languages are left alone until somebody
// asks. A language without files has none. A file that cannot be read is a fault
// of the build, which the tests of this package find, so it panics.
func in(lang string) *tongue {
	once, _ := tongues.LoadOrStore(lang, sync.OnceValue(func() *tongue {
		t, err := readTongue(lang)
		if err != nil {
			panic("i18n: " + err.Error())
		}
		return t
	}))
	return once.(func() *tongue)()
}

var tongues sync.Map // language to func() *tongue

// written lists the files of messages by language.
var written = sync.OnceValue(func() map[string][]string {
	entries, err := files.ReadDir("messages")
	if err != nil {
		panic("i18n: " + err.Error())
	}
	out := map[string][]string{}
	for _, e := range entries {
		_, lang, ok := nameOf(e.Name())
		if !ok {
			panic("i18n: " + e.Name() + ": the name is not AREA.LANG.toml")
		}
		out[lang] = append(out[lang], e.Name())
	}
	return out
})

// parsed is one file of messages, or why it is none.
type parsed struct {
	name string
	file *goi18n.MessageFile
	err  error
}

// parse reads files side by side.
func parse(names []string) []parsed {
	out := make([]parsed, len(names))
	how := map[string]goi18n.UnmarshalFunc{"toml": toml.Unmarshal}
	var all sync.WaitGroup
	for i, name := range names {
		all.Go(func() {
			r := parsed{name: name}
			var raw []byte
			if raw, r.err = files.ReadFile(path.Join("messages", r.name)); r.err == nil {
				r.file, r.err = goi18n.ParseMessageFileBytes(raw, r.name, how)
			}
			out[i] = r
		})
	}
	all.Wait()
	return out
}

func readTongue(lang string) (*tongue, error) {
	t := &tongue{lang: lang, bundle: goi18n.NewBundle(language.Make(real(lang))), messages: map[string]*goi18n.Message{}, areas: map[string]string{}}
	if lang == Pseudo {
		return t, t.pretend(in(source))
	}
	if base := baseOf(lang); base != lang {
		if err := t.take(base); err != nil {
			return nil, err
		}
	}
	return t, t.take(lang)
}

// take adds the messages of the files of a language; those of an overlay take the
// place of those of its base.
func (t *tongue) take(lang string) error {
	tag := language.Make(t.lang)
	own := map[string]bool{}
	for _, r := range parse(written()[lang]) {
		if r.err != nil {
			return fmt.Errorf("%s: %w", r.name, r.err)
		}
		area, _, _ := nameOf(r.name)
		if err := t.bundle.AddMessages(tag, r.file.Messages...); err != nil {
			return fmt.Errorf("%s: %w", r.name, err)
		}
		for _, m := range r.file.Messages {
			if own[m.ID] {
				return fmt.Errorf("%s: %q stands in another file of the language too", r.name, m.ID)
			}
			own[m.ID], t.messages[m.ID], t.areas[m.ID] = true, m, area
		}
	}
	return nil
}

// baseOf is the language that an overlay lies over: en for en-US, whose files hold
// only the messages that differ. A language that is none is its own base.
func baseOf(lang string) string {
	if base, _, ok := strings.Cut(lang, "-"); ok && written()[base] != nil {
		return base
	}
	return lang
}

// English reports whether a language is English of any country.
func English(lang string) bool { return baseOf(lang) == source }

// nameOf splits AREA.LANG.toml.
func nameOf(file string) (area, lang string, ok bool) {
	parts := strings.Split(file, ".")
	if len(parts) != 3 || parts[2] != "toml" {
		return "", "", false
	}
	return parts[0], parts[1], parts[0] != "" && parts[1] != ""
}

// missing lists the keys of the source language that t lacks, in order.
func (t *tongue) missing() []string {
	var keys []string
	for k := range in(source).messages {
		if _, ok := t.messages[k]; !ok {
			keys = append(keys, k)
		}
	}
	sort.Strings(keys)
	return keys
}

//go:embed shipped.txt
var shippedText string

// shipped are the languages that shipped.txt names: those that were read through
// and looked at. A language whose messages are still being written is not there.
var shipped = sync.OnceValue(func() []string { return strings.Fields(shippedText) })

// Languages lists the languages that are offered, as BCP 47 codes in
// alphabetical order: English, and every other that is shipped and complete. It
// reads them all.
func Languages() []string {
	var out []string
	for lang := range written() {
		if Offered(lang) {
			out = append(out, lang)
		}
	}
	sort.Strings(out)
	return out
}

// Offered reports whether lang can be spoken: one of Languages, or Pseudo.
func Offered(lang string) bool {
	return lang == source || lang == Pseudo || slices.Contains(shipped(), lang) && written()[lang] != nil && len(in(lang).missing()) == 0
}

// Keys lists the keys of all messages in alphabetical order.
func Keys() []string {
	out := make([]string, 0, len(in(source).messages))
	for k := range in(source).messages {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// Under returns the plain messages of lang whose keys start with prefix, by the
// rest of their key. It serves tables that another library takes whole.
func Under(lang, prefix string) map[string]string {
	out := map[string]string{}
	for k, m := range in(lang).messages {
		if rest, ok := strings.CutPrefix(k, prefix); ok {
			out[rest] = m.Other
		}
	}
	return out
}

var missed sync.Map // "lang key" of every message that was asked for and not found

func recordMissing(lang, key string) { missed.Store(lang+" "+key, true) }

// Missing lists "LANG KEY" for every message that was asked for and not found,
// and for every placeholder left unfilled, since the program started. It
// serves tests: after a page has been shown, nothing may be missing.
func Missing() []string {
	var out []string
	missed.Range(func(k, _ any) bool {
		out = append(out, k.(string))
		return true
	})
	sort.Strings(out)
	return out
}
