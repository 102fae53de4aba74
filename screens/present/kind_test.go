package present

import (
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
)

// A kind that the catalogue does not have is named, and not by a key.
func TestKindThatIsUnknown(t *testing.T) {
	for _, lang := range i18n.Languages() {
		p := Presenter{W: i18n.Speak(lang, "", quantity.Metric)}
		for code, want := range map[fish.Code]string{"piscis-hesternus": "Piscis hesternus", "ñandu": "Ñandu", "": ""} {
			if got := p.KindName(code); got != want {
				t.Errorf("%s: %q is named %q, want %q", lang, code, got, want)
			}
		}
	}
}
