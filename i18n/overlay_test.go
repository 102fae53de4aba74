package i18n

import (
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// An overlay has only what differs from its base, and of that nothing else.
func TestOverlaysHaveOnlyWhatDiffers(t *testing.T) {
	n := 0
	for lang := range written() {
		if baseOf(lang) == lang {
			continue
		}
		base := in(baseOf(lang)).messages
		for _, r := range parse(written()[lang]) {
			if r.err != nil {
				t.Fatal(r.err)
			}
			area, _, _ := nameOf(r.name)
			for _, m := range r.file.Messages {
				n++
				b, ok := base[m.ID]
				switch {
				case !ok:
					t.Errorf("%s: %q is not in %s", r.name, m.ID, baseOf(lang))
				case b.Other == m.Other && b.One == m.One:
					t.Errorf("%s: %q is as it is in %s", r.name, m.ID, baseOf(lang))
				case in(baseOf(lang)).areas[m.ID] != area:
					t.Errorf("%s: %q stands in %s in %s", r.name, m.ID, in(baseOf(lang)).areas[m.ID], baseOf(lang))
				}
			}
		}
	}
	if n < 40 {
		t.Errorf("%d messages of overlays, want at least 40", n)
	}
}

// British spellings and words that American ones replace. Source: the entries of a
// general dictionary, and receptacle for the word of the NEC, from memory.
var british = []string{"colour", "grey", "litre", "metre ", "metres", "centre", "vapour", "behaviour", "ionised", "labelled", "armoured", "draught", "catalogue", "neighbour", "socket", "chipboard", "timber", "favourite"}

// No British spelling is left in American English, and English falls back message
// by message.
func TestAmericanEnglish(t *testing.T) {
	us, gb := speak("en-US", "US", quantity.US), speak("en", "GB", quantity.Metric)
	same, differ := 0, 0
	for key, m := range in("en-US").messages {
		if strings.HasPrefix(key, "verb.help.") || key == "word.care.socket" { // command words stay as they are; what is a socket elsewhere is called so
			continue
		}
		for _, word := range british {
			if strings.Contains(strings.ToLower(placeholder.ReplaceAllString(m.Other, ""))+" ", word) {
				t.Errorf("en-US %q has %q: %q", key, word, m.Other)
			}
		}
		if m.Other == in("en").messages[key].Other {
			same++
		} else {
			differ++
		}
	}
	if differ < 40 || same < 1500 {
		t.Errorf("%d messages differ and %d do not", differ, same)
	}
	for key, want := range map[working.Key][2]string{"q.water.nh3": {"Un-ionized ammonia", "Un-ionised ammonia"}, "label.back": {gb.T("label.back", nil), gb.T("label.back", nil)}} {
		if a, b := us.T(key, nil), gb.T(key, nil); a != want[0] || b != want[1] {
			t.Errorf("%s: %q and %q, want %q", key, a, b, want)
		}
	}
	if got := us.N("n.unknown_animals", 1, nil); !strings.Contains(got, "catalog:") {
		t.Errorf("a plural form of the overlay reads %q", got)
	}
}

// The pseudo-language can be spoken and is never offered in a list; its texts are
// longer by the share asked, keep their placeholders and choose their plurals.
func TestPseudo(t *testing.T) {
	if !Offered(Pseudo) {
		t.Error("it cannot be spoken")
	}
	for _, l := range Languages() {
		if l == Pseudo {
			t.Error("it is offered")
		}
	}
	w := Speak(Pseudo, "US", quantity.US)
	if got := w.T("label.back", nil); !strings.HasPrefix(got, "[B") || !strings.HasSuffix(got, "]") {
		t.Errorf("label.back reads %q", got)
	}
	if got := w.N("n.unknown_animals", 3, nil); !strings.Contains(got, "3") || !strings.HasPrefix(got, "[") {
		t.Errorf("a plural reads %q", got)
	}
	long, short := 0, 0
	for key, m := range in(Pseudo).messages {
		e := in(source).messages[key]
		if got, want := names(m.Other), names(e.Other); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("%q: placeholders %v, want %v", key, got, want)
		}
		if technical(key) {
			continue
		}
		long += len([]rune(m.Other))
		short += len([]rune(e.Other))
	}
	if share := float64(long) / float64(short); share < 1.35 || share > 1.55 {
		t.Errorf("the texts are %.2f times as long", share)
	}
}

// Names of languages in themselves. Source: Unicode CLDR.
func TestNamesOfLanguages(t *testing.T) {
	for lang, want := range map[string]string{"en": "English", "es": "Español", "de": "Deutsch", "fr": "Français", "ja": "日本語", "uk": "Українська", "tr": "Türkçe", "zh": "简体中文", "en-US": "American English"} {
		if got := NameOf(lang); got != want {
			t.Errorf("%s is called %q, want %q", lang, got, want)
		}
	}
	if got := speak("es", "", quantity.Metric).NameHere("de"); got != "alemán" {
		t.Errorf("German in Spanish is %q", got)
	}
}
