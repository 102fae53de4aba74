package fish

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
)

// worstOf is the gravest verdict among the clashes that name a kind, and among the
// others.
func worstOf(t Together, code Code) (of, others Verdict) {
	for _, c := range t.Clashes {
		if c.A == code || c.B == code {
			of = max(of, c.Verdict)
		} else {
			others = max(others, c.Verdict)
		}
	}
	return of, others
}

// TestFitsAgreeWithJudge: a fit is never milder than what Judge says of the kind
// once its first group is in, and where the others get on it is the same.
func TestFitsAgreeWithJudge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, lots := drawHome(t), drawLots(t, 0, 6)
		fits, err := Fits(h, lots)
		if err != nil {
			t.Fatal(err)
		}
		h.Fishless = false // see Fits
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, len(fits)-1), 1, 8).Draw(t, "which") {
			f := fits[i]
			k := firstGroup(f.Animal, f.Count)
			lot := Lot{Code: f.Code, Count: f.Count, Planned: true, Males: &k.males}
			for _, l := range lots {
				if l.Code == f.Code {
					lot.Males = nil // the sexes of those that are there are known or not
					if l.Males != nil {
						none := 0
						lot.Males = &none
					}
				}
			}
			all, err := Judge(h, append(append([]Lot(nil), lots...), lot))
			if err != nil {
				t.Fatal(err)
			}
			judged := Steady
			if f.Clash != nil {
				judged = f.Clash.Verdict
			}
			of, others := worstOf(all, f.Code)
			if judged < of || others == Steady && judged != of {
				t.Fatalf("%s: the fit says %v, Judge %v (others %v)", f.Code, judged, of, others)
			}
			if want := max(judged, f.Crowd); f.Verdict != want {
				t.Fatalf("%s: %v, want %v", f.Code, f.Verdict, want)
			}
			room, err := RoomFor(h, lots, f.Code)
			if err != nil || room.Most != f.Room.Most || room.Comfortable != f.Room.Comfortable || room.Governing != f.Room.Governing {
				t.Fatalf("%s: room %+v, RoomFor %+v, %v", f.Code, f.Room, room, err)
			}
		}
	})
}

// TestFitOfThirtyEight: the textbook's small tank, 38 L with two zebra danios.
func TestFitOfThirtyEight(t *testing.T) {
	h := homeOf(38, 50, 25, 25)
	lots := []Lot{{Code: "danio-rerio", Count: 2}}
	pleco, err := FitOf(h, lots, "hypostomus-plecostomus")
	if err != nil || pleco.Verdict != No || pleco.Clash == nil || pleco.Clash.Rule != TankSize || pleco.Room.Most != 0 {
		t.Errorf("common pleco: %+v, %v", pleco, err)
	}
	if got := quantity.Volume(pleco.Clash.Measured.X).Litres(); got < 37.9 || got > 38.1 {
		t.Errorf("the number is %g L, want 38", got)
	}
	if _, err := FitOf(h, lots, "no-such-animal"); err == nil {
		t.Error("an unknown kind fits")
	}
	danios, err := FitOf(h, lots, "danio-rerio")
	if err != nil || danios.Count != max(1, danios.Animal.MinGroup-2) {
		t.Errorf("zebra danios lack %d of %d, %v", danios.Count, danios.Animal.MinGroup, err)
	}
}

// BenchmarkCatalogue is every kind beside a stock of three and of thirty kinds,
// beside the judgement of that stock.
func BenchmarkCatalogue(b *testing.B) {
	h, many := crowd()
	for name, lots := range map[string][]Lot{"three kinds": many[:3], "thirty kinds": many} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Fits(h, lots); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("reference", func(b *testing.B) {
		for b.Loop() {
			if _, err := Judge(h, many); err != nil {
				b.Fatal(err)
			}
		}
	})
}
