package nav

import (
	"context"

	"example.org/driploop/model/care"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Drawing is the elevation of a tank on a page. A part of it that is tapped opens
// the step of First fill that it is about, an animal its place among the fish; an
// animal pointed at is named. The animals drift while motion is wanted.
type Drawing struct {
	*scene.FocusView
	deps  Deps
	tank  string
	stock map[scene.ID]care.Swimmer
}

// NewDrawing gives an empty drawing of a tank.
func NewDrawing(d Deps, tank string) *Drawing {
	v := &Drawing{FocusView: scene.NewFocusView(scene.New()), deps: d, tank: tank}
	v.OnTapped = func(id scene.ID) {
		if step, ok := elevation.Parts(id); ok {
			d.Go(Route{Place: FirstFill, Tank: tank, Step: step})
			return
		}
		if w, ok := v.stock[id]; ok {
			r := Route{Place: Fish, Tank: tank, Species: string(w.Code)}
			if !w.Planned {
				r.Fish = w.ID
			}
			d.Go(r)
		}
	}
	v.Tip = func(id scene.ID) []string {
		if w, ok := v.stock[id]; ok {
			return d.Present.Swimmer(w, elevation.MostOfAKind)
		}
		return nil
	}
	return v
}

// ShowTank draws the tank as it stands in the record, compact.
func (v *Drawing) ShowTank() error {
	c, err := v.deps.Keeper.TankPicture(context.Background(), v.tank)
	if err == nil {
		v.Show(c, true)
	}
	return err
}

// Show draws a picture of the tank. A compact drawing leaves out the notes below it.
func (v *Drawing) Show(c care.Picture, compact bool) {
	spec := elevation.From(c, elevation.Words(v.deps.Present.DrawingLabels(c)), v.deps.Present.Mass)
	// The drawing reckons in points of its words, which grow with the size of text:
	// there is less room for them, and the scale shown is larger by as much.
	k := look.ScaleFor(v.FocusView)
	if spec.Compact = compact; !compact {
		spec.Labels.Scale = func(n float64) string { return v.deps.Present.Scale(n / k) }
	}
	if size := v.Size(); size.Width > 0 {
		spec.Room.W, spec.Room.H = float64(size.Width)/k, float64(size.Height)/k
	}
	f := elevation.Frame(spec)
	v.Margins, v.AlignX, v.AlignY = f.Margins, f.AlignX, f.AlignY
	_, v.stock = elevation.Stock(c)
	if v.deps.Still() || v.deps.Beat == nil || len(spec.Fish) == 0 {
		v.Set(elevation.Build(spec))
		return
	}
	s, fish := elevation.Stage(spec)
	v.Set(s)
	v.SetActors(fish)
	v.deps.Beat(v.Step)
}
