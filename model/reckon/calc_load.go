package reckon

import (
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func init() {
	add("stand.check", load.CheckStand, `{
  "kind": "furniture",
  "load": {
    "mass": {"value": 75, "unit": "kg"}, "usual": {"value": 62, "unit": "kg"}, "empty": {"value": 5, "unit": "kg"},
    "length": {"value": 51, "unit": "cm"}, "width": {"value": 26, "unit": "cm"}, "height": {"value": 32, "unit": "cm"},
    "centre": {"value": 14, "unit": "cm"}, "framed": true
  },
  "furniture": {
    "top": "plywood", "thickness": {"value": 18, "unit": "mm"}, "depth": {"value": 40, "unit": "cm"},
    "span": {"value": 60, "unit": "cm"}, "support": "sides", "middle": "no"
  },
  "height": {"value": 75, "unit": "cm"}, "back": "yes", "anchored": "yes", "wetted": "no"
}`)
	add("floor.check", load.CheckFloor, `{
  "kind": "joists", "mass": {"value": 95, "unit": "kg"},
  "length": {"value": 51, "unit": "cm"}, "width": {"value": 30, "unit": "cm"},
  "direction": "across", "place": "wall",
  "span": {"value": 3.6, "unit": "m"}, "spacing": {"value": 16, "unit": "in"},
  "joist": {"width": {"value": 38, "unit": "mm"}, "depth": {"value": 235, "unit": "mm"}}, "wood": "spf_no2",
  "foot_force": {"value": 300, "unit": "n"}, "conditions": ["rented"]
}`)
	add("glass.check", load.CheckGlass, `{
  "tank": `+aTank+`,
  "air_gap": {"value": 3, "unit": "cm"}, "maker": "factory", "caliper": "yes", "flat_base": "no", "inspected": "yes", "conditions": []
}`)
	add("lift.advice", load.LiftAdvice, `{
  "rim_height": {"value": 1.1, "unit": "m"}, "reach": {"value": 50, "unit": "cm"}, "grip": "fair",
  "bucket": {"value": 0.6, "unit": "kg"}, "volume": {"value": 10, "unit": "l"}
}`)
	add("glass.allowable", func(nothing) (list[load.Allowable], error) { return list[load.Allowable]{load.Allowables()}, nil }, `{}`)
	type board struct {
		Board     load.Board        `json:"board"`
		Thickness quantity.Length   `json:"thickness"`
		Service   load.ServiceClass `json:"service"`
	}
	type strength struct {
		Strength   load.Strength `json:"strength"`
		Structural bool          `json:"structural"`
		Allowed    bool          `json:"allowed"`
	}
	add("board.strength", func(in board) (strength, error) {
		if err := working.InRange("thickness", "q.load.thickness", in.Thickness.Value(), quantity.Millimetres(6).Value(), quantity.Millimetres(100).Value()); err != nil {
			return strength{}, err
		}
		s, ok := in.Board.Strength(in.Thickness)
		if !ok {
			return strength{}, working.Refuse("board", "refuse.load.board")
		}
		structural, allowed := in.Board.LoadBearing(in.Service)
		return strength{s, structural, allowed}, nil
	}, `{"board": "p5", "thickness": {"value": 22, "unit": "mm"}, "service": "class_2"}`)
	type spans struct {
		Allowed quantity.Length `json:"allowed"`
		Spans   load.Spans      `json:"spans"`
	}
	add("joists.span", func(in joists) (spans, error) {
		if err := in.accept(); err != nil {
			return spans{}, err
		}
		s := load.JoistSpan(in.Wood, load.Section{Width: in.Joist.Width, Depth: in.Joist.Depth}, in.Spacing, in.Live, in.Dead)
		if s.Allowed() <= 0 {
			return spans{}, working.Refuse("wood", "refuse.load.joist_wood")
		}
		return spans{s.Allowed(), s}, nil
	}, `{
  "wood": "spf_no2", "joist": {"width": {"value": 1.5, "unit": "in"}, "depth": {"value": 9.25, "unit": "in"}},
  "spacing": {"value": 16, "unit": "in"}, "live": {"value": 40, "unit": "psf"}, "dead": {"value": 10, "unit": "psf"}
}`)
}

// joists is the input of joists.span.
type joists struct {
	Wood    load.LegMaterial  `json:"wood"`
	Joist   timber            `json:"joist"`
	Spacing quantity.Length   `json:"spacing"`
	Live    quantity.Pressure `json:"live"`
	Dead    quantity.Pressure `json:"dead"`
}

// timber is a solid section.
type timber struct {
	Width quantity.Length `json:"width"`
	Depth quantity.Length `json:"depth"`
}

// accept refuses what is no joist. Spacing as for a floor; sections and loads
// beyond are a mistake in the unit. // judgement
func (in joists) accept() error {
	side := func(mm float64) quantity.Value { return quantity.Millimetres(mm).Value() }
	press := func(pa float64) quantity.Value { return quantity.Pressure(pa).Value() }
	for _, err := range []error{
		working.InRange("joist.width", "q.load.section_width", in.Joist.Width.Value(), side(10), side(500)),
		working.InRange("joist.depth", "q.load.section_depth", in.Joist.Depth.Value(), side(10), side(1000)),
		working.InRange("spacing", "q.load.joist_spacing", in.Spacing.Value(), side(200), side(1000)),
		working.InRange("live", "q.load.live", in.Live.Value(), press(500), press(20000)),
		working.InRange("dead", "q.reckon.dead_load", in.Dead.Value(), press(0), press(20000)),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}
