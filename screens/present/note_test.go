package present

import (
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
)

// Regional words apart from language: who reads English in Germany is told of an
// RCD, 230 V and 112; who reads Spanish in the United States of 120 V and 911.
func TestNotesSpeakOfTheRegion(t *testing.T) {
	for _, c := range []struct {
		lang, region string
		id           care.NoteID
		want         string
	}{
		{"en", "DE", "protection", "RCD"}, {"en", "US", "protection", "GFCI"}, {"en", "US", "nothing_plugged", "receptacle"}, {"en", "GB", "nothing_plugged", "socket"},
		{"en", "GB", "shock", "230\u00a0V"}, {"es", "US", "shock", "120\u00a0V"}, {"en", "JP", "shock", "100\u00a0V"},
		{"en", "GB", "someone_shocked", "Call 999."}, {"es", "ES", "someone_shocked", "Llama al 112."}, {"es", "US", "someone_shocked", "911"}, {"en", "JP", "someone_shocked", "119"},
		{"en", "", "someone_shocked", "Call your local emergency number."}, {"es", "", "food_allergy", "número local de emergencias"},
	} {
		p := Presenter{W: i18n.Speak(c.lang, c.region, quantity.Metric), Region: care.Region{Code: c.region}}
		text, lang, hash := p.Confirmable(c.id)
		if !strings.Contains(text, c.want) || lang != c.lang || hash != i18n.NoteHash("en", string(c.id)) {
			t.Errorf("%s in %q, %s: %q (%s, %s), want %q", c.lang, c.region, c.id, text, lang, hash, c.want)
		}
	}
}

// A note whose translation nobody has reviewed is shown in English, under the
// signal word of the language, and says so; it is confirmed as English. One that
// was reviewed is shown in its language. Here every second note counts as not
// reviewed, whatever its record says.
func TestUnreviewedNotesFallBack(t *testing.T) {
	if !i18n.Draft("de") || i18n.Draft("xx") {
		t.Fatal("German has no messages, or a language that is none has")
	}
	dropped := map[string]bool{}
	for i, n := range care.Notes() {
		dropped[string(n.ID)] = i%2 == 0
	}
	noteReviewed = func(lang, note string) bool {
		return i18n.NoteReviewed(lang, note) && (lang == "en" || !dropped[note])
	}
	t.Cleanup(func() { noteReviewed = i18n.NoteReviewed })
	reviewed, fellBack := 0, 0
	for _, lang := range []string{"de", "es"} {
		p := Presenter{W: i18n.Speak(lang, "DE", quantity.Metric), Region: care.Region{Code: "DE"}}
		if p.W.Language() != lang {
			t.Fatalf("%s is not spoken", lang)
		}
		en := Presenter{W: i18n.Speak("en", "DE", quantity.Metric), Region: care.Region{Code: "DE"}}
		for _, n := range care.Notes() {
			note, english := p.Note(n), en.Note(n)
			shown, said, _ := p.Confirmable(n.ID)
			if noteReviewed(lang, string(n.ID)) {
				reviewed++
				if note.Lang != lang || note.Unreviewed != "" || note.Hazard == english.Hazard || said != lang {
					t.Errorf("%s %s is reviewed and reads %+v, kept as %s", lang, n.ID, note, said)
				}
				continue
			}
			fellBack++
			if note.Lang != "en" || note.Hazard != english.Hazard || note.Consequence != english.Consequence || note.Avoid != english.Avoid || said != "en" {
				t.Errorf("%s %s is not reviewed and reads %+v, kept as %s", lang, n.ID, note, said)
			}
			if note.Signal == english.Signal && lang == "de" || note.Unreviewed == "" || !strings.Contains(shown, note.Unreviewed) {
				t.Errorf("%s %s: signal %q, said %q", lang, n.ID, note.Signal, note.Unreviewed)
			}
		}
	}
	if reviewed == 0 || fellBack == 0 {
		t.Errorf("%d notes were reviewed and %d fell back, want some of each", reviewed, fellBack)
	}
}
