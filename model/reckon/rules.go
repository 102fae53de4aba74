package reckon

import (
	"reflect"
	"strings"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/heat"
	"example.org/driploop/model/load"
	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// Bases of nitrogen compounds in the domain's own types: see their comments.
var (
	ammoniaN = rule{species: quantity.Ammonium, basis: quantity.AsN}
	freeN    = rule{species: quantity.Ammonia, basis: quantity.AsN}
	freeIon  = rule{species: quantity.Ammonia, basis: quantity.AsIon}
	nitriteN = rule{species: quantity.Nitrite, basis: quantity.AsN}
	nitrateN = rule{species: quantity.Nitrate, basis: quantity.AsN}
	optional = rule{optional: true}
)

// rules by package, type and field.
var rules = map[string]rule{
	"heat.HeaterInput.Water":   {name: "water_volume"},
	"heat.PowerCutInput.Water": {name: "water_volume"},
	"heat.Pump.Head":           {says: "pump_head"},
	"heat.Pump.Flow":           {says: "pump_flow"},
	"heat.Hose.Length":         {says: "hose_length"},
	"heat.Plug.Power":          {says: "plug_power"},
	"heat.Plug.Daily":          {says: "plug_daily"},
	"heat.Plug.Share":          {says: "plug_share"},

	// Zero stands for "not known" in these: what is not known is left out.
	"load.FurnitureStand.Top":       optional,
	"load.FurnitureStand.Thickness": optional,
	"load.FurnitureStand.Depth":     optional,
	"load.FurnitureStand.Span":      optional,
	"load.FrameStand.Material":      optional,
	"load.FrameStand.Leg":           optional,
	"load.FrameStand.Rail":          optional,
	"load.FloorInput.Kind":          optional,

	"water.Label.Amount":          {kinds: []quantity.Kind{quantity.KindVolume, quantity.KindMass}, says: "label_amount"},
	"water.Label.Per":             {says: "label_per"},
	"water.DripTDS.Start":         {says: "start_tds"},
	"water.DripTDS.Tank":          {says: "tank_tds"},
	"water.ShippedBag.TAN":        ammoniaN,
	"water.Ammonia.AsN":           freeN,
	"water.Ammonia.AsNH3":         freeIon,
	"water.Criteria.Acute":        ammoniaN,
	"water.Criteria.Chronic":      ammoniaN,
	"water.Criteria.AcuteFish":    ammoniaN,
	"water.Criteria.ChronicFish":  ammoniaN,
	"water.NitriteWater.Nitrite":  {species: quantity.Nitrite, sibling: "Basis"},
	"water.NitriteWater.Chloride": {kinds: []quantity.Kind{quantity.KindConcentration}},
	"water.NitriteWater.Ratio":    optional,
	"water.Tests.Emergency":       {species: quantity.Ammonia, basis: quantity.AsN, optional: true},
	"water.PowerCut.Transfer":     optional,
	"water.Transfer.Low":          optional,
	"water.Transfer.Likely":       optional,
	"water.Transfer.High":         optional,

	"water.Criteria.AcuteSalmonids":    ammoniaN,
	"water.Criteria.ChronicFourDay":    ammoniaN,
	"water.Dechlorination.AmmoniaLow":  ammoniaN,
	"water.Dechlorination.AmmoniaHigh": ammoniaN,
	"water.Dechlorination.TankHigh":    ammoniaN,

	"water.Tests.Ammonia":     {test: string(water.TestAmmonia)},
	"water.Tests.Nitrite":     {test: string(water.TestNitrite)},
	"water.Tests.Nitrate":     {test: string(water.TestNitrate)},
	"water.Tests.PH":          {test: string(water.TestPH)},
	"water.Tests.KH":          {test: string(water.TestKH)},
	"water.Tests.GH":          {test: string(water.TestGH)},
	"water.Tests.Temperature": {test: string(water.TestTemperature)},
	"water.Tests.Oxygen":      {test: string(water.TestOxygen)},
	"water.Tests.Chlorine":    {test: string(water.TestChlorine)},
	"water.Tests.CO2":         {test: string(water.TestCO2)},
	"water.Tests.TapNitrate":  {test: string(water.TestNitrate)},

	"nitrogen.State.Ammonia":      ammoniaN,
	"nitrogen.State.Nitrite":      nitriteN,
	"nitrogen.State.Nitrate":      nitrateN,
	"nitrogen.State.Alkalinity":   {says: "kh"}, // as a test
	"nitrogen.Tap.Ammonia":        ammoniaN,
	"nitrogen.Tap.Nitrite":        nitriteN,
	"nitrogen.Tap.Nitrate":        nitrateN,
	"nitrogen.Dose.Ammonia":       {species: quantity.Ammonium, basis: quantity.AsN, says: "dose"},
	"nitrogen.AmmoniaDose.Target": ammoniaN,
	"nitrogen.AmmoniaDose.Share":  optional, // not used for powder
	"nitrogen.Sample.NH3N":        freeN,
	"nitrogen.Duration.NH3N":      freeN,
	"nitrogen.Duration.Nitrite":   nitriteN,
	"nitrogen.Load.NitrateWeek":   {species: quantity.Nitrate, basis: quantity.AsIon},
	"nitrogen.Balance.Produced":   {basis: quantity.AsN},
	"nitrogen.Balance.Dosed":      {basis: quantity.AsN},
	"nitrogen.Balance.Exchanged":  {basis: quantity.AsN},
	"nitrogen.Production.Rate":    {species: quantity.Ammonium, basis: quantity.AsN, says: "production"},
	"nitrogen.Stock.By":           {species: quantity.Ammonium, basis: quantity.AsN, says: "stock"},
	"nitrogen.Plan.Load":          ammoniaN,
	"nitrogen.Load.Rate":          ammoniaN,
	"nitrogen.Load.TAN":           ammoniaN,
	"heat.MediaResult.Ammonia":    ammoniaN,

	// The figures of the model have defaults: give those that differ.
	"nitrogen.Params.GrowthA": optional, "nitrogen.Params.GrowthN": optional, "nitrogen.Params.DecayA": optional,
	"nitrogen.Params.DecayN": optional, "nitrogen.Params.YieldA": optional, "nitrogen.Params.YieldN": optional,
	"nitrogen.Params.HalfA": optional, "nitrogen.Params.HalfN": optional, "nitrogen.Params.OxygenA": optional,
	"nitrogen.Params.OxygenN": optional, "nitrogen.Params.InhibitNH3": optional, "nitrogen.Params.EnergyA": optional,
	"nitrogen.Params.EnergyN": optional, "nitrogen.Params.DecayTheta": optional, "nitrogen.Params.HalfAlk": optional,
	"nitrogen.Params.SeedA": optional, "nitrogen.Params.SeedN": optional,
}

// nitrogenOf is the species of a test that has one.
var nitrogenOf = map[water.Test]quantity.Species{water.TestAmmonia: quantity.Ammonium, water.TestNitrite: quantity.Nitrite, water.TestNitrate: quantity.Nitrate}

// ruleOf is the rule for a field: of a reading, by its test; of a type of this
// package, by the tag "reckon"; else from the table.
func ruleOf(t reflect.Type, g reflect.StructField, outer rule) rule {
	if t == reflect.TypeFor[water.Reading]() {
		return readingRule(g.Name, water.Test(outer.test))
	}
	if tag := g.Tag.Get("reckon"); tag != "" {
		r, ok := tagged[tag]
		if !ok {
			panic("reckon: no rule " + tag)
		}
		return r
	}
	return rules[t.String()+"."+g.Name]
}

// tagged are the rules that inputs of this package name.
var tagged = map[string]rule{
	"ammonia":       ammoniaN,
	"free":          freeN,
	"concentration": {kinds: []quantity.Kind{quantity.KindConcentration}},
	"tariff":        {kinds: []quantity.Kind{quantity.KindMoney}},
	"as_n":          {basis: quantity.AsN},
	"capacity":      {says: "heat_capacity"},
}

// readingRule says what a reading of a test holds; with no test named, the
// calculation itself holds the readings against their test.
func readingRule(name string, x water.Test) rule {
	switch name {
	case "Value":
		r := rule{sibling: "Basis", says: string(x), species: nitrogenOf[x], required: true, open: x == ""}
		if x != "" {
			r.kinds = []quantity.Kind{x.Kind()}
		}
		return r
	case "Resolution", "Below", "Above":
		r := rule{says: string(x) + "_resolution"}
		switch x {
		case "":
		case water.TestTemperature:
			r.kinds = []quantity.Kind{quantity.KindTempDiff}
		default:
			r.kinds = []quantity.Kind{x.Kind()}
		}
		return r
	}
	return rule{}
}

// choices by type, there before any calculation is added.
var choices = offered()

// offer registers the choices of a text type under their own names; a zero value
// that means something is given its name in zero.
func offer[T ~string](all map[reflect.Type][]choice, zero string, values ...T) {
	t := reflect.TypeFor[T]()
	for _, v := range values {
		if v != "" {
			all[t] = append(all[t], choice{string(v), reflect.ValueOf(v)})
		}
	}
	if zero != "" {
		all[t] = append(all[t], choice{zero, reflect.Zero(t)})
	}
}

// number registers the choices of a numbered type, from value first on.
func number[T ~uint8](all map[reflect.Type][]choice, first T, names string) {
	t := reflect.TypeFor[T]()
	for i, n := range strings.Fields(names) {
		all[t] = append(all[t], choice{n, reflect.ValueOf(first + T(i))})
	}
}

const unknown = "unknown"

func offered() map[reflect.Type][]choice {
	all := map[reflect.Type][]choice{}
	offer(all, "", quantity.Systems()...)
	offer(all, "", quantity.AsN, quantity.AsIon)
	offer(all, "", working.Definition, working.Published, working.Computed, working.Memory, working.Judgement, working.Practice)
	offer(all, "", tank.Shapes()...)
	offer(all, "", tank.Materials()...)
	offer(all, "", tank.Framed, tank.Rimless)
	offer(all, unknown, tank.Measured, tank.NominalOnly)
	offer(all, "", tank.Stones()...)
	offer(all, "bare", tank.Substrates()...)
	offer(all, unknown, load.Yes, load.No)
	offer(all, unknown, load.Boards()...)
	offer(all, unknown, load.LegMaterials()...)
	offer(all, unknown, load.CornerBearing, load.CornerFasteners, load.CornerWelded)
	offer(all, unknown, load.Across, load.Along)
	offer(all, unknown, load.Joists, load.GroundSlab, load.ConcreteFloor)
	offer(all, "", load.FloorConditions()...)
	offer(all, "", load.GlassConditions()...)
	offer(all, "", load.GoodGrip, load.FairGrip, load.PoorGrip)
	offer(all, unknown, load.Factory, load.HomeBuilt)
	offer(all, unknown, load.MidRoom, load.AtWall)
	offer(all, "", load.Bought, load.Furniture, load.SelfBuilt)
	offer(all, unknown, load.OnSides, load.OnPins, load.OnLegs)
	offer(all, "", heat.MediaKinds()...)
	offer(all, "", water.AllTests()...)
	offer(all, "", water.Chlorine, water.Chloramine)
	offer(all, "", water.Pentahydrate, water.Anhydrous)
	offer(all, "", water.InBucket, water.WholeTank)
	offer(all, "", water.FloatAndMix, water.MoveSoon)
	offer(all, "", water.Rising, water.Falling, water.Flat)
	offer(all, "", nitrogen.Ways()...)
	offer(all, "", nitrogen.Solution, nitrogen.Chloride)
	offer(all, "", nitrogen.AtStart, nitrogen.OnGrid, nitrogen.Before, nitrogen.After)
	offer(all, "", fish.Groups()...)
	offer(all, "", fish.Zones()...)
	offer(all, "", fish.Tempers()...)
	offer(all, "", fish.Rules()...)
	offer(all, "", fish.Plates()...)
	offer(all, "", fish.Quarantines()...)
	number(all, fish.Steady, "steady wait no")
	number(all, load.Class1, "class_1 class_2")
	number(all, heat.Glass, "glass acrylic")
	number(all, heat.Open, "open lid")
	number(all, heat.OnWood, "wood foam")
	number(all, heat.Outlet230V, "230v_10a 120v_15a")
	number(all, working.Steady, "steady wait act")
	return all
}
