package i18n

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	goi18n "github.com/nicksnyder/go-i18n/v2/i18n"

	"example.org/driploop/model/quantity"
)

// To renew the record after a review:
//
//	go test ./i18n -run Renew -renew de -by "second reader, from the translation alone" -on 2026-11-30 [-notes glass,hands]
var (
	renewLang  = flag.String("renew", "", "the language whose record of reviews is renewed")
	renewBy    = flag.String("by", "", "who reviewed")
	renewOn    = flag.String("on", "", "on which day")
	renewNotes = flag.String("notes", "", "which notes, by comma; all of them unless given")
)

// noteIDs lists the notes that English has, in alphabetical order.
func noteIDs() []string {
	var out []string
	for key := range in(source).messages {
		if id, ok := strings.CutPrefix(key, "note."); ok && strings.HasSuffix(id, ".hazard") {
			out = append(out, strings.TrimSuffix(id, ".hazard"))
		}
	}
	slices.Sort(out)
	return out
}

// renewed is the record of a language with the reviews of some notes put in, and
// notes that are no more left out.
func renewed(lang string, old map[string]Review, notes []string, by, on string) (string, error) {
	if by == "" || !regexp.MustCompile(`^\d{4}-\d\d-\d\d$`).MatchString(on) {
		return "", fmt.Errorf("who reviewed, and on which day? got %q, %q", by, on)
	}
	var b strings.Builder
	b.WriteString("# Which translations of the safety notes were reviewed, of which texts, when and by whom. Written by the test Renew.\n")
	for _, id := range noteIDs() {
		r, ok := old[id]
		if slices.Contains(notes, id) {
			r, ok = Review{NoteHash(source, id), NoteHash(lang, id), on, by}, true
			if r.Translation == "" {
				return "", fmt.Errorf("%s lacks a text of the note %s", lang, id)
			}
		}
		if ok {
			fmt.Fprintf(&b, "\n[%s]\nsource = %q\ntranslation = %q\nreviewed_on = %q\nreviewed_by = %q\n", id, r.Source, r.Translation, r.On, r.By)
		}
	}
	return b.String(), nil
}

