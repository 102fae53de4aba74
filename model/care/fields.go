package care

import (
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
)

var (
	catalogue []*Field
	fieldByID = map[FieldID]*Field{}
)

// The catalogue's proposals read fields, so it is filled here rather than in its
// own declaration.
func init() {
	catalogue = allFields()
	for _, f := range catalogue {
		if _, twice := fieldByID[f.ID]; twice {
			panic("care: field twice: " + string(f.ID))
		}
		fieldByID[f.ID] = f
	}
}

// Fields lists every field of First fill, step by step, in the order asked.
func Fields() []*Field { return append([]*Field(nil), catalogue...) }

// FieldOf returns the field with the given id.
func FieldOf(id FieldID) (*Field, bool) {
	f, ok := fieldByID[id]
	return f, ok
}

func allFields() []*Field {
	var fs []*Field
	for _, part := range [][]*Field{tankFields(), kitFields(), standFields(), floorFields(), waterFields(), fishFields(), tickFields()} {
		fs = append(fs, part...)
	}
	return fs
}

// Custom is the choice of a size that is not in the list.
const Custom = "custom"

func (f *Facts) nominal() (tank.Nominal, bool) {
	code := f.r.Answers["tank.nominal"].Choice
	if code == "" {
		code = DefaultNominal(f.r.System)
	}
	for _, n := range tank.Nominals() {
		if n.Code == code {
			return n, true
		}
	}
	return tank.Nominal{}, false
}

// DefaultNominal is the tank size proposed to somebody who has bought nothing:
// the smallest that the trade calls steady enough for a first tank.
func DefaultNominal(s quantity.System) string {
	if s == quantity.US {
		return "us_10"
	}
	return "metric_54"
}

// tankLength proposes a length in the unit that the person's tanks are sold in.
func (f *Facts) tankLength(x quantity.Length) Answer {
	if f.us() {
		return round(float64(x), "in", 4)
	}
	return round(float64(x), "cm", 4)
}

