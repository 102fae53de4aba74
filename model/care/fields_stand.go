package care

import (
	"math"
	"slices"

	"example.org/driploop/model/heat"
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
)

// kitItems are the things a first tank needs, in the order in which they are used.
var kitItems = []string{"tank", "lid", "filter", "heater", "thermometer", "gravel", "ornaments", "protection", "timer", "conditioner",
	"bacteria", "test_kit", "bucket", "siphon", "pad", "towel", "net", "food"}

// What is in the filter: a kind with its volume, or a surface that somebody gives.
const (
	mediaKind    FieldID = "filter.media_kind"
	mediaVolume  FieldID = "filter.media_volume"
	mediaSurface FieldID = "filter.media"
	surfaceGiven         = "surface"
)

func mediaKinds() []string {
	out := []string{unknown}
	for _, k := range heat.MediaKinds() {
		out = append(out, string(k))
	}
	return append(out, surfaceGiven)
}

// poured holds for media whose surface follows from their volume.
func poured(f *Facts) bool {
	return slices.Contains(heat.MediaKinds(), heat.MediaKind(f.choice(mediaKind)))
}

func kitFields() []*Field {
	fs := []*Field{
		{ID: "lid.kind", Step: KitList, Group: "kit", Type: TypeChoice, Options: []string{"lid", "open"}, Propose: always(Chosen("lid"))},
		{ID: "heater.watts", Step: KitList, Group: "kit", Kind: quantity.KindPower, Low: 1, High: 3000,
			Propose: func(f *Facts) Answer {
				if h, err := f.HeaterAdvice(); err == nil {
					return Measured(float64(h.Size), "w")
				}
				return Measured(300, "w") // the largest that is commonly sold; the check says whether it does
			}},
		{ID: "heater.count", Step: KitList, Group: "kit", Kind: quantity.KindCount, Low: 1, High: 4, Whole: true,
			Propose: func(f *Facts) Answer {
				if h, err := f.HeaterAdvice(); err == nil {
					return Measured(float64(h.Count), "piece")
				}
				return Measured(1, "piece")
			}},
		{ID: "filter.kind", Step: KitList, Group: "kit", Type: TypeChoice, Options: []string{"hang_on", "internal", "sponge", "canister"}, Propose: always(Chosen("hang_on"))},
		{ID: "filter.flow", Step: KitList, Group: "kit", Kind: quantity.KindFlow, Low: 1e-3 * 10 / 3600, High: 20.0 / 3600,
			Propose: func(f *Facts) Answer {
				flow, err := f.FlowAdvice()
				if err != nil { // beyond any first tank: the largest that the field takes
					return Measured(20000, "l/h")
				}
				// Enough even where the real flow is half of the label's; rounded up.
				unit := quantity.UnitCode("l/h")
				if f.us() {
					unit = "gph_us"
				}
				x := quantity.MustUnit(unit).FromBase(float64(flow.Low) / 0.5)
				return Measured(math.Ceil(x/10)*10, unit)
			}},
		// No later step relies on what is in the filter, so that it can be told when the
		// filter is opened.
		{ID: mediaKind, Step: KitList, Group: "kit", Type: TypeChoice, Options: mediaKinds(), Propose: always(Chosen(unknown)), Free: true},
		{ID: mediaVolume, Step: KitList, Group: "kit", Kind: quantity.KindVolume, Purpose: ForTank, Low: 1e-5, High: 0.1, Optional: true, Free: true, When: poured},
		{ID: mediaSurface, Step: KitList, Group: "kit", Kind: quantity.KindArea, Low: 0.01, High: 1000, Optional: true, Free: true,
			When: func(f *Facts) bool { return f.choice(mediaKind) == surfaceGiven }},
		{ID: "filter.watts", Step: KitList, Group: "power", Kind: quantity.KindPower, Low: 0, High: 1000, Free: true,
			Propose: func(f *Facts) Answer { // common practice: about 1 W for 50 L/h, never under 3 W
				w := f.or("filter.flow", 0) * 3.6e6 / 50
				if !(w > 3) {
					w = 3
				}
				return Measured(float64(int(w+0.5)), "w")
			}},
		{ID: "light.watts", Step: KitList, Group: "power", Kind: quantity.KindPower, Low: 0, High: 2000, Free: true,
			Propose: func(f *Facts) Answer { // common practice: about 0.2 W of LED a litre
				w := float64(int(f.netLitres()*0.2 + 0.5))
				if !(w > 5) {
					w = 5
				}
				return Measured(w, "w")
			}},
		{ID: "light.hours", Step: KitList, Group: "power", Kind: quantity.KindTime, Low: 0, High: 24 * 3600, Free: true, Propose: always(Measured(8, "h"))},
		{ID: "kit.tariff", Step: KitList, Group: "power", Kind: quantity.KindMoney, Low: 0, High: 1000, Optional: true, Free: true},
	}
	for _, item := range kitItems {
		fs = append(fs,
			&Field{ID: FieldID("kit." + item + ".have"), Name: "field.kit.have", Step: KitList, Group: "list", Type: TypeTick, Free: true},
			&Field{ID: FieldID("kit." + item + ".price"), Name: "field.kit.price", Step: KitList, Group: "list", Kind: quantity.KindMoney, Low: 0, High: 100000, Optional: true, Free: true})
	}
	return fs
}

