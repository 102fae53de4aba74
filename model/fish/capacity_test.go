package fish

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func TestFurtherCases(t *testing.T) {
	rows := drill.Named(t, "fish/more_cases.csv")
	if len(rows) != 28 {
		t.Errorf("%d cases, want 28", len(rows))
	}
	for _, r := range rows {
		holdsCase(t, r)
	}
}

func TestMetabolicLoad(t *testing.T) {
	rows := drill.Named(t, "fish/metabolic_load.csv")
	if len(rows) != 15 {
		t.Errorf("%d rows, want 15", len(rows))
	}
	neon := load().by[neonCode]
	for _, r := range rows {
		celsius, want, within := drill.Number(t, r["temperature_c"]), drill.Number(t, r["value"]), drill.Number(t, r["within"])
		got := restingOxygen(50, celsius)
		if r["what"] != "rest50g" {
			a, err := Get(Code(r["what"]))
			if err != nil {
				t.Fatal(err)
			}
			got = restingOxygen(a.grams, celsius) / restingOxygen(neon.grams, celsius)
		}
		if math.Abs(got-want) > within {
			t.Errorf("%s at %g: %.3g, want %g", r["what"], celsius, got, want)
		}
	}
}

func homeOf(litres, length, width, celsius float64) Home {
	l, w, c := quantity.Length(length/100), quantity.Length(width/100), quantity.Temperature(celsius)
	return Home{Tank: quantity.Litres(litres), Length: &l, Width: &w, Water: Water{Temperature: &c}}
}

// The worked example of the reference sheet: 60 by 30 cm at 25 °C takes in some 18
// mg/h, ten neons and six panda corydoras are about its fill with the pump off.
func TestOxygenOfASmallTank(t *testing.T) {
	c, err := CapacityOf(homeOf(60, 60, 30, 25), []Lot{{Code: neonCode, Count: 10}, {Code: "corydoras-panda", Count: 6}})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range c.Checks {
		if x.Name != "q.fish.check_pump_off" {
			continue
		}
		if supply := x.Capacity.X * 1000 / 24; math.Abs(supply-17.6) > 0.5 {
			t.Errorf("supply %.3g mg/h, want about 18", supply)
		}
		if x.Use < 0.5 || x.Use > 1 {
			t.Errorf("use %.3g, want near the fill", x.Use)
		}
	}
	if c.Governing == "" || c.Trail == nil || len(c.Checks) != 6 || c.Cross.Trail == nil || len(c.Findings) != 2 { // the media are not known
		t.Errorf("%+v", c)
	}
	for i, x := range c.Checks {
		if !x.Trail.Finite() || len(x.Trail.Valid) == 0 || i > 0 && x.State > c.Checks[0].State {
			t.Errorf("%s: %+v", x.Name, x.Trail)
		}
	}
}

// The length rule fails on large fish and says so; it does not govern.
func TestLengthRuleFails(t *testing.T) {
	c, err := CapacityOf(homeOf(240, 120, 40, 24), []Lot{{Code: "astronotus-ocellatus", Count: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if c.Cross.State != working.Steady || c.Cross.Finding == nil || c.Verdict != No || c.Governing == c.Cross.Name {
		t.Errorf("one oscar: length rule %+v, verdict %v by %s", c.Cross, c.Verdict, c.Governing)
	}
	c, err = CapacityOf(homeOf(60, 60, 30, 25), []Lot{{Code: neonCode, Count: 8}})
	if err != nil || c.Cross.Finding != nil {
		t.Errorf("neons: %+v, %v", c.Cross.Finding, err)
	}
}

// More animals never make a tank less full, by any rule, nor leave more room.
func TestMoreIsNeverLaxer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, lots := drawHome(t), drawLots(t, 1, 4)
		celsius := quantity.Temperature(25) // else the warmth moves with the stock
		h.Water.Temperature = &celsius
		more := append(slices.Clone(lots), drawLots(t, 1, 2)...)
		a, err := CapacityOf(h, lots)
		b, err2 := CapacityOf(h, more)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if b.Use < a.Use || b.Verdict < a.Verdict || b.Cross.Use < a.Cross.Use {
			t.Fatalf("%v at %v %v, with more %v %v", lots, a.Use, a.Verdict, b.Use, b.Verdict)
		}
		for _, x := range a.Checks {
			i := slices.IndexFunc(b.Checks, func(y working.Check) bool { return y.Name == x.Name })
			if i < 0 || b.Checks[i].Use < x.Use {
				t.Fatalf("%s: %v, with more %v", x.Name, x.Use, b.Checks)
			}
		}
		code := rapid.SampledFrom(load().list).Draw(t, "kind").Code
		r, err := RoomFor(h, lots, code)
		s, err2 := RoomFor(h, more, code)
		if err != nil || err2 != nil || s.Most > r.Most || s.Comfortable > r.Comfortable || r.Comfortable > r.Most {
			t.Fatalf("room %+v, with more %+v (%v, %v)", r, s, err, err2)
		}
	})
}

