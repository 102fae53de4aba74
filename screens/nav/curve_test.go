package nav

import (
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/present"
)

// The times below a course are minutes all along, the first too, as its timer counts them.
func TestCurveCountsMinutes(t *testing.T) {
	for lang, want := range map[string][2]string{"en": {"0\u00a0min", "150\u00a0min"}, "ja": {"0分", "150分"}, "zh": {"0\u00a0分钟", "150\u00a0分钟"}} {
		d := Deps{Present: present.Presenter{W: i18n.Speak(lang, "", quantity.Metric)}}
		c := care.Curve{Name: "q.care.bag_temperature", Time: []time.Duration{0}, Middle: []quantity.Value{{Kind: quantity.KindTemperature, X: 295}}}
		label := CurveSpec(d, &c).X.Label
		if got := [2]string{label(0, 10), label(150, 10)}; got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}
