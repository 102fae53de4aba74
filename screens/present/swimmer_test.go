package present

import (
	"slices"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
)

func TestSwimmerIsTold(t *testing.T) {
	for _, c := range []struct {
		lang string
		w    care.Swimmer
		want []string
	}{
		{"en", care.Swimmer{Code: "danio-rerio", Count: 6, Length: 0.03, Adult: 0.046}, []string{"Zebra danio: 6", "about 3 cm today, adult 4.6 cm"}},
		{"en", care.Swimmer{Code: "danio-rerio", Name: "The gang", Count: 60, Length: 0.046, Adult: 0.046}, []string{"The gang: 60", "adult 4.6 cm · 36 more are not drawn"}},
		{"en", care.Swimmer{Code: "danio-rerio", Count: 25, Length: 0.046, Adult: 0.046, Planned: true}, []string{"Zebra danio: 25 planned", "adult 4.6 cm · 1 more is not drawn"}},
		{"en", care.Swimmer{Count: 5, Length: 0.03}, []string{"Fish without a name: 5", "3 cm long"}},
		{"es", care.Swimmer{Code: "danio-rerio", Count: 60, Length: 0.046, Adult: 0.046, Planned: true}, []string{"Danio cebra: 60 en el plan", "de adulto, 4,6 cm · 36 más no están dibujados"}},
	} {
		p := Presenter{W: i18n.Speak(c.lang, "ES", quantity.Metric)}
		if c.lang == "en" {
			p = Presenter{W: i18n.Speak(c.lang, "GB", quantity.Metric)}
		}
		got := p.Swimmer(c.w, 24)
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], "\u00a0", " ")
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s %+v: %q, want %q", c.lang, c.w, got, c.want)
		}
	}
}
