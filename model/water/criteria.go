package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Criteria are limits of total ammonia, mg/L as nitrogen, that protect wild
// freshwater life. They protect the most sensitive North American species,
// mussels and salmonids among them, for natural waters. They do not say what
// an aquarium fish tolerates, and cover no other stress at the same time.
type Criteria struct {
	Acute          quantity.Concentration `json:"acute"`            // one-hour mean, salmonids absent
	AcuteSalmonids quantity.Concentration `json:"acute_salmonids"`  // one-hour mean, salmonids present
	Chronic        quantity.Concentration `json:"chronic"`          // 30-day mean
	ChronicFourDay quantity.Concentration `json:"chronic_four_day"` // highest 4-day mean within the 30 days
	// Without mussels and salmonids, nearest to a tank of fish. For information:
	// the stricter limits stay the limits.
	AcuteFish   quantity.Concentration `json:"acute_fish"`
	ChronicFish quantity.Concentration `json:"chronic_fish"`
}

// AmmoniaCriteria returns the criteria at temperature t (0 to 30 °C) and pH
// (6.5 to 9). The trail's result is the 30-day mean.
// Source: US EPA 2013; the values without mussels from a state rule that carries them.
func AmmoniaCriteria(t quantity.Temperature, ph quantity.PH) (Criteria, *working.Trail, error) {
	err := first(acceptTemperature("temperature", t, 0, 30), acceptPH("ph", ph, 6.5, 9))
	if err != nil {
		return Criteria{}, nil, err
	}
	x, p := float64(t), float64(ph)
	two := func(a, b, pk float64) float64 { return a/(1+math.Pow(10, pk-p)) + b/(1+math.Pow(10, p-pk)) }
	acute := 0.7249 * two(0.0114, 1.6181, 7.204)
	chronic := two(0.0278, 1.1994, 7.688)
	warm := math.Pow(10, 0.036*(20-x))
	cool := math.Pow(10, 0.028*(20-math.Max(x, 7)))
	c := quantity.Concentration(0.8876 * chronic * 2.126 * cool)
	r := Criteria{
		Acute:          quantity.Concentration(acute * math.Min(51.93, 23.12*warm)),
		AcuteSalmonids: quantity.Concentration(math.Min(two(0.275, 39.0, 7.204), acute*23.12*warm)),
		Chronic:        c,
		ChronicFourDay: 2.5 * c,
		AcuteFish:      quantity.Concentration(acute * math.Min(51.93, 62.15*warm)),
		ChronicFish:    quantity.Concentration(0.9405 * chronic * math.Min(6.92, 7.547*math.Pow(10, 0.028*(20-x)))),
	}
	tr := working.New("ask.water.criteria").As(working.Ranged).
		Given("t", "q.water.temperature", t.Value()).
		Given("pH", "q.water.ph", ph.Value()).
		Step("CMC", "q.water.cmc", "CMC = 0.7249·[0.0114/(1 + 10^(7.204 − pH)) + 1.6181/(1 + 10^(pH − 7.204))]·min(51.93; 23.12·10^(0.036·(20 − t)))", r.Acute.Value(), srcEPA).
		Step("CCC", "q.water.ccc", "CCC = 0.8876·[0.0278/(1 + 10^(7.688 − pH)) + 1.1994/(1 + 10^(pH − 7.688))]·2.126·10^(0.028·(20 − max(t; 7)))", r.Chronic.Value(), srcEPA).
		Between(r.Chronic.Value(), r.ChronicFish.Value(), "assume.water.criteria_protect"). // with mussels, and for fish alone
		Within("q.water.temperature", quantity.Temperature(0).Value(), quantity.Temperature(30).Value()).
		Within("q.water.ph", quantity.PH(6.5).Value(), quantity.PH(9).Value()).
		Assume("assume.water.criteria_protect", "assume.water.criteria_not_tank")
	return r, tr, nil
}
