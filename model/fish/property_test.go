package fish

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
)

// drawLots draws a stock, sometimes with sexes and today's lengths.
func drawLots(t *rapid.T, least, most int) []Lot {
	all := load().list
	n := rapid.IntRange(least, most).Draw(t, "lots")
	var out []Lot
	for range n {
		a := rapid.SampledFrom(all).Draw(t, "kind")
		l := Lot{Code: a.Code, Count: rapid.IntRange(1, 12).Draw(t, "count"), Planned: rapid.Bool().Draw(t, "planned")}
		if rapid.Bool().Draw(t, "sexed") {
			m := rapid.IntRange(0, l.Count).Draw(t, "males")
			l.Males = &m
		}
		if rapid.Bool().Draw(t, "measured") {
			x := a.Length * quantity.Length(rapid.Float64Range(0.3, 1.2).Draw(t, "of adult"))
			l.Length = &x
		}
		out = append(out, l)
	}
	return out
}

func drawHome(t *rapid.T) Home {
	h := Home{Tank: quantity.Litres(rapid.Float64Range(10, 1000).Draw(t, "litres"))}
	if rapid.Bool().Draw(t, "aged") {
		h.Age = weeks(rapid.Float64Range(0, 60).Draw(t, "weeks"))
	}
	if rapid.Bool().Draw(t, "sized") {
		l, w := quantity.Length(rapid.Float64Range(0.3, 2).Draw(t, "length")), quantity.Length(rapid.Float64Range(0.2, 0.8).Draw(t, "width"))
		h.Length, h.Width = &l, &w
	}
	if rapid.Bool().Draw(t, "warm") {
		x := quantity.Temperature(rapid.Float64Range(15, 30).Draw(t, "temperature"))
		h.Water.Temperature = &x
	}
	return h
}

// Another animal never turns a no into steady, and the order does not matter.
func TestMoreNeverCuresANo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, lots := drawHome(t), drawLots(t, 1, 5)
		before, err := Judge(h, lots)
		if err != nil {
			t.Fatal(err)
		}
		more, err := Judge(h, append(slices.Clone(lots), drawLots(t, 1, 2)...))
		if err != nil {
			t.Fatal(err)
		}
		if before.Verdict == No {
			if more.Verdict == Steady {
				t.Fatalf("%v was a no and is steady with more: %s", lots, told(before))
			}
		}
		slices.Reverse(lots)
		turned, err := Judge(h, lots)
		if err != nil || told(turned) != told(before) {
			t.Fatalf("in another order: %s, then %s (%v)", told(before), told(turned), err)
		}
	})
}

// Every clash is told: a finding and a cure, both with their animals, and the
// gravest first.
func TestClashesAreTold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		got, err := Judge(drawHome(t), drawLots(t, 1, 6))
		if err != nil {
			t.Fatal(err)
		}
		worst := Steady
		for i, c := range got.Clashes {
			worst = max(worst, c.Verdict)
			if i > 0 && got.Clashes[i-1].Verdict < c.Verdict {
				t.Fatalf("a graver clash comes after a milder one: %s", told(got))
			}
			if c.Says == "" || c.Advises == "" || c.Finding.State != c.Verdict.State() || c.Finding.Words["A"] != c.A.Name() || c.B != "" && c.Finding.Words["B"] != c.B.Name() {
				t.Fatalf("%+v", c)
			}
		}
		if worst != got.Verdict {
			t.Fatalf("the verdict is %v, the worst clash %v", got.Verdict, worst)
		}
	})
}

// All pairs of the catalogue are judged, alike in both orders.
func TestAllPairs(t *testing.T) {
	all, pairs := load().list, 0
	h := Home{Tank: quantity.Litres(20_000), Age: weeks(52)}
	for i, a := range all {
		for _, b := range all[i:] {
			one := []Lot{{Code: a.Code, Count: a.MinGroup}, {Code: b.Code, Count: b.MinGroup}}
			two := []Lot{one[1], one[0]}
			x, err := Judge(h, one)
			y, err2 := Judge(h, two)
			if err != nil || err2 != nil || x.Verdict != y.Verdict || told(x) != told(y) {
				t.Fatalf("%s and %s: %s, %s (%v, %v)", a.Code, b.Code, told(x), told(y), err, err2)
			}
			pairs++
		}
	}
	if pairs != 125*126/2 {
		t.Errorf("%d pairs", pairs)
	}
}
