package elevation

import (
	"math"

	"example.org/driploop/screens/fauna"
	"example.org/driploop/screens/scene"
)

// Stage draws the elevation with its fish apart from it, so that they can be
// moved without drawing the rest again. At time 0 all are where [Build] has
// them; what is planned stays in the scene.
func Stage(spec Spec) (*scene.Scene, []scene.Actor) {
	spec.Moving = true
	d := compose(spec)
	var out []scene.Actor
	looks := map[scene.ID][2]*scene.Scene{}
	for i, w := range d.fish {
		f := spec.Fish[w.lot]
		if f.Planned {
			continue
		}
		both, known := looks[f.ID]
		if !known {
			for k := range both {
				both[k] = scene.New()
				both[k].Group(f.ID, func() {
					both[k].Add(fauna.Animal(w.code, w.length, fauna.Pose{Left: k == 1, Scale: d.scale, Paper: spec.Paper})...)
				})
			}
			looks[f.ID] = both
		}
		out = append(out, scene.Actor{ID: f.ID, Right: both[0], Left: both[1], Where: w.drift(habitOf(w.code), series(f.ID)+17*i)})
	}
	return d.s, out
}

// Seconds that a fish takes to drift to and fro once.
// judgement: slow enough to read beside it.
const quickest, slowest = 22.0, 40.0

// drift gives where a swimmer is after so many seconds: to and fro about its
// place, facing the way it goes. A school keeps one beat.
func (w swimmer) drift(h habit, own int) func(t float64) (scene.Point, bool) {
	beat := own
	if h.school {
		beat = w.lot
	}
	turn := 2 * math.Pi / (quickest + (slowest-quickest)*scene.Scatter(beat, 211))
	way := 1.0
	if w.left {
		way = -1
	}
	return func(t float64) (scene.Point, bool) {
		if w.swing == 0 || math.IsNaN(t) || math.IsInf(t, 0) {
			return w.at, w.left
		}
		sin, cos := math.Sincos(t * turn)
		return scene.Pt(w.at.X+way*w.swing*sin, w.at.Y), way*cos < 0
	}
}
