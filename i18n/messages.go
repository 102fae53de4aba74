package i18n

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
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

// catalogue is every message of every language, read once.
type catalogue struct {
	bundle   *goi18n.Bundle
	messages map[string]map[string]*goi18n.Message // language, key
	areas    map[string]string                     // key to area, from the source language
	offered  []string
}

// read loads the embedded files on first use. A file that cannot be read is a
// fault of the build, which the tests of this package find, so it panics.
var read = sync.OnceValue(func() *catalogue {
	c, err := readAll()
	if err != nil {
		panic("i18n: " + err.Error())
	}
	return c
})

// parsed is one file of messages, or why it is none.
type parsed struct {
	name string
	file *goi18n.MessageFile
	err  error
}

// parse reads the files side by side: the window waits for them at its start.
func parse(entries []fs.DirEntry) []parsed {
	out := make([]parsed, len(entries))
	how := map[string]goi18n.UnmarshalFunc{"toml": toml.Unmarshal}
	var all sync.WaitGroup
	for i, e := range entries {
		all.Go(func() {
			r := parsed{name: e.Name()}
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

func readAll() (*catalogue, error) {
	c := &catalogue{
		bundle:   goi18n.NewBundle(language.Make(source)),
		messages: map[string]map[string]*goi18n.Message{},
		areas:    map[string]string{},
	}
	entries, err := files.ReadDir("messages")
	if err != nil {
		return nil, err
	}
	for _, r := range parse(entries) {
		if r.err != nil {
			return nil, fmt.Errorf("%s: %w", r.name, r.err)
		}
		area, lang, ok := nameOf(r.name)
		if !ok {
			return nil, fmt.Errorf("%s: the name is not AREA.LANG.toml", r.name)
		}
		f := r.file
		if err := c.bundle.AddMessages(f.Tag, f.Messages...); err != nil {
			return nil, fmt.Errorf("%s: %w", r.name, err)
		}
		if c.messages[lang] == nil {
			c.messages[lang] = map[string]*goi18n.Message{}
		}
		for _, m := range f.Messages {
			if _, twice := c.messages[lang][m.ID]; twice {
				return nil, fmt.Errorf("%s: %q stands in another file of the language too", r.name, m.ID)
			}
			c.messages[lang][m.ID] = m
			if lang == source {
				c.areas[m.ID] = area
			}
		}
	}
	for lang := range c.messages {
		if lang == source || len(c.missing(lang)) == 0 {
			c.offered = append(c.offered, lang)
		}
	}
	sort.Strings(c.offered)
	return c, nil
}

// nameOf splits AREA.LANG.toml.
func nameOf(file string) (area, lang string, ok bool) {
	parts := strings.Split(file, ".")
	if len(parts) != 3 || parts[2] != "toml" {
		return "", "", false
	}
	return parts[0], parts[1], parts[0] != "" && parts[1] != ""
}

// missing lists the keys of the source language that lang lacks, in order.
func (c *catalogue) missing(lang string) []string {
	var keys []string
	for k := range c.messages[source] {
		if _, ok := c.messages[lang][k]; !ok {
			keys = append(keys, k)
		}
	}
	sort.Strings(keys)
	return keys
}

// Languages lists the languages that are offered, as BCP 47 codes in
// alphabetical order: English, and every other whose messages are complete.
func Languages() []string { return append([]string(nil), read().offered...) }

// Offered reports whether lang is among Languages.
func Offered(lang string) bool {
	for _, l := range read().offered {
		if l == lang {
			return true
		}
	}
	return false
}

// Lacking lists the keys that lang does not have, in alphabetical order.
func Lacking(lang string) []string { return read().missing(lang) }

// Under returns the plain messages of lang whose keys start with prefix, by the
// rest of their key. It serves tables that another library takes whole.
func Under(lang, prefix string) map[string]string {
	out := map[string]string{}
	for k, m := range read().messages[lang] {
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
