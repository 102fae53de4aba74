package care

import "example.org/driploop/model/quantity"

// Choices that later code asks for by name.
const (
	SourceChlorine   = "chlorine"
	SourceChloramine = "chloramine"
	SourceUnknown    = "unknown"
	SourceWell       = "well"
	SourceOsmosis    = "osmosis"

	MatureFishless = "fishless"
	MatureWithFish = "with_fish"
	MatureSeeded   = "seeded"

	WayFloat = "float"
	WayDrip  = "drip"
)

// Answers that later code asks for by name.
const (
	FeedShare   FieldID = "feed.share"   // dry food a day over body mass
	FeedProtein FieldID = "feed.protein" // in the food, by its label
	FeedFasting FieldID = "feed.fasting" // days without food, as numbers of time.Weekday
)

func waterFields() []*Field {
	mains := func(f *Facts) bool {
		s := f.choice("water.source")
		return s == SourceChlorine || s == SourceChloramine || s == SourceUnknown
	}
	return []*Field{
		{ID: "bucket.volume", Step: Rinse, Group: "bucket", Kind: quantity.KindVolume, Purpose: ForTank, Low: 0.001, High: 0.03,
			Propose: byUS(Measured(2, "gal_us"), Measured(8, "l"))},

		{ID: "plug.heater", Step: PlaceDry, Group: "plugs", Type: TypeChoice, Options: []string{"out", "in"}, Propose: always(Chosen("out"))},
		{ID: "plug.filter", Step: PlaceDry, Group: "plugs", Type: TypeChoice, Options: []string{"out", "in"}, Propose: always(Chosen("out"))},
		{ID: "plug.light", Step: PlaceDry, Group: "plugs", Type: TypeChoice, Options: []string{"out", "in"}, Propose: always(Chosen("out"))},

		{ID: "water.source", Step: FillTreat, Group: "tap", Type: TypeChoice,
			Options: []string{SourceUnknown, SourceChlorine, SourceChloramine, SourceWell, SourceOsmosis}, Propose: always(Chosen(SourceUnknown))},
		{ID: "water.residual", Step: FillTreat, Group: "tap", Kind: quantity.KindConcentration, Low: 0, High: 10, Optional: true, When: mains},
		{ID: "treat.way", Step: FillTreat, Group: "tap", Type: TypeChoice, Options: []string{"bucket", "whole_tank"}, Propose: always(Chosen("bucket"))},
		{ID: "dose.amount", Step: FillTreat, Group: "label", Kind: quantity.KindVolume, Purpose: ForDose, Low: 1e-8, High: 0.002, Mass: true, LowMass: 1e-7, HighMass: 1,
			Propose: always(Measured(5, "ml"))},
		{ID: "dose.per", Step: FillTreat, Group: "label", Kind: quantity.KindVolume, Purpose: ForLabel, Low: 1e-4, High: 10,
			Propose: byUS(Measured(10, "gal_us"), Measured(40, "l"))},
		{ID: "dose.strength", Step: FillTreat, Group: "label", Kind: quantity.KindRatio, Low: 0.001, High: 1, Optional: true},
		{ID: "fill.target", Step: FillTreat, Group: "blend", Kind: quantity.KindTemperature, Low: 10, High: 34,
			Propose: byUS(Measured(77, "degf"), Measured(25, "degc"))},
		{ID: "fill.cold", Step: FillTreat, Group: "blend", Kind: quantity.KindTemperature, Low: 0, High: 35,
			Propose: byUS(Measured(55, "degf"), Measured(12, "degc"))},
		{ID: "fill.hot", Step: FillTreat, Group: "blend", Kind: quantity.KindTemperature, Low: 20, High: 90,
			Propose: byUS(Measured(120, "degf"), Measured(48, "degc"))},
		{ID: "bacteria.amount", Step: FillTreat, Group: "bacteria", Kind: quantity.KindVolume, Purpose: ForDose, Low: 1e-8, High: 0.01, Mass: true, LowMass: 1e-7, HighMass: 1, Optional: true},
		{ID: "bacteria.per", Step: FillTreat, Group: "bacteria", Kind: quantity.KindVolume, Purpose: ForLabel, Low: 1e-4, High: 10, Optional: true},

		{ID: "settle.target", Step: Settle, Group: "settle", Kind: quantity.KindTemperature, Low: 10, High: 34,
			Propose: byUS(Measured(77, "degf"), Measured(25, "degc"))}, // common practice: 76 to 78 °F
		{ID: "mature.way", Step: Settle, Group: "settle", Type: TypeChoice, Options: []string{MatureFishless, MatureWithFish, MatureSeeded}, Propose: always(Chosen(MatureFishless))},
	}
}

