package present

import (
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

func speakers() map[string]Presenter {
	return map[string]Presenter{"en": {W: i18n.Speak("en", "US", quantity.US)}, "es": {W: i18n.Speak("es", "ES", quantity.Metric)}}
}

// homes are a small unheated tank, a middling warm one and a large salted one, so
// that every rule has its turn.
func homes() []fish.Home {
	cold, warm := quantity.Temperature(18), quantity.Temperature(26)
	ph, gh := quantity.PH(7.2), quantity.Hardness(200)
	young := quantity.Time(14 * 86400)
	return []fish.Home{{Tank: quantity.Litres(54), Water: fish.Water{Temperature: &cold}, Age: &young}, {Tank: quantity.Litres(400), Water: fish.Water{Temperature: &warm, PH: &ph, GH: &gh}},
		{Tank: quantity.Litres(5000), Salted: true}, {Tank: quantity.Litres(5000), Fishless: true}}
}

// Every clash of any two kinds, in each language: it names both animals (or the
// one, where it is the tank's), says what it is about, gives a cure, and leaves no
// place unfilled.
func TestClashNamesBothAnimals(t *testing.T) {
	all := fish.All()
	rules := map[fish.Rule]int{}
	for n, h := range homes() {
		for i, a := range all {
			for _, b := range []*fish.Animal{all[(i*7+n*31+1)%len(all)], all[(i+1)%len(all)], all[len(all)-1-i]} {
				if a == b {
					continue
				}
				small := a.Length * 0.4
				males := a.MinGroup/2 + 1
				lots := []fish.Lot{{Code: a.Code, Count: a.MinGroup + 1, Males: &males, Length: &small}, {Code: b.Code, Count: max(1, b.MinGroup-1), Planned: true}}
				got, err := fish.Judge(h, lots)
				if err != nil {
					t.Fatal(err)
				}
				for _, c := range got.Clashes {
					rules[c.Rule]++
					for lang, p := range speakers() {
						holdsClash(t, lang, p, c)
					}
				}
			}
		}
	}
	for _, r := range fish.Rules() {
		if rules[r] == 0 {
			t.Errorf("no clash by %s", r)
		}
	}
}

func holdsClash(t *testing.T, lang string, p Presenter, c fish.Clash) {
	t.Helper()
	x := p.Clash(c)
	for _, code := range []fish.Code{c.A, c.B} {
		if code == "" {
			continue
		}
		if name := p.KindName(code); !strings.Contains(x.Title, name) || c.Rule != fish.Levels && !strings.Contains(x.Text, name) {
			t.Errorf("%s, %s: %q and %q do not name %q", lang, c.Says, x.Title, x.Text, name)
		}
	}
	if x.Rule == "" || x.Cure == "" || x.Word == "" {
		t.Errorf("%s, %s: %+v", lang, c.Says, x)
	}
	for _, words := range []string{x.Title, x.Text, x.Cure, x.Rule, x.Numbers, x.Now} {
		if strings.Contains(words, "{{") || strings.Contains(words, "<no value>") || strings.Contains(words, "word.kind") {
			t.Errorf("%s, %s: %q", lang, c.Says, words)
		}
	}
	if c.Measured.Known() && c.Limit.Known() && c.Measured != c.Limit && x.Numbers == "" {
		t.Errorf("%s, %s: the number that clashed is not told", lang, c.Says)
	}
}

// Every animal has its whole page in each language: figures with a source each, no
// key in place of words, and no English name of the trade on a Spanish page.
func TestEveryKindHasItsPage(t *testing.T) {
	for lang, p := range speakers() {
		for _, a := range fish.All() {
			x := p.KindPage(keeper.KindView{Kind: keeper.Kind{Animal: a}})
			if x.Name == "" || x.Group == "" || len(x.Figures) < 10 || x.Fit != nil || (x.Law != "") != a.Has(fish.LawCheck) {
				t.Errorf("%s, %s: %+v", lang, a.Code, x)
			}
			words := append([]string{x.Name, x.Group, x.Old, x.Trade, x.Law}, x.Needs...)
			for _, f := range x.Figures {
				if f.Value == "" || f.Note == "" {
					t.Errorf("%s, %s: %q is %q by %q", lang, a.Code, f.Name, f.Value, f.Note)
				}
				words = append(words, f.Name, f.Value, f.Note)
			}
			for _, w := range words {
				if strings.Contains(w, "word.kind.") || strings.Contains(w, "species.") && !strings.Contains(w, "species. ") || strings.Contains(w, "{{") {
					t.Errorf("%s, %s: %q", lang, a.Code, w)
				}
			}
			if lang != "en" && x.Trade != "" {
				t.Errorf("%s, %s: %q is English", lang, a.Code, x.Trade)
			}
			if a.Has(fish.NotSmallTanks) && !strings.Contains(strings.Join(x.Needs, " "), p.TraitText(fish.NotSmallTanks)) {
				t.Errorf("%s, %s: nothing says that it outgrows the tank", lang, a.Code)
			}
		}
	}
}

// An animal is found by its name in any language of the program, with or without
// its marks, and by an old scientific name.
func TestKindsAreFoundByAnyName(t *testing.T) {
	names := KindNames()
	for text, want := range map[string]fish.Code{"neon cardenal": "paracheirodon-axelrodi", "Pleco común": "hypostomus-plecostomus", "pleco comun": "hypostomus-plecostomus",
		"common pleco": "hypostomus-plecostomus", "Barbus tetrazona": "puntigrus-tetrazona", "colisa chuna": "trichogaster-chuna", "CHERRY SHRIMP": "neocaridina-davidi"} {
		got := fish.Find(fish.Filter{Text: text}, names)
		if len(got) == 0 || got[0].Code != want {
			t.Errorf("%q finds %v, want %s first", text, got, want)
		}
	}
}

// Two figures are enough for what the catalogue knows, but not where they would
// hide that a tank is too small.
func TestEstimatesInTwoFigures(t *testing.T) {
	p := speakers()["es"]
	if got := p.rough(quantity.Litres(211).Value(), quantity.Litres(54).Value()); got != p.W.About(quantity.Litres(211).Value()) {
		t.Errorf("211 L is told as %q", got)
	}
	a, b := p.rough(quantity.Litres(211).Value(), quantity.Litres(209).Value()), p.rough(quantity.Litres(209).Value(), quantity.Litres(211).Value())
	if a == b {
		t.Errorf("211 L and 209 L are both told as %q", a)
	}
}
