package paper

import (
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/scene"
)

// picture is the tank as it will stand: everything in its place, water to the
// line, plugged in, with the loads of the stand check, before there are fish.
func (in *Input) picture() care.Picture {
	p := in.Views[care.StandFloor].Picture
	p.ShowLoads = true
	p.GravelIn, p.Planted = true, true
	p.Filter, p.Heater, p.Thermometer = true, true, true
	p.Lid = !p.LidOpen
	p.FilterIn, p.HeaterIn, p.LightIn = true, true, true
	p.Powered, p.Filled, p.CordsHung = true, true, true
	if p.Known {
		p.WaterLine = p.Full.WaterLine
	}
	p.FishCount, p.Bag, p.Stock = 0, false, nil
	p.Temperature = quantity.Value{} // of a day, not of the tank as it will stand
	return p
}

// elevation draws the tank into a frame of w by h millimetres at x, y. Its scale
// is true on paper that is printed without scaling.
func (in *Input) elevation(x, y, w, h float64) figure {
	pic := in.picture()
	say := in.Presenter
	d := say.DrawingLabels(pic)
	spec := elevation.From(pic, elevation.Labels{Length: d.Length, Height: d.Height, StandHeight: d.StandHeight, Sag: d.Sag,
		Figure: d.Hand, NoLoop: d.NoLoop, Scale: say.Scale}, say.Mass)
	return in.placed(spec, x, y, w, h)
}

// sketch is the tank without a word, for a box that has no room for them.
func (in *Input) sketch(x, y, w, h float64) figure {
	pic := in.picture()
	pic.ShowLoads = false
	spec := elevation.From(pic, elevation.Labels{}, in.Presenter.Mass)
	spec.Compact = true
	return in.placed(spec, x, y, w, h)
}

func (in *Input) placed(spec elevation.Spec, x, y, w, h float64) figure {
	spec.Paper = true
	// The drawing keeps margins of its own, which a page has already.
	const own = 16.0
	spec.Room.W, spec.Room.H = w/scene.PointMM+2*own, h/scene.PointMM+2*own
	f := elevation.Frame(spec)
	f.X, f.Y, f.W, f.H, f.Point = x, y, w, h, scene.PointMM
	f.Margins = scene.Margins{}
	f.AlignY = 1
	s := elevation.Build(spec)
	return figure{s, scene.Fit(s, f)}
}
