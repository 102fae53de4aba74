package care

import (
	"errors"
	"math"

	"example.org/driploop/model/heat"
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// made keeps what was computed from a record, so that a page asks once.
type made struct {
	full     *tank.Full
	fullErr  error
	heater   *heat.HeaterResult
	heatErr  error
	stand    *load.Assessment
	standErr error
}

// ErrNotKnown says that a calculation lacks an answer.
var ErrNotKnown = errors.New("care: an answer is missing")

// Tank is the vessel as answered.
func (f *Facts) Tank() tank.Tank {
	t := tank.Tank{Shape: tank.Shape(f.choice("tank.shape")), Material: tank.Material(f.choice("tank.material")), Rim: tank.Framed,
		Length: quantity.Length(f.or("tank.length", 0)), Width: quantity.Length(f.or("tank.width", 0)),
		Height: quantity.Length(f.or("tank.height", 0)), Bow: quantity.Length(f.or("tank.bow", 0)),
		Wall: quantity.Length(f.or("tank.wall", 0)), Sizes: tank.NominalOnly}
	t.Bottom = t.Wall
	switch f.choice("tank.edge") {
	case "rimless":
		t.Rim = tank.Rimless
	case "braced":
		t.Braced = true
	}
	if t.Shape != tank.BowFront {
		t.Bow = 0
	}
	switch t.Shape {
	case tank.Cube:
		t.Width, t.Height = t.Length, t.Length
	case tank.Cylinder, tank.Hexagon:
		t.Width = 0
	}
	if _, given := f.Answer("tank.wall"); given {
		if _, given := f.Answer("tank.length"); given {
			t.Sizes = tank.Measured
		}
	}
	return t
}

// footprintWidth is the tank's greatest depth, front to back.
func (f *Facts) footprintWidth() float64 {
	_, w, _ := f.Tank().Outer()
	return float64(w)
}

// Equipment is the mass of hood, filter, heater and lamp together. Common
// practice, no source: about 1.5 kg for 10 US gal and 8 kg for 120 US gal.
func (f *Facts) equipment() quantity.Mass {
	l, w, h := f.Tank().Outer()
	return quantity.Mass(1 + 15*float64(l)*float64(w)*float64(h))
}

// Contents is what goes into the tank, as answered.
func (f *Facts) Contents() tank.Contents {
	c := tank.Contents{Equipment: f.equipment(), AirGap: quantity.Length(f.or("tank.gap", 0)), Wood: quantity.Mass(f.or("wood.mass", 0))}
	if m := f.or("rock.mass", 0); m > 0 {
		c.Rocks = []tank.Rock{{Kind: tank.MixedStone, Mass: quantity.Mass(m)}}
	}
	switch f.choice("gravel.kind") {
	case "gravel":
		c.Substrate = tank.Gravel
	case "sand":
		c.Substrate = tank.Sand
	case "clay":
		c.Substrate = tank.BakedClay
	}
	if c.Substrate != "" {
		c.SubstrateFront, c.SubstrateBack = quantity.Length(f.or("gravel.front", 0)), quantity.Length(f.or("gravel.back", 0))
	}
	return c
}

// settled is the temperature that the tank is to hold.
func (f *Facts) settled() quantity.Temperature {
	return quantity.Temperature(f.or("settle.target", 25))
}

// Full is the set-up tank: volumes and masses. Errors: what is impossible about
// the sizes, as a *working.Refusal.
func (f *Facts) Full() (tank.Full, error) {
	if f.made.full == nil && f.made.fullErr == nil {
		full, err := tank.Measure(f.Tank(), f.Contents(), f.settled())
		f.made.full, f.made.fullErr = &full, err
	}
	return *f.made.full, f.made.fullErr
}

// netLitres is the net volume in litres, NaN when it cannot be told.
func (f *Facts) netLitres() float64 {
	full, err := f.Full()
	if err != nil {
		return math.NaN()
	}
	return full.Net.Litres()
}

// Enclosure is the tank as heat sees it: for round shapes the box with the same
// area and nearly the same girth.
func (f *Facts) Enclosure() heat.Enclosure {
	t := f.Tank()
	l, w, h := t.Outer()
	switch t.Shape {
	case tank.Cylinder:
		side := float64(l) * math.Sqrt(math.Pi) / 2
		l, w = quantity.Length(side), quantity.Length(side)
	case tank.Hexagon: // area 3√3/8·D² with D across corners
		side := float64(l) * math.Sqrt(3*math.Sqrt(3)/8)
		l, w = quantity.Length(side), quantity.Length(side)
	case tank.BowFront:
		w = t.Width + t.Bow*2/3
	}
	e := heat.Enclosure{Length: l, Width: w, Height: h, Wall: t.Wall, Support: heat.OnFoam}
	if t.Material == tank.Acrylic {
		e.Material = heat.Acrylic
	}
	if f.choice("lid.kind") != "open" {
		e.Cover = heat.Lid
	}
	return e
}

// roomHumidity is what a heated room has. Common practice, no source.
const roomHumidity = 0.5

func (f *Facts) heaterInput() (heat.HeaterInput, error) {
	full, err := f.Full()
	if err != nil {
		return heat.HeaterInput{}, err
	}
	low, high := f.x("room.low"), f.x("room.high")
	if math.IsNaN(low) || math.IsNaN(high) {
		return heat.HeaterInput{}, ErrNotKnown
	}
	usual := (low + high) / 2
	start := math.Min(usual, float64(f.settled()))
	return heat.HeaterInput{Enclosure: f.Enclosure(), Water: full.Net, SetPoint: f.settled(), RoomLow: quantity.Temperature(low),
		RoomUsual: quantity.Temperature(usual), Start: quantity.Temperature(start), Humidity: roomHumidity}, nil
}

// HeaterAdvice sizes the heater from the heat that the tank loses.
func (f *Facts) HeaterAdvice() (heat.HeaterResult, error) {
	if f.made.heater == nil && f.made.heatErr == nil {
		in, err := f.heaterInput()
		var r heat.HeaterResult
		if err == nil {
			r, err = heat.HeaterSize(in)
		}
		f.made.heater, f.made.heatErr = &r, err
	}
	return *f.made.heater, f.made.heatErr
}

// HeaterChosen judges the heater that stands in the kit list.
func (f *Facts) HeaterChosen() (heat.HeaterResult, error) {
	in, err := f.heaterInput()
	if err != nil {
		return heat.HeaterResult{}, err
	}
	w, n := f.x("heater.watts"), f.x("heater.count")
	if math.IsNaN(w) || math.IsNaN(n) {
		return heat.HeaterResult{}, ErrNotKnown
	}
	return heat.HeaterCheck(in, quantity.Power(w), int(n))
}

// FlowAdvice is the filter flow that the tank wants.
func (f *Facts) FlowAdvice() (heat.FlowResult, error) {
	full, err := f.Full()
	if err != nil {
		return heat.FlowResult{}, err
	}
	return heat.RequiredFlow(full.Net)
}

// FilterChosen judges the filter that stands in the kit list.
func (f *Facts) FilterChosen() (heat.TurnoverResult, error) {
	full, err := f.Full()
	if err != nil {
		return heat.TurnoverResult{}, err
	}
	flow := f.x("filter.flow")
	if math.IsNaN(flow) {
		return heat.TurnoverResult{}, ErrNotKnown
	}
	return heat.Turnover(quantity.Flow(flow), full.Net)
}

// Media is the surface of the filter's media, with its working where it follows
// from their volume. Errors: ErrNotKnown; what cannot be, as a *working.Refusal.
func (f *Facts) Media() (quantity.Area, *working.Trail, error) {
	if poured(f) {
		if v := f.value(mediaVolume); v.Known() {
			return heat.MediaSurface(heat.MediaKind(f.choice(mediaKind)), quantity.Volume(v.X))
		}
	} else if v := f.value(mediaSurface); v.Known() && f.choice(mediaKind) == surfaceGiven {
		return quantity.Area(v.X), nil, nil
	}
	return 0, nil, ErrNotKnown
}

// asked turns a yes, no or unknown choice into load's answer.
func (f *Facts) asked(id FieldID) load.Answer {
	switch f.choice(id) {
	case yes:
		return load.Yes
	case no:
		return load.No
	}
	return load.Unknown
}

func (f *Facts) standInput() (load.StandInput, error) {
	full, err := f.Full()
	if err != nil {
		return load.StandInput{}, err
	}
	t := f.Tank()
	in := load.StandInput{Kind: load.StandKind(f.choice("stand.kind")), Load: load.Of(t, full), Service: load.Class2,
		Height: quantity.Length(f.or("stand.height", 0)), Depth: quantity.Length(f.or("stand.depth", 0)),
		Back: f.asked("stand.back"), Anchored: f.asked("stand.anchored"), Wetted: f.asked("stand.wetted")}
	switch in.Kind {
	case load.Bought:
		in.Wetted = load.No
		in.Bought = load.BoughtStand{Rated: quantity.Mass(f.or("stand.rated", 0)), RatedVolume: quantity.Volume(f.or("stand.rated_volume", 0)),
			TankVolume: full.Outer, Footprint: f.asked("stand.footprint"), Damaged: f.asked("stand.damaged")}
	case load.Furniture:
		in.Furniture = load.FurnitureStand{Top: load.Board(f.choice("top.board")), Thickness: quantity.Length(f.or("top.thickness", 0)),
			Depth: quantity.Length(f.or("top.depth", 0)), Span: quantity.Length(f.or("top.span", 0)),
			Support: load.Support(f.choice("top.support")), Middle: f.asked("top.middle")}
		if in.Furniture.Support == unknown {
			in.Furniture.Support = load.SupportUnknown
		}
		if in.Furniture.Top == unknown {
			in.Furniture.Top = load.BoardUnknown
		}
	case load.SelfBuilt:
		in.Wetted = load.No
		leg := load.Section{Width: quantity.Length(f.or("frame.leg_width", 0)), Depth: quantity.Length(f.or("frame.leg_depth", 0))}
		rail := load.Section{Width: leg.Width, Depth: quantity.Length(f.or("frame.rail_height", 0))}
		if f.choice("frame.material") == "s235" {
			leg.Wall = quantity.Length(f.or("frame.wall", 0))
			rail.Wall = leg.Wall
		}
		in.Frame = load.FrameStand{Material: load.LegMaterial(f.choice("frame.material")), Leg: leg, Rail: rail,
			BottomRails: f.asked("frame.bottom_rails"), SideBracing: f.asked("frame.sides"), Corners: load.Corner(f.choice("frame.corners"))}
		if in.Frame.Corners == unknown {
			in.Frame.Corners = load.CornerUnknown
		}
		if t.Rim == tank.Rimless { // a rimless tank needs a board under it
			in.Frame.Top, in.Frame.Thickness = load.BoardPlywood, 0.018
		}
	}
	return in, nil
}

// Stand is the verdict on what the tank stands on.
func (f *Facts) Stand() (load.Assessment, error) {
	if f.made.stand == nil && f.made.standErr == nil {
		in, err := f.standInput()
		var a load.Assessment
		if err == nil {
			a, err = load.CheckStand(in)
		}
		f.made.stand, f.made.standErr = &a, err
	}
	return *f.made.stand, f.made.standErr
}

// Floor is the verdict on what the stand stands on.
func (f *Facts) Floor() (load.Assessment, error) {
	full, err := f.Full()
	if err != nil {
		return load.Assessment{}, err
	}
	l, w, _ := f.Tank().Outer()
	in := load.FloorInput{Kind: load.FloorKind(f.choice("floor.kind")), Mass: full.Upper + f.standMass(), Length: l, Width: w,
		Direction: load.Direction(f.choice("floor.direction")), Place: load.Place(f.choice("floor.place")),
		Span: quantity.Length(f.or("floor.span", 0)), Spacing: quantity.Length(f.or("floor.spacing", 0))}
	if in.Kind == unknown {
		in.Kind = load.FloorUnknown
	}
	if in.Direction == unknown {
		in.Direction = load.DirectionUnknown
	}
	if d := f.or("stand.depth", 0); d > float64(w) {
		in.Width = quantity.Length(d)
	}
	if f.r.Region.Code == "US" || f.r.Region.Code == "CA" {
		in.Live = liveUS
	}
	if a, err := f.Stand(); err == nil {
		for _, foot := range a.Feet {
			in.FootForce = max(in.FootForce, foot.Force)
		}
	}
	if f.asked("home.rented") == load.Yes {
		in.Conditions = append(in.Conditions, load.Rented)
	}
	if c := f.choice("floor.condition"); c != "" && c != "none" && in.Kind != load.GroundSlab {
		in.Conditions = append(in.Conditions, load.FloorCondition(c))
	}
	return load.CheckFloor(in)
}

// standMass guesses the stand's own mass: a third of the tank's empty weight and
// never under 10 kg. Judgement; it only adds to the load on the floor.
func (f *Facts) standMass() quantity.Mass {
	full, err := f.Full()
	if err != nil {
		return 10
	}
	return max(10, full.Empty)
}

// Glass is the verdict on the panels.
func (f *Facts) Glass() (load.Assessment, error) {
	t := f.Tank()
	in := load.GlassInput{Tank: t, AirGap: f.Contents().AirGap, Maker: load.Factory, FlatBase: load.Yes, Caliper: load.No}
	if t.Sizes == tank.Measured {
		in.Caliper = load.Yes
	}
	if t.Rim == tank.Framed {
		in.FlatBase = load.No
	}
	switch f.choice("tank.history") {
	case "self_built":
		in.Maker = load.HomeBuilt
	case "new":
		in.Inspected = load.Yes
	}
	switch c := f.choice("glass.condition"); c {
	case unknown, "":
	case "none":
		in.Inspected = load.Yes
	default:
		in.Inspected = load.Yes
		in.Conditions = []load.GlassCondition{load.GlassCondition(c)}
	}
	return load.CheckGlass(in)
}

// refusalOf returns the refusal inside err, if it is one.
func refusalOf(err error) *working.Refusal {
	var r *working.Refusal
	if errors.As(err, &r) {
		return r
	}
	return nil
}
