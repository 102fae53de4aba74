package paper

import (
	"example.org/driploop/i18n"
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
	p.FishCount, p.Bag = 0, false
	return p
}

// elevation draws the tank into a frame of w by h millimetres at x, y. Its scale
// is true on paper that is printed without scaling.
func (in *Input) elevation(x, y, w, h float64) figure {
	pic := in.picture()
	words := in.Presenter.W
	l := elevation.Labels{Figure: in.t("page.fill.hand"), NoLoop: in.t("page.fill.no_loop"), BelowWater: in.t("page.fill.below_water"),
		Scale: func(n float64) string { return words.T("page.fill.scale", i18n.Args{"N": words.Number(n, 2)}) }}
	if pic.Known {
		length, _, height := pic.Tank.Outer()
		l.Length, l.Height = words.For(length.Value(), i18n.Tank), words.For(height.Value(), i18n.Tank)
	}
	if pic.StandHeight > 0 {
		l.StandHeight = words.For(pic.StandHeight.Value(), i18n.Tank)
	}
	if pic.Sag.Known() {
		l.Sag = words.T("page.fill.sag", i18n.Args{"Sag": pic.Sag})
	}
	spec := elevation.From(pic, l, func(m quantity.Mass) string { return words.Quantity(m.Value()) })
	spec.Paper = true
	spec.Room.W, spec.Room.H = w/scene.PointMM, h/scene.PointMM
	f := elevation.Frame(spec)
	f.X, f.Y, f.W, f.H, f.Point = x, y, w, h, scene.PointMM
	f.AlignY = 1
	s := elevation.Build(spec)
	return figure{s, scene.Fit(s, f)}
}
