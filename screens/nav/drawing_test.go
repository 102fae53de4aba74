package nav

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// stocked is a filled tank with danios in it and honey gouramis in mind.
func stocked() care.Picture {
	p := care.Picture{Known: true, Tank: tank.Tank{Shape: tank.Box, Length: .6, Width: .3, Height: .36, Wall: .005, Bottom: .005}, WaterLine: .32}
	p.Stock = []care.Swimmer{{ID: "one", Code: "danio-rerio", Count: 6, Length: .03, Adult: .046}, {ID: "two", Code: "trichogaster-chuna", Count: 3, Length: .055, Adult: .055, Planned: true}}
	return p
}

// An animal of the drawing is named when chosen and opens its place, moving or
// not.
func TestDrawingNamesAndOpensAnimals(t *testing.T) {
	for name, still := range map[string]bool{"moving": false, "still": true} {
		t.Run(name, func(t *testing.T) {
			test.NewTempApp(t)
			var went []Route
			var step func(float64)
			d := Deps{Present: present.Presenter{W: i18n.Speak("en", "GB", quantity.Metric)}, Still: func() bool { return still },
				Go: func(r Route) { went = append(went, r) }, Beat: func(s func(float64)) { step = s }}
			v := NewDrawing(d, "t")
			w := test.NewTempWindow(t, v.FocusView)
			w.Resize(fyne.NewSize(430, 640))
			v.Show(stocked(), true)
			w.Canvas().Capture()
			if moves := step != nil; moves == still {
				t.Fatalf("asked to be moved: %v", moves)
			}
			if step != nil {
				step(5)
			}
			for _, c := range []struct {
				id    scene.ID
				first string
				route Route
			}{
				{elevation.FishPart("danio-rerio", false, 0), "Zebra danio: 6", Route{Place: Fish, Tank: "t", Species: "danio-rerio", Fish: "one"}},
				{elevation.FishPart("trichogaster-chuna", true, 0), "Honey gourami: 3 planned", Route{Place: Fish, Tank: "t", Species: "trichogaster-chuna"}},
			} {
				key := func(k fyne.KeyName) { v.TypedKey(&fyne.KeyEvent{Name: k}) }
				key(fyne.KeyHome)
				for n := 0; v.Chosen() != c.id; n++ {
					if n > 60 {
						t.Fatalf("%s is not in the drawing", c.id)
					}
					key(fyne.KeyRight)
				}
				if got := v.Tipped(); len(got) < 2 || got[0] != c.first {
					t.Errorf("%s is told as %q", c.id, got)
				}
				key(fyne.KeyReturn)
				if len(went) == 0 || went[len(went)-1] != c.route {
					t.Errorf("%s opens %v, want %v", c.id, went, c.route)
				}
			}
		})
	}
}