func fishFields() []*Field {
	drip := func(f *Facts) bool { return f.choice("bag.way") == WayDrip }
	return []*Field{
		{ID: "fish.kind", Step: FirstFish, Group: "fish", Type: TypeWords, Optional: true, Propose: func(f *Facts) Answer {
			if f.r.First != nil {
				return Answer{Words: f.r.First.Kind, Origin: FromProposal}
			}
			return Answer{}
		}},
		{ID: "fish.adult", Step: FirstFish, Group: "fish", Kind: quantity.KindLength, Purpose: ForFish, Low: 0.01, High: 1.5,
			Propose: func(f *Facts) Answer {
				if f.r.First != nil {
					return round(float64(f.r.First.Adult), unitOfFish(f), 2)
				}
				return byUS(Measured(2, "in"), Measured(5, "cm"))(f)
			}},
		{ID: "fish.count", Step: FirstFish, Group: "fish", Kind: quantity.KindCount, Low: 1, High: 200, Whole: true,
			Propose: func(f *Facts) Answer {
				if f.r.First != nil {
					return Measured(float64(f.r.First.Count), "piece")
				}
				if p, err := f.FirstPurchase(); err == nil {
					return Measured(float64(p.Low), "piece")
				}
				return Measured(2, "piece")
			}},
		{ID: "fish.quarantine", Step: FirstFish, Group: "fish", Type: TypeChoice, Options: []string{"in_the_tank", "apart"}, Propose: always(Chosen("in_the_tank")), Free: true},
		// What the ration is reckoned from has its place on the page of feeding.
		{ID: FeedShare, Name: "page.feed.share", Step: FirstFish, Group: "list", Kind: quantity.KindRatio, Low: 0.001, High: 0.1, Optional: true, Free: true},
		{ID: FeedProtein, Name: "page.feed.protein", Step: FirstFish, Group: "list", Kind: quantity.KindRatio, Low: 0.1, High: 0.7, Optional: true, Free: true},
		{ID: FeedFasting, Name: "page.feed.fast_days", Step: FirstFish, Group: "list", Type: TypeWords, Optional: true, Free: true},

		{ID: "bag.way", Step: HomeComing, Group: "bag", Type: TypeChoice, Options: []string{WayFloat, WayDrip}, Propose: always(Chosen(WayFloat))},
		{ID: "bag.volume", Step: HomeComing, Group: "bag", Kind: quantity.KindVolume, Purpose: ForTank, Low: 0.0001, High: 0.02,
			Propose: byUS(Measured(0.25, "gal_us"), Measured(1, "l"))},
		{ID: "bag.temp", Step: HomeComing, Group: "bag", Kind: quantity.KindTemperature, Low: 5, High: 38,
			Propose: byUS(Measured(71, "degf"), Measured(21.5, "degc"))},
		{ID: "home.tank_temp", Step: HomeComing, Group: "bag", Kind: quantity.KindTemperature, Low: 10, High: 35,
			Propose: func(f *Facts) Answer {
				if s := f.Steadiness(); len(s.Readings) > 0 {
					t := s.Readings[len(s.Readings)-1].T
					if f.us() {
						return round(float64(t), "degf", 3)
					}
					return round(float64(t), "degc", 3)
				}
				a, _ := f.Answer("settle.target")
				return a
			}},
		{ID: "bag.hours", Step: HomeComing, Group: "bag", Kind: quantity.KindTime, Low: 0, High: 96 * 3600, Propose: always(Measured(1, "h"))},
		{ID: "bag.ph", Step: HomeComing, Group: "bag_water", Kind: quantity.KindPH, Low: 5, High: 9.5, Optional: true},
		{ID: "home.tank_ph", Step: HomeComing, Group: "bag_water", Kind: quantity.KindPH, Low: 5, High: 9.5, Optional: true},
		{ID: "bag.kh", Step: HomeComing, Group: "bag_water", Kind: quantity.KindHardness, Low: 0, High: 600, Optional: true},
		{ID: "drip.rate", Step: HomeComing, Group: "bag", Kind: quantity.KindCount, Low: 0.2, High: 20, When: drip, Propose: always(Measured(2, "piece"))},
	}
}

// tickFields are the things done with one's hands, by step.
func tickFields() []*Field {
	var fs []*Field
	for _, t := range []struct {
		step Step
		ids  []string
	}{
		{TankPlace, []string{"place.sun", "place.radiator", "place.door"}},
		{Rinse, []string{"rinse.tank", "rinse.gravel", "rinse.ornaments", "rinse.no_soap"}},
		{PlaceDry, []string{"dry.level", "dry.mat", "dry.tank", "dry.gravel", "dry.filter", "dry.heater", "dry.thermometer", "dry.cords", "dry.plugs"}},
		{FillTreat, []string{"fill.half", "fill.dose", "fill.line", "fill.level", "fill.leak", "fill.bacteria"}},
		{PowerOn, []string{"power.hands", "power.loop", "power.socket", "power.protection", "power.heater", "power.lid"}},
		{FirstFish, []string{"fish.ask_age", "fish.ask_eating", "fish.ask_water", "fish.ask_return"}},
		{HomeComing, []string{"home.lights", "home.float", "home.net", "home.pour"}},
	} {
		for _, id := range t.ids {
			fs = append(fs, &Field{ID: FieldID(id), Step: t.step, Group: "ticks", Type: TypeTick, Free: true})
		}
	}
	return fs
}

// unitOfFish is what lengths of fish are proposed in.
func unitOfFish(f *Facts) quantity.UnitCode {
	if f.us() {
		return "in"
	}
	return "cm"
}