const (
	yes     = "yes"
	no      = "no"
	unknown = "unknown"
)

func yesNo() []string        { return []string{yes, no} }
func yesNoUnknown() []string { return []string{yes, no, unknown} }

func legMaterials() []string {
	return []string{"c16", "c24", "c30", "spf_no2", "dfl_no2", "hf_no2", "s235"}
}

func standFields() []*Field {
	kind := func(k load.StandKind) func(*Facts) bool {
		return func(f *Facts) bool { return f.choice("stand.kind") == string(k) }
	}
	steel := func(f *Facts) bool {
		return f.choice("stand.kind") == string(load.SelfBuilt) && f.choice("frame.material") == "s235"
	}

	boardMM := func(mm float64) func(*Facts) Answer { return always(Measured(mm, "mm")) }
	return []*Field{
		{ID: "stand.kind", Step: StandFloor, Group: "stand", Type: TypeChoice,
			Options: []string{string(load.Bought), string(load.Furniture), string(load.SelfBuilt)}, Propose: always(Chosen(string(load.Bought)))},
		{ID: "stand.height", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForTank, Low: 0, High: 2,
			Propose: byUS(Measured(28, "in"), Measured(70, "cm"))},
		{ID: "stand.depth", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForTank, Low: 0.1, High: 2,
			Propose: func(f *Facts) Answer { return f.tankLength(quantity.Length(f.footprintWidth())) }},
		{ID: "stand.rated", Step: StandFloor, Group: "stand", Kind: quantity.KindMass, Low: 1, High: 5000, Optional: true, When: kind(load.Bought)},
		{ID: "stand.rated_volume", Step: StandFloor, Group: "stand", Kind: quantity.KindVolume, Purpose: ForTank, Low: 0.005, High: 3, Optional: true, When: kind(load.Bought)},
		{ID: "stand.footprint", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNoUnknown(), When: kind(load.Bought), Propose: always(Chosen(unknown))},
		{ID: "stand.damaged", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNo(), When: kind(load.Bought), Propose: always(Chosen(no))},
		{ID: "top.board", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: boards(), When: kind(load.Furniture), Propose: always(Chosen(string(load.BoardP2)))},
		{ID: "top.thickness", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.003, High: 0.1, When: kind(load.Furniture), Propose: boardMM(18)},
		{ID: "top.depth", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.1, High: 2, When: kind(load.Furniture),
			Propose: func(f *Facts) Answer { return round(f.or("stand.depth", 0.3), "mm", 3) }},
		{ID: "top.span", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.05, High: 3, When: kind(load.Furniture),
			Propose: func(f *Facts) Answer { return round(f.or("tank.length", 0.6), "mm", 3) }},
		{ID: "top.support", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: []string{"sides", "pins", "legs", unknown}, When: kind(load.Furniture), Propose: always(Chosen("sides"))},
		{ID: "top.middle", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNo(), When: kind(load.Furniture), Propose: always(Chosen(no))},
		{ID: "stand.wetted", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNoUnknown(), When: kind(load.Furniture), Propose: always(Chosen(no))},
		{ID: "frame.material", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: legMaterials(), When: kind(load.SelfBuilt),
			Propose: byUS(Chosen("spf_no2"), Chosen("c24"))},
		{ID: "frame.leg_width", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.01, High: 0.3, When: kind(load.SelfBuilt),
			Propose: byUS(Measured(1.5, "in"), Measured(45, "mm"))},
		{ID: "frame.leg_depth", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.01, High: 0.3, When: kind(load.SelfBuilt),
			Propose: byUS(Measured(3.5, "in"), Measured(45, "mm"))},
		{ID: "frame.rail_height", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.01, High: 0.4, When: kind(load.SelfBuilt),
			Propose: byUS(Measured(3.5, "in"), Measured(95, "mm"))},
		{ID: "frame.wall", Step: StandFloor, Group: "stand", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.0005, High: 0.02, When: steel, Propose: boardMM(2)},
		{ID: "frame.corners", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: []string{"bearing", "fasteners", "welded", unknown}, When: kind(load.SelfBuilt), Propose: always(Chosen("bearing"))},
		{ID: "frame.bottom_rails", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNo(), When: kind(load.SelfBuilt), Propose: always(Chosen(yes))},
		{ID: "stand.back", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNoUnknown(), Propose: always(Chosen(yes))},
		{ID: "frame.sides", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNo(), When: kind(load.SelfBuilt), Propose: always(Chosen(yes))},
		{ID: "stand.anchored", Step: StandFloor, Group: "stand", Type: TypeChoice, Options: yesNo(), Propose: always(Chosen(no))},
	}
}

