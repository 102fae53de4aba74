package journal

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
)

// What is shown is no finer than the kit's smallest step; what is as coarse already
// stays digit for digit.
func TestShownIsNoFinerThanTheKit(t *testing.T) {
	ph := TestKit{Reading: NamePH, Unit: "ph", Resolution: "0.2"}
	drops := TestKit{Reading: NameNitrate, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25"}
	strip := TestKit{Reading: NameNitrate, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "5"}
	degrees := TestKit{Reading: NameTemperature, Unit: "degc", Resolution: "0.5"}
	for _, c := range []struct {
		kit   TestKit
		typed string
		unit  quantity.UnitCode
		want  string
	}{
		{ph, "7.43", "ph", "7.4"}, {ph, "7.45", "ph", "7.5"}, {ph, "7.4", "ph", "7.4"}, {ph, "7", "ph", "7"},
		{drops, "0.333", "mg/l", "0.33"}, {drops, "0.5", "mg/l", "0.5"}, {drops, "-0.001", "mg/l", "0.00"},
		{strip, "40.4", "mg/l", "40"}, {strip, "12", "mg/l", "12"},
		{degrees, "77.36", "degf", "77.4"}, {degrees, "25.04", "degc", "25.0"}, // 0.5 °C is 0.9 °F
		{TestKit{Unit: "mg/l"}, "0.333", "mg/l", "0.333"}, {drops, "7.4321", "ph", "7.4321"}, {drops, "much", "mg/l", "much"}, {drops, "1.2.345", "mg/l", "1.2.345"},
	} {
		if got := c.kit.Shown(quantity.Measure{Number: c.typed, Unit: c.unit}); got.Number != c.want || got.Unit != c.unit {
			t.Errorf("%s %s is shown as %s %s, want %s", c.typed, c.unit, got.Number, got.Unit, c.want)
		}
	}
}

func TestShownStaysWithinHalfAPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.IntRange(0, 4).Draw(t, "places")
		step := "1"
		if places > 0 {
			step = "0." + strings.Repeat("0", places-1) + "1"
		}
		kit := TestKit{Reading: NameNitrite, Unit: "mg/l", Basis: quantity.AsIon, Resolution: step}
		typed := quantity.Measure{Number: rapid.StringMatching(`[0-9]{1,3}(\.[0-9]{1,7})?`).Draw(t, "typed"), Unit: "mg/l", Basis: quantity.AsIon}
		shown := kit.Shown(typed)
		a, errA := typed.Value()
		b, errB := shown.Value()
		_, fraction, _ := strings.Cut(shown.Number, ".")
		if errA != nil || errB != nil || len(fraction) > places || math.Abs(a.X-b.X) > a.X*1e-12+0.5000001*quantity.MustUnit("mg/l").ToBase(math.Pow(10, -float64(places))) || shown.Basis != typed.Basis {
			t.Fatalf("%+v is shown as %+v", typed, shown)
		}
		if again := kit.Shown(shown); again != shown {
			t.Fatalf("%+v becomes %+v", shown, again)
		}
	})
}
