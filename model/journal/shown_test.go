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
	card := TestKit{Reading: NameAmmonia, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25", Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}}
	sheet := TestKit{Reading: NamePH, Unit: "ph", Steps: []string{"6.0", "6.4", "6.8", "7.2", "7.6"}}
	for _, c := range []struct {
		kit   TestKit
		typed string
		unit  quantity.UnitCode
		want  string
	}{
		// A colour as the card prints it; between two colours to the place of half of the way.
		{card, "0.25", "mg/l", "0.25"}, {card, "1.00", "mg/l", "1"}, {card, "1", "mg/l", "1"}, {card, "1.4", "mg/l", "1.4"}, {card, "1.37", "mg/l", "1.4"},
		{card, "2.6", "mg/l", "3"}, {card, "0.10", "mg/l", "0.1"}, {card, "0.375", "mg/l", "0.4"}, {card, "4.00", "mg/l", "4"}, {card, "5.3", "mg/l", "5"},
		{card, "0.000", "mg/l", "0"}, {card, "500.4", "ug/l", "500"}, {card, "1000.25", "ug/l", "1000"},
		{sheet, "6.80", "ph", "6.8"}, {sheet, "7.05", "ph", "7.1"}, {sheet, "7", "ph", "7"},
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

// How far the truth may lie from what a kit shows: to the middle of the way to the
// colours beside it. The figures follow by hand from the cards; half a step is what
// JCGM 100:2008 (GUM), F.2.2.1, allows an indication.
func TestRoomOfAKit(t *testing.T) {
	card := TestKit{Reading: NameAmmonia, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.05", Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}}
	drops := TestKit{Reading: NameKH, Unit: "dkh", Resolution: "1"}
	sheet := TestKit{Reading: NamePH, Unit: "ph", Steps: []string{"6.0", "6.4", "6.8"}}
	strip := TestKit{Reading: NameTemperature, Unit: "degf", Steps: []string{"70", "74", "78"}}
	for _, c := range []struct {
		kit          TestKit
		shows        string
		below, above float64 // in the unit of the kit
	}{
		{card, "0", 0, 0.125}, {card, "0.25", 0.125, 0.125}, {card, "0.5", 0.125, 0.25}, {card, "1", 0.25, 0.5}, {card, "2", 0.5, 1}, {card, "4", 1, 1},
		{card, "0.1", 0.1, 0.125}, {card, "1.4", 0.5, 0.5}, {card, "3", 1, 1}, {card, "6", 1, 1},
		{drops, "5", 0.5, 0.5}, {sheet, "6.0", 0.2, 0.2}, {sheet, "6.4", 0.2, 0.2}, {sheet, "6.6", 0.2, 0.2}, {strip, "74", 2, 2},
	} {
		v, err := quantity.Measure{Number: c.shows, Unit: c.kit.Unit}.Value()
		if err != nil {
			t.Fatal(err)
		}
		below, above, ok := c.kit.Room(v)
		u := quantity.MustUnit(c.kit.Unit)
		in := func(x float64) float64 { return u.ToBase(x) - u.ToBase(0) }
		if !ok || math.Abs(below.X-in(c.below)) > 1e-12+1e-9*in(1) || math.Abs(above.X-in(c.above)) > 1e-12+1e-9*in(1) {
			t.Errorf("%s on %v: %v below and %v above, want %v and %v", c.shows, c.kit.Steps, below.X, above.X, in(c.below), in(c.above))
		}
	}
	if _, _, ok := (TestKit{Reading: NameKH, Unit: "dkh"}).Room(quantity.Value{Kind: quantity.KindHardness, X: 50}); ok {
		t.Error("a kit of which nothing is known tells how far it may be off")
	}
	if _, _, ok := card.Room(quantity.PH(7).Value()); ok {
		t.Error("a card of ammonia tells how far a pH may be off")
	}
	if step, ok := (TestKit{Unit: "mg/l", Steps: []string{"0.1", "0.5", "1"}}).Step(); !ok || step.X != quantity.MustUnit("mg/l").ToBase(0.1) {
		t.Errorf("the least that a card shows is %v, want its first colour above nought", step)
	}
}

// Every value has one room only: what one colour may stand for and what the next may
// do meet in the middle, and leave no gap.
func TestRoomsMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var card []float64
		x := 0.0
		for range rapid.IntRange(2, 10).Draw(t, "colours") {
			card = append(card, x)
			x += rapid.Float64Range(0.01, 50).Draw(t, "way")
		}
		for i := 1; i < len(card); i++ {
			_, above, _ := halves(card, card[i-1])
			below, _, _ := halves(card, card[i])
			if math.Abs(card[i-1]+above-(card[i]-below)) > 1e-9*card[i] {
				t.Fatalf("%v: %v to above %v, %v from below %v", card, above, card[i-1], below, card[i])
			}
		}
	})
}
