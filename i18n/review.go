package i18n

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"path"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"
)

// A safety note is shown in a language once its translation was reviewed there, by
// somebody other than who translated it. The record of that is notes/LANG.toml: for
// each note the hash of the English text that was translated and of the translation
// that was read, when, and by whom. A text that changed afterwards, on either side,
// has no review, and the note is shown in English until the record is renewed.

//go:embed notes/*.toml
var reviewFiles embed.FS

// Review is what is kept of the review of one note in one language.
type Review struct {
	Source      string `toml:"source"`      // NoteHash of the English text
	Translation string `toml:"translation"` // of the text in the language
	On          string `toml:"reviewed_on"` // a day, 2026-11-30
	By          string `toml:"reviewed_by"`
}

// NoteParts are the texts of a safety note, in order: note.ID.PART.
func NoteParts() []string { return []string{"hazard", "consequence", "avoid"} }

// noteText is the whole text of a note in a language, placeholders as written.
func (t *tongue) noteText(note string) (string, bool) {
	var out []string
	for _, part := range NoteParts() {
		m, ok := t.messages["note."+note+"."+part]
		if !ok {
			return "", false
		}
		out = append(out, m.Other)
	}
	return strings.Join(out, "\n"), true
}

// NoteHash is the hash of the text of a note in a language: the first twelve
// figures of its SHA-256. Empty where the language lacks it.
func NoteHash(lang, note string) string {
	text, ok := in(lang).noteText(note)
	if !ok {
		return ""
	}
	return hashOf(text)
}

func hashOf(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:6])
}

// reviews reads the record of a language; one without a file has none.
func reviews(lang string) map[string]Review {
	once, _ := reviewed.LoadOrStore(lang, sync.OnceValue(func() map[string]Review {
		raw, err := reviewFiles.ReadFile(path.Join("notes", lang+".toml"))
		if err != nil {
			return nil
		}
		out, err := readReviews(raw)
		if err != nil {
			panic("i18n: notes/" + lang + ".toml: " + err.Error())
		}
		return out
	}))
	return once.(func() map[string]Review)()
}

var reviewed sync.Map // language to func() map[string]Review

func readReviews(raw []byte) (map[string]Review, error) {
	var out map[string]Review
	meta, err := toml.Decode(string(raw), &out)
	if err == nil && len(meta.Undecoded()) > 0 {
		err = fmt.Errorf("%s is not known", meta.Undecoded()[0])
	}
	return out, err
}

// NoteReviewed reports whether a note may be shown in a language: English needs no
// review, nor does what lies over it or is made of it. An overlay of another language
// has the review of that language for the notes that it takes from there as they are.
func NoteReviewed(lang, note string) bool {
	base := baseOf(lang)
	if lang == Pseudo || base == source {
		return true
	}
	if base != lang && NoteHash(lang, note) == NoteHash(base, note) {
		return NoteReviewed(base, note)
	}
	return holds(reviews(lang)[note], NoteHash(source, note), NoteHash(lang, note))
}

// holds reports whether a review is of these two texts.
func holds(r Review, source, translation string) bool {
	return r.By != "" && source != "" && translation != "" && r.Source == source && r.Translation == translation
}
