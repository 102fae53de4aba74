package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// What removes chlorine, milligrams a milligram of chlorine as Cl2.
// Source: molar masses Cl2 70.906, Na2S2O3 158.11, pentahydrate 248.18, ascorbic
// acid 176.12; two thiosulfate to one chlorine (tetrathionate), the usual path
// with thiosulfate in excess. Published laboratory rule for the pentahydrate 7.0.
const (
	clTwo             = 70.906
	thiosulfate       = 158.11
	thiosulfatePenta  = 248.18
	ascorbicAcid      = 176.12
	PerChlorinePenta  = 2 * thiosulfatePenta / clTwo
	PerChlorineAnhyd  = 2 * thiosulfate / clTwo
	PerChlorineAscorb = ascorbicAcid / clTwo
	// The sulfate path, one thiosulfate to four chlorine: the least that published practice spans.
	leastPenta = thiosulfatePenta / (4 * clTwo)
	leastAnhyd = thiosulfate / (4 * clTwo)

	// Nitrogen set free when chloramine is broken. Source: NH2Cl, one mole N a
	// mole Cl2; and what a works adds at a Cl2 to N ratio of 3 to 1.
	nPerChloramine = 14.007 / clTwo
	nPerTreatment  = 1.0 / 3
)

// Residual is the disinfectant in tap water.
type Residual string

// The two residuals that water works use.
const (
	Chlorine   Residual = "chlorine"
	Chloramine Residual = "chloramine"
)

// TapRange is what a tap may carry, mg/L as Cl2, by published limits.
type TapRange struct {
	Place working.Key            `json:"place"`
	Low   quantity.Concentration `json:"low"`
	High  quantity.Concentration `json:"high"`
	Note  working.Key            `json:"note"`
	Cites working.SourceID       `json:"source"`
}

// TapRanges lists published ranges of residual in tap water, for those who do
// not know theirs.
func TapRanges() []TapRange {
	return []TapRange{
		{"word.water.tap_us", 0, 4.0, "word.water.tap_us_note", srcMRDL},
		{"word.water.tap_who", 0.2, 5.0, "word.water.tap_who_note", srcWHO},
		{"word.water.tap_au", 0.1, 4.0, "word.water.tap_au_note", srcAUChlor},
	}
}

// ChlorineAct is the total chlorine from which fish are harmed, mg/L. Source: US
// EPA 440/5-84-030, 0.019 acute and 0.011 chronic; WEF, toxic below 0.02.
const ChlorineAct = quantity.Concentration(0.02)

// Dechlorination is what a residual needs and leaves.
type Dechlorination struct {
	Pentahydrate quantity.Mass          `json:"thiosulfate_pentahydrate"` // to plan with
	Anhydrous    quantity.Mass          `json:"thiosulfate_anhydrous"`    // the same, anhydrous
	Ascorbic     quantity.Mass          `json:"ascorbic_acid"`            // by stoichiometry
	AmmoniaLow   quantity.Concentration `json:"ammonia_low"`              // TAN left in the new water, as N; chloramine only
	AmmoniaHigh  quantity.Concentration `json:"ammonia_high"`
	TankHigh     quantity.Concentration `json:"tank_high"` // its part in the whole tank
}

// Dechlorinate returns what total chlorine c (0 to 10 mg/L as Cl2) in new water
// needs, and the ammonia that chloramine leaves once it is broken. tank is the
// net volume of the tank, at least the new water. It is chemistry for
// understanding a label, not a dose: the label of a product is the dose.
func Dechlorinate(c quantity.Concentration, kind Residual, newWater, tank quantity.Volume) (Dechlorination, *working.Trail, error) {
	err := first(acceptContent("residual", "q.water.residual", c, 10),
		acceptVolume("new_water", "q.water.new_water", newWater, 0, largestTank),
		acceptVolume("tank", "q.water.tank_volume", tank, max(smallestTank, newWater), largestTank))
	if err == nil && kind != Chlorine && kind != Chloramine {
		err = working.Refuse("residual_kind", "refuse.water.residual_kind")
	}
	if err != nil {
		return Dechlorination{}, nil, err
	}
	chlorine := quantity.Mass(float64(c) * newWater.Litres() * 1e-6)
	d := Dechlorination{Pentahydrate: chlorine * PerChlorinePenta, Anhydrous: chlorine * PerChlorineAnhyd, Ascorbic: chlorine * PerChlorineAscorb}
	least := chlorine * leastPenta
	tr := working.New("ask.water.dechlorinate").
		Given("C", "q.water.residual", c.Value()).
		Given("V", "q.water.new_water", newWater.Value())
	if kind == Chloramine {
		d.AmmoniaLow, d.AmmoniaHigh = c*nPerChloramine, c*nPerTreatment
		d.TankHigh = d.AmmoniaHigh * quantity.Concentration(newWater/tank)
		tr.Step("TAN_l", "q.water.tan_left_low", "TAN_l = 0.1975·C", d.AmmoniaLow.Value(), srcMolar).
			Step("TAN_h", "q.water.tan_left_high", "TAN_h = C/3", d.AmmoniaHigh.Value(), srcMolar).
			Step("TAN", "q.water.tan", "TAN = TAN_h·V/V_t", d.TankHigh.Value(), working.Algebra).
			Assume("assume.water.thiosulfate_leaves_ammonia")
	}
	tr.Step("m", "q.water.thiosulfate", "m = 7.000·C·V", d.Pentahydrate.Value(), srcMolar).
		Cites(srcAWWA).
		Between(least.Value(), d.Pentahydrate.Value(), "assume.water.thiosulfate_path").
		Assume("assume.water.own_label")
	return d, tr, nil
}