func tankFields() []*Field {
	nominals := make([]string, 0, 32)
	for _, n := range tank.Nominals() {
		nominals = append(nominals, n.Code)
	}
	nominals = append(nominals, Custom)
	shape := func(f *Facts) tank.Shape { return tank.Shape(f.choice("tank.shape")) }
	fromNominal := func(get func(tank.Nominal) quantity.Length, otherwise quantity.Length) func(*Facts) Answer {
		return func(f *Facts) Answer {
			if n, ok := f.nominal(); ok {
				return f.tankLength(get(n))
			}
			return f.tankLength(otherwise)
		}
	}
	return []*Field{
		// The system at the start, so that proposals do not shift when somebody reads
		// in other units later.
		{ID: "tank.system", Step: TankPlace, Group: "list", Type: TypeChoice, Options: []string{"us", "metric", "imperial"}, Free: true},
		{ID: "tank.nominal", Step: TankPlace, Group: "size", Type: TypeChoice, Options: nominals,
			Propose: func(f *Facts) Answer { return Chosen(DefaultNominal(f.r.System)) }},
		{ID: "tank.shape", Step: TankPlace, Group: "size", Type: TypeChoice, Options: []string{"box", "cube", "bow_front", "cylinder", "hexagon"},
			Propose: always(Chosen("box"))},
		{ID: "tank.material", Step: TankPlace, Group: "size", Type: TypeChoice, Options: []string{"glass", "acrylic"}, Propose: always(Chosen("glass"))},
		{ID: "tank.length", Step: TankPlace, Group: "size", Kind: quantity.KindLength, Purpose: ForTank, Low: 0.1, High: 3,
			Propose: fromNominal(func(n tank.Nominal) quantity.Length { return n.Length }, 0.6)},
		{ID: "tank.width", Step: TankPlace, Group: "size", Kind: quantity.KindLength, Purpose: ForTank, Low: 0.1, High: 2,
			When:    func(f *Facts) bool { return shape(f) == tank.Box || shape(f) == tank.BowFront },
			Propose: fromNominal(func(n tank.Nominal) quantity.Length { return n.Width }, 0.3)},
		{ID: "tank.height", Step: TankPlace, Group: "size", Kind: quantity.KindLength, Purpose: ForTank, Low: 0.1, High: 1.5,
			When:    func(f *Facts) bool { return shape(f) != tank.Cube },
			Propose: fromNominal(func(n tank.Nominal) quantity.Length { return n.Height }, 0.3)},
		{ID: "tank.bow", Step: TankPlace, Group: "size", Kind: quantity.KindLength, Purpose: ForTank, Low: 0.005, High: 1,
			When:    func(f *Facts) bool { return shape(f) == tank.BowFront },
			Propose: func(f *Facts) Answer { return f.tankLength(quantity.Length(f.or("tank.length", 0.6) / 10)) }},
		{ID: "tank.edge", Step: TankPlace, Group: "size", Type: TypeChoice, Options: []string{"framed", "braced", "rimless"},
			Propose: func(f *Facts) Answer {
				if n, ok := f.nominal(); ok && n.Rim == tank.Rimless {
					return Chosen("rimless")
				}
				return Chosen("framed")
			}},
		{ID: "tank.wall", Step: TankPlace, Group: "size", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.001, High: 0.06,
			Propose: func(f *Facts) Answer {
				if n, ok := f.nominal(); ok {
					return round(float64(n.Wall), "mm", 3)
				}
				return round(usualWall(f), "mm", 2)
			}},
		{ID: "tank.history", Step: TankPlace, Group: "size", Type: TypeChoice, Options: []string{"new", "used", "self_built"}, Propose: always(Chosen("new"))},
		{ID: "gravel.kind", Step: TankPlace, Group: "inside", Type: TypeChoice, Options: []string{"gravel", "sand", "clay", "none"}, Propose: always(Chosen("gravel"))},
		{ID: "gravel.front", Step: TankPlace, Group: "inside", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 0.5,
			When: func(f *Facts) bool { return f.choice("gravel.kind") != "none" }, Propose: byUS(Measured(1.5, "in"), Measured(4, "cm"))},
		{ID: "gravel.back", Step: TankPlace, Group: "inside", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 0.5,
			When: func(f *Facts) bool { return f.choice("gravel.kind") != "none" }, Propose: byUS(Measured(2.5, "in"), Measured(6, "cm"))},
		{ID: "rock.mass", Step: TankPlace, Group: "inside", Kind: quantity.KindMass, Low: 0, High: 500, Propose: byUS(Measured(2, "lb"), Measured(1, "kg"))},
		{ID: "wood.mass", Step: TankPlace, Group: "inside", Kind: quantity.KindMass, Low: 0, High: 200, Propose: byUS(Measured(0, "lb"), Measured(0, "kg"))},
		{ID: "tank.gap", Step: TankPlace, Group: "inside", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 0.5,
			Propose: byUS(Measured(1, "in"), Measured(2.5, "cm"))},
		{ID: "room.low", Step: TankPlace, Group: "place", Kind: quantity.KindTemperature, Purpose: ForRoom, Low: -5, High: 40,
			Propose: byUS(Measured(64, "degf"), Measured(18, "degc"))},
		{ID: "room.high", Step: TankPlace, Group: "place", Kind: quantity.KindTemperature, Purpose: ForRoom, Low: 0, High: 45,
			Propose: byUS(Measured(79, "degf"), Measured(26, "degc"))},
		{ID: "household", Step: TankPlace, Group: "place", Type: TypeChoice, Options: []string{"none", "children", "pets", "both"}, Propose: always(Chosen("none"))},
		{ID: "socket.height", Step: TankPlace, Group: "place", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 2.5,
			Propose: func(f *Facts) Answer { return f.tankLength(f.r.Region.SocketHeight()) }},
		{ID: "socket.distance", Step: TankPlace, Group: "place", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 5,
			Propose: byUS(Measured(8, "in"), Measured(20, "cm"))},
	}
}

// usualWall proposes a glass thickness for a size that is in no list: the next
// usual one that the trade's tanks of about that height and length have.
// Judgement from the nominal table; the glass check judges it afterwards.
func usualWall(f *Facts) float64 {
	h, l := f.or("tank.height", 0.3), f.or("tank.length", 0.6)
	best, wall := 1e9, 0.006
	for _, n := range tank.Nominals() {
		d := (float64(n.Height)-h)*(float64(n.Height)-h)*4 + (float64(n.Length)-l)*(float64(n.Length)-l)
		if d < best {
			best, wall = d, float64(n.Wall)
		}
	}
	return wall
}

func boards() []string {
	var out []string
	for _, b := range load.Boards() {
		out = append(out, string(b))
	}
	return append(out, "unknown")
}
