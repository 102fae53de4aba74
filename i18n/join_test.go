package i18n

import (
	"testing"

	"example.org/driploop/model/quantity"
)

// Sentences and what belongs together are joined by the marks of the language. Source: GB/T
// 15834 for Chinese and JIS X 4051 for Japanese, where the full stop and the comma are of full
// width and no space follows them.
func TestJoinedByTheMarksOfTheLanguage(t *testing.T) {
	for _, c := range []struct{ lang, comma, stop string }{
		{"en", "a, b", "a. b"}, {"de", "a, b", "a. b"}, {"ja", "a、b", "a。b"}, {"zh", "a，b", "a。b"},
	} {
		w := Speak(c.lang, "", quantity.Metric)
		if got := w.Comma("a", "", "b"); got != c.comma {
			t.Errorf("%s: %q, want %q", c.lang, got, c.comma)
		}
		if got := w.Stop("a", "b"); got != c.stop {
			t.Errorf("%s: %q, want %q", c.lang, got, c.stop)
		}
		if got := w.Stop("", "b"); got != "b" {
			t.Errorf("%s: %q, want b alone", c.lang, got)
		}
	}
	for _, c := range []struct {
		parts []string
		want  string
	}{
		{[]string{"One.", "Two."}, "One. Two."}, {[]string{"一。", "二。"}, "一。二。"}, {[]string{"", "One.", ""}, "One."}, {nil, ""},
	} {
		if got := Sentences(c.parts...); got != c.want {
			t.Errorf("%q: %q, want %q", c.parts, got, c.want)
		}
	}
}

// What Colon joins AtColon parts, in every language.
func TestAColonPartsWhatItJoined(t *testing.T) {
	for _, lang := range Languages() {
		w := Speak(lang, "", quantity.Metric)
		if name, said, ok := w.AtColon(w.Colon("a", "b")); name != "a" || said != "b" || !ok {
			t.Errorf("%s: %q came apart as %q and %q", lang, w.Colon("a", "b"), name, said)
		}
		if name, said, ok := w.AtColon("a 5:05"); name != "a 5:05" || said != "" || ok {
			t.Errorf("%s: a time was taken for a colon: %q and %q", lang, name, said)
		}
	}
}