// As many as there is room for fill the tank to at most all of it, and one more is
// too many.
func TestRoomIsTheLast(t *testing.T) {
	h, lots := homeOf(112, 80, 35, 24), []Lot{{Code: "corydoras-panda", Count: 6}}
	r, err := RoomFor(h, lots, neonCode)
	if err != nil || r.Most < 5 || r.Most > 40 || r.Governing == "" {
		t.Fatalf("%+v, %v", r, err)
	}
	for n, full := range map[int]bool{r.Most: false, r.Most + 1: true} {
		c, err := CapacityOf(h, append(lots, Lot{Code: neonCode, Count: n}))
		if err != nil || (c.Use > 1) != full {
			t.Errorf("%d neons: %v %v", n, c.Use, err)
		}
	}
	r, err = RoomFor(h, lots, "astronotus-ocellatus")
	if err != nil || r.Most != 0 || r.Governing != "q.fish.check_tank" {
		t.Errorf("an oscar: %+v, %v", r, err)
	}
}

// What is suggested fits, the order is the same every time, and nothing that the
// law flags is among it.
func TestSuggest(t *testing.T) {
	h, lots := homeOf(112, 80, 35, 24), []Lot{{Code: neonCode, Count: 8}}
	h.Age = weeks(20)
	got, err := Suggest(h, lots, "puntigrus-tetrazona", 20)
	again, _ := Suggest(h, lots, "puntigrus-tetrazona", 20)
	if err != nil || len(got) < 10 {
		t.Fatal(len(got), err)
	}
	for i, s := range got {
		if s.Code != again[i].Code {
			t.Errorf("%d: %s, then %s", i, s.Code, again[i].Code)
		}
		a, _ := Get(s.Code)
		if a.Has(LawCheck) || s.Verdict == No || s.Use > 1 || i > 0 && s.Verdict < got[i-1].Verdict {
			t.Errorf("%d: %+v", i, s)
		}
		filled(t, messages(t, "en"), *s.Finding)
	}
	if a, _ := Get(got[0].Code); a.Group != Barb {
		t.Errorf("for a barb that does not fit, %s is first", got[0].Code)
	}
}

// Homes and stock that cannot be are refused by field.
func TestRefusals(t *testing.T) {
	nan, three := quantity.Length(math.NaN()), 3
	hot, small := quantity.Temperature(60), quantity.Area(1e-9)
	for _, c := range []struct {
		h     Home
		lots  []Lot
		field string
	}{
		{Home{}, nil, "tank"}, {Home{Tank: 0.1, Length: &nan}, nil, "length"}, {Home{Tank: 0.1, Water: Water{Temperature: &hot}}, nil, "temperature"},
		{Home{Tank: 0.1, Media: &small}, nil, "media"},
		{Home{Tank: 0.1}, []Lot{{Code: "nessie", Count: 1}}, "lots[0].code"}, {Home{Tank: 0.1}, []Lot{{Code: neonCode}}, "lots[0].count"},
		{Home{Tank: 0.1}, []Lot{{Code: neonCode, Count: 2}, {Code: neonCode, Count: 2, Males: &three}}, "lots[1].males"},
		{Home{Tank: 0.1}, []Lot{{Code: neonCode, Count: 2, Length: &nan}}, "lots[0].length"},
		{Home{Tank: 0.1}, make([]Lot, MaxLots+1), "lots"},
	} {
		_, err := Judge(c.h, c.lots)
		_, err2 := CapacityOf(c.h, c.lots)
		for _, e := range []error{err, err2} {
			if r, ok := e.(*working.Refusal); !ok || r.Field != c.field {
				t.Errorf("%s: %v", c.field, e)
			}
		}
	}
}

// Large fish that handbooks keep in a tank of that size are not refused there, a few
// more of them are. Source: common guidance on each, from memory: angelfish and
// eartheaters by the pair from 200 L, grown twin-tail goldfish by the pair in 240 L.
func TestLargeFishFitWhereTheyAreKept(t *testing.T) {
	for _, c := range []struct {
		code         Code
		h            Home
		fit, tooMany int
	}{
		{"pterophyllum-scalare", homeOf(200, 100, 40, 26), 2, 5},
		{"carassius-auratus-fancy", homeOf(240, 120, 40, 19), 2, 5},
		{"thorichthys-meeki", homeOf(250, 120, 40, 25), 2, 8},
	} {
		a, err := CapacityOf(c.h, []Lot{{Code: c.code, Count: c.fit}})
		b, err2 := CapacityOf(c.h, []Lot{{Code: c.code, Count: c.tooMany}})
		if err != nil || err2 != nil || a.Verdict == No || b.Verdict != No {
			t.Errorf("%s: %d are %v (%s %.2f), %d are %v (%s %.2f); %v %v", c.code, c.fit, a.Verdict, a.Governing, a.Use, c.tooMany, b.Verdict, b.Governing, b.Use, err, err2)
		}
	}
}

// The mass of small fish counts as it is, that of large ones less for each gram.
func TestMassCounted(t *testing.T) {
	neon, gold := load().by[neonCode], load().by["carassius-auratus-fancy"]
	if x := counted(neon, 25); math.Abs(x-neon.grams) > 1e-9 {
		t.Errorf("a neon counts %g g of %g", x, neon.grams)
	}
	if warm, cool := counted(gold, 25), counted(gold, 18); !(cool < warm && warm < gold.grams) {
		t.Errorf("a goldfish counts %g g warm, %g cool, of %g", warm, cool, gold.grams)
	}
}