func floorFields() []*Field {
	joists := func(f *Facts) bool { return f.choice("floor.kind") == string(load.Joists) }
	suspended := func(f *Facts) bool { return f.choice("floor.kind") != string(load.GroundSlab) }
	used := func(f *Facts) bool { return f.choice("tank.history") != "new" }
	return []*Field{
		{ID: "floor.kind", Step: StandFloor, Group: "floor", Type: TypeChoice,
			Options: []string{string(load.GroundSlab), string(load.Joists), string(load.ConcreteFloor), unknown}, Propose: always(Chosen(unknown))},
		{ID: "floor.direction", Step: StandFloor, Group: "floor", Type: TypeChoice, Options: []string{string(load.Across), string(load.Along), unknown}, When: joists, Propose: always(Chosen(unknown))},
		{ID: "floor.place", Step: StandFloor, Group: "floor", Type: TypeChoice, Options: []string{string(load.AtWall), string(load.MidRoom)}, When: suspended, Propose: always(Chosen(string(load.AtWall)))},
		{ID: "floor.span", Step: StandFloor, Group: "floor", Kind: quantity.KindLength, Low: 1, High: 8, Optional: true, When: joists},
		{ID: "floor.spacing", Step: StandFloor, Group: "floor", Kind: quantity.KindLength, Purpose: ForBoard, Low: 0.2, High: 1, Optional: true, When: joists},
		{ID: "floor.condition", Step: StandFloor, Group: "floor", Type: TypeChoice, When: suspended,
			Options: append([]string{"none"}, floorConditions()...), Propose: always(Chosen("none"))},
		{ID: "home.rented", Step: StandFloor, Group: "floor", Type: TypeChoice, Options: yesNo(), Propose: always(Chosen(no))},
		{ID: "glass.condition", Step: StandFloor, Group: "glass", Type: TypeChoice, When: used,
			Options: append([]string{unknown, "none"}, glassConditions()...), Propose: always(Chosen(unknown))},
		{ID: "glass.wet_test", Step: StandFloor, Group: "glass", Type: TypeChoice, When: used, Options: []string{"not_yet", "dry", "leaked"}, Propose: always(Chosen("not_yet"))},
		{ID: "stand.confirmed", Step: StandFloor, Group: "floor", Type: TypeChoice, Options: yesNo(), Propose: always(Chosen(no))},
	}
}

func floorConditions() []string {
	var out []string
	for _, c := range load.FloorConditions() {
		if c != load.Rented { // asked by itself
			out = append(out, string(c))
		}
	}
	return out
}

func glassConditions() []string {
	var out []string
	for _, c := range load.GlassConditions() {
		out = append(out, string(c))
	}
	return out
}
