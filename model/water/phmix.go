package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Buffered is water whose pH and KH are known.
type Buffered struct {
	PH quantity.PH       `json:"ph"` // 5 to 10
	KH quantity.Hardness `json:"kh"` // 0.05 to 60 dKH
}

// Mixed is the answer of MixPH.
type Mixed struct {
	PH    quantity.PH       `json:"ph"` // right after mixing, before CO2 comes or goes
	KH    quantity.Hardness `json:"kh"`
	Naive quantity.PH       `json:"naive"` // the plain average, which is wrong; for showing the difference
}

// MixPH returns the pH of water a with a share x (0 to 1) of water b, both at t
// (0 to 50 °C). pH does not average: alkalinity and dissolved carbon do, and
// the pH follows from them.
func MixPH(a, b Buffered, x quantity.Ratio, t quantity.Temperature) (Mixed, *working.Trail, error) {
	err := first(acceptPH("ph_a", a.PH, 5, 10), acceptKH("kh_a", a.KH, 0.05), acceptPH("ph_b", b.PH, 5, 10), acceptKH("kh_b", b.KH, 0.05),
		acceptRatio("share", "q.water.share", x, 0, 1), acceptTemperature("temperature", t, 0, 50))
	if err != nil {
		return Mixed{}, nil, err
	}
	c := carbonateAt(t)
	carbonA, carbonB := c.carbon(a), c.carbon(b)
	if carbonA < 0 || carbonB < 0 {
		return Mixed{}, nil, working.Refuse("ph_a", "refuse.water.ph_without_kh")
	}
	f := float64(x)
	alk := (1-f)*alkalinity(a.KH) + f*alkalinity(b.KH)
	dic := (1-f)*carbonA + f*carbonB
	ph := c.phOfCarbon(dic, alk)
	m := Mixed{PH: quantity.PH(ph), KH: (1-quantity.Hardness(x))*a.KH + quantity.Hardness(x)*b.KH,
		Naive: (1-quantity.PH(x))*a.PH + quantity.PH(x)*b.PH}
	tr := carbonateTrail("ask.water.mix_ph", t, c).
		Given("pH_a", "q.water.ph", a.PH.Value()).Given("KH_a", "q.water.kh", a.KH.Value()).
		Given("pH_b", "q.water.ph_new", b.PH.Value()).Given("KH_b", "q.water.kh_new", b.KH.Value()).
		Given("x", "q.water.share", x.Value()).
		Step("KH", "q.water.kh_mixed", "KH = (1 − x)·KH_a + x·KH_b", m.KH.Value(), working.Algebra).
		Step("DIC", "q.water.dic", "DIC = (1 − x)·DIC_a + x·DIC_b", quantity.Concentration(dic*1000*co2Molar).Value(), working.Algebra).
		Step("pH", "q.water.ph_mixed", "DIC(pH, KH) = DIC", m.PH.Value(), srcPlummer).
		Assume("assume.water.closed_mix")
	return m, tr, nil
}

// carbon is the dissolved inorganic carbon of w, mol/L.
func (c Carbonate) carbon(w Buffered) float64 { return c.carbonAt(alkalinity(w.KH), float64(w.PH)) }

func (c Carbonate) carbonAt(alk, ph float64) float64 {
	h := c.bicarbonate(alk, ph)
	return h * (1 + math.Pow(10, c.PK1-ph) + math.Pow(10, ph-c.PK2))
}

// phOfCarbon finds the pH at which an alkalinity goes with a carbon content,
// which falls with every rise of pH.
func (c Carbonate) phOfCarbon(dic, alk float64) float64 {
	return bisect(2, 13, func(ph float64) bool { return c.carbonAt(alk, ph) > dic })
}
