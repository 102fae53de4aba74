package heat

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// MediaResult is the surface that the nitrifying bacteria need.
type MediaResult struct {
	Ammonia quantity.MassRate // total ammonia as nitrogen from the food
	Area    quantity.Area     // at the rate for this water and age
	Low     quantity.Area     // at the highest published rate
	High    quantity.Area     // at half the rate used
	Trail   *working.Trail
}

// MediaArea returns the ammonia that the food of a day (0 to 1000 g) with its share
// of protein (0.05 to 0.9) brings, and the filter media surface to turn it over. The rate is halved below 20 °C
// and for new media. Errors: *working.Refusal for food, protein, water (5 to 35 °C).
func MediaArea(food quantity.MassRate, protein quantity.Ratio, water quantity.Temperature, newMedia bool) (MediaResult, error) {
	if err := first(
		working.InRange("food", "q.heat.food", food.Value(), quantity.MassRate(0).Value(), quantity.MassRate(1000).Value()),
		working.InRange("protein", "q.heat.protein", protein.Value(), quantity.Ratio(0.05).Value(), quantity.Ratio(0.9).Value()),
		working.InRange("water", "q.heat.water_temperature", water.Value(), quantity.Temperature(5).Value(), quantity.Temperature(35).Value())); err != nil {
		return MediaResult{}, err
	}
	rate := nitrification
	t := working.New("ask.heat.media").
		Given("F", "q.heat.food", food.Value()).
		Given("p", "q.heat.protein", protein.Value()).
		Assume("assume.heat.nitrification")
	if newMedia || water < warmEnough {
		rate = nitrificationSlow
		t.Assume("assume.heat.slow_media")
	}
	tan := ammoniaFrom(food, protein)
	r := MediaResult{Ammonia: tan, Area: surfaceFor(tan, rate), Low: surfaceFor(tan, nitrificationBest), High: surfaceFor(tan, rate/2)}
	r.Trail = t.
		Constant("a", "q.heat.ammonia_share", quantity.Ratio(ammoniaShare).Value(), srcTAN).
		Step("N", "q.heat.ammonia", "N = F·p·a", tan.Value(), srcTAN).
		Step("A", "q.heat.media_area", "A = N/r", r.Area.Value(), srcNitrify).
		Constant("r", "q.heat.nitrification", quantity.MassRate(rate).Value(), working.Ours).
		Between(r.Low.Value(), r.High.Value(), "assume.heat.nitrification").
		Within("q.heat.water_temperature", quantity.Temperature(5).Value(), quantity.Temperature(35).Value())
	return r, nil
}

// Nitrification in g of ammonia nitrogen per m² of media and day. Source: published
// 0.2 to 1 at the ammonia of fish farms; at the low ammonia of an aquarium the rate is
// lower in proportion, so the lowest is used, and half of it for cool water and
// young media (judgement).
const (
	ammoniaShare      = 0.092 // Source: Timmons and Ebeling
	nitrification     = 0.2
	nitrificationSlow = 0.1
	nitrificationBest = 1.0

	warmEnough quantity.Temperature = 20
)

func ammoniaFrom(food quantity.MassRate, protein quantity.Ratio) quantity.MassRate {
	return food * quantity.MassRate(protein) * ammoniaShare
}

// MediaKind is what fills a filter.
type MediaKind string

// The media that can be told apart in a shop.
const (
	CoarseFoam MediaKind = "coarse_foam" // about 10 pores an inch
	MediumFoam MediaKind = "medium_foam" // about 20
	FineFoam   MediaKind = "fine_foam"   // about 30
	Rings      MediaKind = "rings"       // of ceramic or sintered glass, 10 to 15 mm
	Carriers   MediaKind = "carriers"    // of plastic, moving or packed
)

// MediaKinds lists the media as they are offered.
func MediaKinds() []MediaKind {
	return []MediaKind{CoarseFoam, MediumFoam, FineFoam, Rings, Carriers}
}

// specificSurface is the surface of media that water flows past, m² in a litre as
// poured or cut. The pores inside ceramic and glass are left out: water does not
// flow through them, and oxygen does not reach far. Source: foams from memory of
// makers' data for reticulated foam, within two fifths; rings from memory of the
// handbook figure for ceramic rings of 13 mm, 370 m²/m³; carriers Ødegaard et al.
// 2000, 350 m² where they fill 70 % of a cubic metre.
var specificSurface = map[MediaKind]struct {
	a      float64
	source working.SourceID
}{
	CoarseFoam: {0.6, srcFoam}, MediumFoam: {1.1, srcFoam}, FineFoam: {1.7, srcFoam}, Rings: {0.37, srcRings}, Carriers: {0.5, srcCarriers},
}

// surfaceSpread is how far the surface of media may be off, either way. // judgement
const surfaceSpread = 1.4

// MediaSurface returns the surface that media of a kind (10 mL to 100 L) give to
// bacteria. Errors: *working.Refusal for media_kind, media_volume.
func MediaSurface(kind MediaKind, v quantity.Volume) (quantity.Area, *working.Trail, error) {
	s, ok := specificSurface[kind]
	if !ok {
		return 0, nil, working.Refuse("media_kind", "refuse.heat.media_kind")
	}
	low, high := quantity.Litres(0.01).Value(), quantity.Litres(100).Value()
	if err := working.InRange("media_volume", "q.heat.media_volume", v.Value(), low, high); err != nil {
		return 0, nil, err
	}
	a := quantity.Area(s.a * v.Litres())
	return a, working.New("ask.heat.media_surface").As(working.RuleOfThumb).
		Given("V", "q.heat.media_volume", v.Value()).
		Constant("s", "q.heat.media_litre", quantity.Area(s.a).Value(), s.source).
		Step("A", "q.heat.media_surface", "A = s·V/1 L", a.Value(), s.source).
		Between((a/surfaceSpread).Value(), (a*surfaceSpread).Value(), "assume.heat.media_pores").
		Within("q.heat.media_volume", low, high), nil
}

// surfaceFor returns the media surface for an ammonia load at a rate in g/(m²·d).
func surfaceFor(tan quantity.MassRate, rate float64) quantity.Area {
	return quantity.Area(float64(tan) / rate)
}
