package fish

import (
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
)

// Every figure has its sources and how sure it is; the codes are keys.
func TestCatalogue(t *testing.T) {
	list := All()
	if len(list) != 125 {
		t.Fatalf("%d animals, want 125", len(list))
	}
	sure := map[Sure]int{}
	for _, a := range list {
		for _, f := range []From{a.LengthFrom, a.TempFrom, a.PHFrom, a.GHFrom, a.MassFrom} {
			if len(f.Sources) == 0 {
				t.Errorf("%s: a figure without a source", a.Code)
			}
			sure[f.Sure]++
		}
		if got, err := Get(a.Code); err != nil || got != a {
			t.Errorf("%s: %v", a.Code, err)
		}
		if strings.ContainsAny(string(a.Code.Name()), "- ") {
			t.Errorf("%s is no key", a.Code.Name())
		}
		if !(a.grams > 0.01 && a.grams < 50_000) {
			t.Errorf("%s weighs %g g", a.Code, a.grams)
		}
	}
	if sure[SurePublished] < 200 || sure[SureAdjusted] < 100 || sure[SurePractice] < 50 {
		t.Errorf("how sure: %v", sure)
	}
	neon, _ := Get("paracheirodon-innesi")
	if neon.TempFrom.Sure != SurePublished || neon.PHFrom.Sure != SureAdjusted || neon.LengthFrom.Sure != SurePractice || neon.LeastTank != quantity.Litres(54) {
		t.Errorf("neon: %+v", neon)
	}
	if _, err := Get("salmo-salar"); err == nil {
		t.Error("an unknown code is taken")
	}
}

// A file with one bad cell is refused with the cell's name.
func TestBadRowsAreRefused(t *testing.T) {
	good := "paracheirodon-innesi,Paracheirodon innesi,Neon tetra,tetra,3.5,"
	for _, c := range []struct{ from, to, says string }{
		{good, strings.Replace(good, "3.5", "NaN", 1), "adult_length_cm"},
		{good, strings.Replace(good, ",tetra,", ",sparrow,", 1), "group"},
		{good, strings.Replace(good, "paracheirodon-innesi", "Neon", 1), "code"},
		{good, strings.Replace(good, "paracheirodon-innesi", "paracheirodon-axelrodi", 1), "twice"},
		{",20,26,5.0,7.5,", ",26,20,5.0,7.5,", "temp"},
		{",20,26,5.0,7.5,", ",20,26,5.0,75,", "ph"},
		{"soft_water_pref", "likes_music", "trait"},
		{"T:FB18, FBS; pH:FB18+CP; dGH:FB18+CP", "T:; pH:; dGH:", "source"},
	} {
		_, err := read(strings.Replace(file, c.from, c.to, 1))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want %s", c.to, err, c.says)
		}
	}
	for _, text := range []string{"", "id\n", strings.Join(columns, ",") + "\na,b\n"} {
		if _, err := read(text); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
}

func TestFind(t *testing.T) {
	names := func(c Code) []string {
		if c == "paracheirodon-innesi" {
			return []string{"Neón tetra"}
		}
		return nil
	}
	for text, want := range map[string]Code{
		"neon": "paracheirodon-innesi", "NEÓN TETRA": "paracheirodon-innesi", "hyphessobrycon innesi": "paracheirodon-innesi", "Brachydanio": "danio-albolineatus",
		"siamese fighter": "betta-splendens", "bettá": "betta-splendens", "L46": "hypancistrus-zebra", "sterbas cory": "corydoras-sterbai", "Sterba’s": "corydoras-sterbai",
		"barb tiger": "puntigrus-tetrazona", "osteogaster": "corydoras-aeneus",
	} {
		got := Find(Filter{Text: text}, names)
		if len(got) == 0 || got[0].Code != want {
			t.Errorf("%q finds %v, want %s first", text, codes(got), want)
		}
	}
	// A name of two kinds finds both.
	if got := Find(Filter{Text: "albino cory"}, nil); len(got) != 2 {
		t.Errorf("albino cory finds %v", codes(got))
	}
	if got := Find(Filter{Text: "unicorn"}, nil); len(got) != 0 {
		t.Errorf("unicorn finds %v", codes(got))
	}
	if got := Find(Filter{Text: " -- "}, nil); len(got) != 125 {
		t.Errorf("nothing finds %d", len(got))
	}
	warm, soft := quantity.Temperature(28), quantity.Hardness(4*degree)
	f := Filter{Groups: []Group{Tetra, DwarfCichlid}, Zones: []Zone{Middle, Bottom}, Temper: []Temper{Peaceful, SemiAggressive}, Most: 0.06,
		Tank: quantity.Litres(80), Water: &Water{Temperature: &warm, GH: &soft}}
	got := Find(f, nil)
	for _, a := range got {
		if !f.keeps(a) || a.Length > 0.06 || a.LeastTank > quantity.Litres(80) || a.TempHigh < 28 || a.GHLow > soft {
			t.Errorf("%s is kept", a.Code)
		}
	}
	if len(got) < 2 {
		t.Errorf("the filter keeps %v", codes(got))
	}
}

func codes(list []*Animal) []Code {
	var out []Code
	for _, a := range list {
		out = append(out, a.Code)
	}
	return out
}

// Any text is searched for without a fault, case and marks of it do not matter, and
// a kind is found by its own names.
func FuzzFind(f *testing.F) {
	for _, s := range []string{"", "neón", "L-46", "ß", "Ⅷ", "\xff\xfe", "a\u0301", "'''", "paracheirodon innesi", strings.Repeat("x ", 300)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 2000 {
			return
		}
		got := Find(Filter{Text: text}, nil)
		if p := plainly(text); p != plainly(p) {
			t.Errorf("%q is %q, then %q", text, p, plainly(p))
		} else if again := Find(Filter{Text: p}, nil); len(again) != len(got) {
			t.Errorf("%q finds %d, %q %d", text, len(got), p, len(again))
		}
	})
}
