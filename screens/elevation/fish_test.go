package elevation

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/scene"
)

// anyKind draws an animal of the catalogue.
func anyKind(t *rapid.T) *fish.Animal {
	all := fish.All()
	return all[rapid.IntRange(0, len(all)-1).Draw(t, "kind")]
}

// roomy is 200 litres without plants.
func roomy() Spec {
	s := running()
	s.Tank = Tank{Length: 1.2, Width: 0.4, Height: 0.5, Wall: 0.008, Water: 0.45}
	s.Plants, s.Ornaments, s.Fish = nil, nil, nil
	return s
}

// Every kind of the catalogue comes out as long as it is.
func TestFishAreToScale(t *testing.T) {
	for _, a := range fish.All() {
		s := roomy()
		length := math.Min(float64(a.Length), 0.3)
		s.Fish = []Fish{{ID: "one", Code: a.Code, Length: length, Count: 1}}
		w := compose(s).fish
		if len(w) != 1 {
			t.Fatalf("%s: %d drawn", a.Code, len(w))
		}
		near(t, string(a.Code), w[0].length, length*1000, 1e-9)
		b := extent(t, Build(s), "one")
		if b.W() < length*1000-0.5 {
			t.Errorf("%s of %.0f mm is drawn %.1f mm wide", a.Code, length*1000, b.W())
		}
	}
}

// What is drawn keeps to the water and to its zone, at rest and as it drifts.
func TestFishKeepToTheWaterAndTheirZone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := roomy()
		if rapid.Bool().Draw(t, "planted") {
			s.Plants, s.Ornaments = running().Plants, running().Ornaments
		}
		for i := range rapid.IntRange(1, 6).Draw(t, "lots") {
			a := anyKind(t)
			s.Fish = append(s.Fish, Fish{ID: scene.ID(fmt.Sprint("lot", i)), Code: a.Code, Count: rapid.IntRange(1, 30).Draw(t, "count"), Length: math.Min(float64(a.Length)*0.6, 0.12), Adult: float64(a.Length)})
		}
		d := compose(s)
		if err := d.s.Err(); err != nil {
			t.Fatal(err)
		}
		for _, w := range d.fish {
			b, h := w.box(), habitOf(w.code)
			if b.Min.X-w.swing < d.inLeft() || b.Max.X+w.swing > d.inRight() || b.Max.Y > d.water || b.Min.Y < d.inBottom() {
				t.Errorf("%s at %v leaves the water", w.code, b)
			}
			lo, hi := d.swimBand(h.zone)
			room := w.box()
			if h.ground {
				if y := d.ground(w.at.X); math.Abs(room.Min.Y-y) > 8.5 {
					t.Errorf("%s stands at %.1f, the ground is at %.1f", w.code, room.Min.Y, y)
				}
			} else if w.at.Y < lo-room.H() || w.at.Y > hi+room.H() {
				t.Errorf("%s swims at %.1f, its zone is %.1f to %.1f", w.code, w.at.Y, lo, hi)
			}
		}
	})
}

// A stock that has room covers itself little.
func TestFishKeepApart(t *testing.T) {
	s := roomy()
	for i, c := range []fish.Code{"danio-rerio", "corydoras-panda", "paracheirodon-innesi", "trichogaster-chuna"} {
		a, err := fish.Get(c)
		if err != nil {
			t.Fatal(err)
		}
		s.Fish = append(s.Fish, Fish{ID: FishPart(c, false, 0), Code: c, Count: 8 - i, Length: float64(a.Length)})
	}
	all := compose(s).fish
	if len(all) != 26 {
		t.Fatalf("%d drawn, want 26", len(all))
	}
	shared, whole := 0.0, 0.0
	for i, w := range all {
		b := w.box()
		whole += b.W() * b.H()
		for _, o := range all[:i] {
			shared += common(b, o.box())
		}
	}
	if shared > 0.12*whole {
		t.Errorf("boxes of the fish share %.0f %% of their area, want 12 at most", 100*shared/whole)
	}
}

// A school keeps together, and one way.
func TestASchoolKeepsClose(t *testing.T) {
	s := roomy()
	s.Fish = []Fish{{ID: "s", Code: "paracheirodon-innesi", Count: 10, Length: 0.035}}
	all := compose(s).fish
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, w := range all {
		lo, hi = math.Min(lo, w.at.X), math.Max(hi, w.at.X)
		if w.left != all[0].left {
			t.Error("one of a school faces the other way")
		}
	}
	if hi-lo > 0.45*1200 {
		t.Errorf("ten neon tetras spread over %.0f of 1200 mm", hi-lo)
	}
}