// What is renewed is read back as it was, and covers what was asked. With -renew
// the record of that language is written.
func TestRenew(t *testing.T) {
	lang, by, on, notes := "es", "a reader", "2026-11-30", []string{"glass", "shock"}
	if *renewLang != "" {
		lang, by, on, notes = *renewLang, *renewBy, *renewOn, noteIDs()
		if *renewNotes != "" {
			notes = strings.Split(*renewNotes, ",")
		}
	}
	text, err := renewed(lang, reviews(lang), notes, by, on)
	if err != nil {
		t.Fatal(err)
	}
	got, err := readReviews([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range notes {
		if !holds(got[id], NoteHash(source, id), NoteHash(lang, id)) || got[id].By != by || got[id].On != on {
			t.Errorf("%s came back as %+v", id, got[id])
		}
	}
	if *renewLang != "" {
		if err := os.WriteFile(filepath.Join("notes", lang+".toml"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := renewed(lang, nil, notes, "", on); err == nil {
		t.Error("nobody reviewed, and it was taken")
	}
	if _, err := renewed("xx", nil, notes, by, on); err == nil {
		t.Error("a language without texts was reviewed")
	}
}

// A language that is shipped has every safety note reviewed, of the texts that
// stand there now.
func TestShippedNotesAreReviewed(t *testing.T) {
	for _, lang := range shipped() {
		if baseOf(lang) == source {
			continue
		}
		for _, id := range noteIDs() {
			if !NoteReviewed(lang, id) {
				t.Errorf("%s: the note %q has no review of its texts as they are", lang, id)
			}
		}
		for id := range reviews(lang) {
			if !slices.Contains(noteIDs(), id) {
				t.Errorf("%s: notes/%s.toml has %q, which is no note", lang, lang, id)
			}
		}
	}
	if n := len(noteIDs()); n < 32 {
		t.Errorf("%d notes, want at least 32", n)
	}
}

// What is kept of reading back is of the texts as they stand: each line of each note, in
// English and in the language, with what a reader made of it and what was found.
func TestBackTranslationsAreOfTheTextsAsTheyStand(t *testing.T) {
	lines := 0
	for _, lang := range shipped() {
		base := baseOf(lang)
		if base == source {
			continue
		}
		kept := map[string][]string{}
		raw, err := os.ReadFile(filepath.Join("backtranslation", lang+".md"))
		if err != nil && base == lang {
			t.Error(err)
			continue
		}
		for line := range strings.Lines(string(raw)) {
			cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), " | ")
			if len(cells) == 7 {
				kept["note."+strings.TrimSpace(cells[0])+"."+cells[1]] = cells[2:]
			}
		}
		for _, id := range noteIDs() {
			if base != lang && NoteHash(lang, id) == NoteHash(base, id) {
				continue // read back in the base
			}
			for _, part := range NoteParts() {
				key := "note." + id + "." + part
				c, ok := kept[key]
				switch {
				case !ok:
					t.Errorf("%s: %s was not read back", lang, key)
				case c[0] != in(source).messages[key].Other || c[1] != in(lang).messages[key].Other:
					t.Errorf("%s: %s was read back as %q of %q", lang, key, c[1], c[0])
				case len(c[2]) < 8 || strings.TrimSpace(c[4]) == "":
					t.Errorf("%s: of %s nothing is kept", lang, key)
				}
				lines++
			}
		}
	}
	if lines < 11*96 {
		t.Errorf("%d lines, want at least 96 in each of eleven languages", lines)
	}
}

// An overlay takes the notes of its base with their review; a note in words of its own
// wants a reader of its own.
func TestOverlaysHaveTheReviewsOfTheirBase(t *testing.T) {
	overlay := func(messages map[string]*goi18n.Message) {
		made := &tongue{lang: "es-MX", messages: messages}
		tongues.Store("es-MX", func() *tongue { return made })
	}
	own := maps.Clone(in("es").messages)
	overlay(own)
	t.Cleanup(func() { tongues.Delete("es-MX") })
	for _, id := range noteIDs() {
		if !NoteReviewed("es-MX", id) {
			t.Errorf("%s is as in Spanish and has no review", id)
		}
	}
	own["note.glass.hazard"] = &goi18n.Message{ID: "note.glass.hazard", Other: "Los cantos de vidrio cortan."}
	if NoteReviewed("es-MX", "glass") {
		t.Error("a note in other words has the review of the Spanish one")
	}
	if !NoteReviewed("es-MX", "shock") {
		t.Error("the notes beside it have lost theirs")
	}
}

// A changed text on either side takes the review away.
func TestAReviewIsOfItsTexts(t *testing.T) {
	r := Review{Source: NoteHash("en", "glass"), Translation: NoteHash("es", "glass"), On: "2026-11-30", By: "a reader"}
	if !holds(r, NoteHash("en", "glass"), NoteHash("es", "glass")) {
		t.Error("a review of the texts as they are does not hold")
	}
	nobody := r
	nobody.By = ""
	for name, held := range map[string]bool{"another source": holds(r, NoteHash("en", "shock"), NoteHash("es", "glass")),
		"another translation": holds(r, NoteHash("en", "glass"), NoteHash("es", "shock")), "no reader": holds(nobody, NoteHash("en", "glass"), NoteHash("es", "glass")),
		"no texts": holds(Review{By: "x"}, "", ""), "no review": holds(Review{}, NoteHash("en", "glass"), NoteHash("es", "glass"))} {
		if held {
			t.Errorf("a review holds with %s", name)
		}
	}
	if NoteReviewed("xx", "glass") || !NoteReviewed("en", "glass") || !NoteReviewed("en-US", "glass") {
		t.Error("English needs a review, or a language without texts does not")
	}
	// The hash is of the template: it does not change with the region.
	if a, b := NoteHash("en", "shock"), NoteHash("en", "shock"); a != b || len(a) != 12 {
		t.Errorf("%q, %q", a, b)
	}
	if w := speak("es", "", quantity.Metric); w.T("note.glass.hazard", nil) == "" {
		t.Error("no note")
	}
}