// At time 0 the fish that move are where the still ones are; a beat later they
// have hardly moved.
func TestStageBeginsAtRest(t *testing.T) {
	s := long()
	d := compose(s)
	_, actors := Stage(s)
	n := 0
	for _, w := range d.fish {
		if s.Fish[w.lot].Planned {
			continue
		}
		at, left := actors[n].Where(0)
		if at != w.at || left != w.left {
			t.Errorf("%s begins at %v %v, rests at %v %v", w.code, at, left, w.at, w.left)
		}
		for _, sec := range []float64{1, 7, 1000, math.NaN(), math.Inf(1)} {
			p, _ := actors[n].Where(sec)
			if math.Abs(p.X-w.at.X) > w.swing+1e-9 || p.Y != w.at.Y {
				t.Errorf("%s at %v s is at %v, %.1f mm about %v were to be", w.code, sec, p, w.swing, w.at)
			}
		}
		n++
	}
	if n != len(actors) || n < 30 {
		t.Errorf("%d fish move, %d rest", len(actors), n)
	}
}

// What joins a smaller lot moves nobody.
func TestANewLotMovesNobody(t *testing.T) {
	s := roomy()
	s.Fish = []Fish{{ID: "a", Code: "danio-rerio", Count: 6, Length: 0.04}, {ID: "b", Code: "pterophyllum-scalare", Count: 2, Length: 0.1}}
	before := compose(s).fish
	s.Fish = append(s.Fish, Fish{ID: "c", Code: "boraras-brigittae", Count: 9, Length: 0.02})
	if after := compose(s).fish; !reflect.DeepEqual(before, after[:len(before)]) {
		t.Error("the fish that were there have moved")
	}
}

func TestCountIsBounded(t *testing.T) {
	s := roomy()
	for i := range 60 {
		s.Fish = append(s.Fish, Fish{ID: scene.ID(fmt.Sprint(i)), Code: "danio-rerio", Count: 10000, Length: 0.04})
	}
	if n := len(compose(s).fish); n != mostFish {
		t.Errorf("%d drawn, want %d", n, mostFish)
	}
	s.Fish = s.Fish[:1]
	if n := len(compose(s).fish); n != MostOfAKind {
		t.Errorf("%d of one kind drawn, want %d", n, MostOfAKind)
	}
}

// The ghost is of the highlighted lot, else of the one that grows largest.
func TestTheGhostIsTheLargest(t *testing.T) {
	s := roomy()
	s.Fish = []Fish{{ID: "a", Code: "danio-rerio", Count: 2, Length: 0.03, Adult: 0.046}, {ID: "b", Code: "ancistrus-cirrhosus", Count: 1, Length: 0.04, Adult: 0.13},
		{ID: "c", Code: "hypostomus-plecostomus", Count: 1, Length: 0.05, Adult: 0.45, Planned: true}}
	if got := compose(s).ghost(); got != 1 {
		t.Errorf("the ghost is of lot %d, want 1", got)
	}
	if b := extent(t, Build(s), "b"); b.W() < 128 {
		t.Errorf("the adult outline is %.0f mm wide, want 130", b.W())
	}
	s.Highlight = "a"
	if got := compose(s).ghost(); got != 0 {
		t.Errorf("the ghost is of lot %d, want the highlighted", got)
	}
	s.Highlight, s.Fish[1].Length = "", 0.13
	s.Fish[0].Length = 0.046
	if got := compose(s).ghost(); got != -1 {
		t.Errorf("a grown stock has the ghost of lot %d", got)
	}
}

// Fish hide neither thermometer nor heater nor filter nor words where there is room
// beside them, at rest and as they drift.
func TestFishKeepOffTheKit(t *testing.T) {
	for name, stock := range map[string][]Fish{
		"a school in the middle": {{ID: "a", Code: "paracheirodon-innesi", Count: 8, Length: 0.03}},
		"a school above":         {{ID: "a", Code: "danio-rerio", Count: 6, Length: 0.035}},
		"three levels": {{ID: "a", Code: "danio-rerio", Count: 6, Length: 0.035}, {ID: "b", Code: "trichogaster-chuna", Count: 3, Length: 0.05},
			{ID: "c", Code: "corydoras-panda", Count: 6, Length: 0.03}},
	} {
		t.Run(name, func(t *testing.T) {
			s := running()
			s.Fish = stock
			d := compose(s)
			for _, w := range d.fish {
				b := w.box()
				b.Min.X, b.Max.X = b.Min.X-w.swing, b.Max.X+w.swing
				for _, k := range d.taken { // kit, and the words beside it
					if common(b, k) > 0.02*k.W()*k.H() {
						t.Errorf("%s at %v hides what is at %v", w.code, b, k)
					}
				}
			}
		})
	}
}
