package reckon

import (
	"errors"
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

// warm is water of a temperature.
type warm struct {
	Temperature quantity.Temperature `json:"temperature"`
}

// acid is water of a temperature and a pH.
type acid struct {
	Temperature quantity.Temperature `json:"temperature"`
	PH          quantity.PH          `json:"ph"`
}

func init() {
	add("water.density", func(in warm) (of[quantity.Density], error) { return traced(water.Density(in.Temperature)) },
		`{"temperature": {"value": 25, "unit": "degc"}}`)
	add("water.ammonia_fraction", func(in acid) (of[quantity.Ratio], error) {
		return traced(water.AmmoniaFraction(in.Temperature, in.PH))
	}, `{"temperature": {"value": 25, "unit": "degc"}, "ph": {"value": 7.8, "unit": "ph"}}`)
	type ammonia struct {
		TAN         quantity.Concentration `json:"tan" reckon:"ammonia"`
		Temperature quantity.Temperature   `json:"temperature"`
		PH          quantity.PH            `json:"ph"`
	}
	add("water.ammonia", func(in ammonia) (of[water.Ammonia], error) {
		return traced(water.UnionisedAmmonia(in.TAN, in.Temperature, in.PH))
	}, `{"tan": {"value": 0.5, "unit": "mg/l", "basis": "n"}, "temperature": {"value": 77, "unit": "degf"}, "ph": {"value": 7.8, "unit": "ph"}}`)
	type limit struct {
		Limit       quantity.Concentration `json:"limit" reckon:"free"`
		Temperature quantity.Temperature   `json:"temperature"`
		PH          quantity.PH            `json:"ph"`
	}
	type limited struct {
		TAN   quantity.Concentration `json:"tan" reckon:"ammonia"`
		Trail *working.Trail
	}
	add("water.ammonia_limit", func(in limit) (limited, error) {
		tan, tr, err := water.TANLimit(in.Limit, quantity.AsN, in.Temperature, in.PH)
		return limited{tan, tr}, err
	}, `{"limit": {"value": 0.02, "unit": "mg/l", "basis": "ion"}, "temperature": {"value": 25, "unit": "degc"}, "ph": {"value": 7.6, "unit": "ph"}}`)
	add("water.ammonia_criteria", func(in acid) (of[water.Criteria], error) {
		return traced(water.AmmoniaCriteria(in.Temperature, in.PH))
	}, `{"temperature": {"value": 24, "unit": "degc"}, "ph": {"value": 7.4, "unit": "ph"}}`)
	addGases()
	addCarbonate()
	addMeaning()
}

func addGases() {
	type high struct {
		Height quantity.Length `json:"height"`
	}
	add("water.air_pressure", func(in high) (of[quantity.Pressure], error) { return traced(water.PressureAt(in.Height)) },
		`{"height": {"value": 520, "unit": "m"}}`)
	type oxygen struct {
		Temperature quantity.Temperature   `json:"temperature"`
		Pressure    quantity.Pressure      `json:"pressure"`
		Salinity    quantity.Concentration `json:"salinity"`
	}
	add("water.oxygen", func(in oxygen) (of[quantity.Concentration], error) {
		return traced(water.OxygenSaturation(in.Temperature, in.Pressure, in.Salinity))
	}, `{"temperature": {"value": 25, "unit": "degc"}, "pressure": {"value": 1, "unit": "atm"}, "salinity": {"value": 0, "unit": "mg/l"}}`)
	type fish struct {
		Mass        quantity.Mass        `json:"mass"`
		Temperature quantity.Temperature `json:"temperature"`
	}
	add("water.fish_oxygen", func(in fish) (of[quantity.MassRate], error) { return traced(water.FishOxygen(in.Mass, in.Temperature)) },
		`{"mass": {"value": 1, "unit": "g"}, "temperature": {"value": 25, "unit": "degc"}}`)
	addFrom("water.power_cut", func() water.PowerCut { return water.PowerCut{Transfer: water.StillSurface()} }, func(in water.PowerCut) (of[water.OxygenLeft], error) { return traced(water.PowerCutOxygen(in)) }, `{
  "water": {"value": 32, "unit": "l"}, "surface": {"value": 1300, "unit": "cm2"}, "temperature": {"value": 25, "unit": "degc"},
  "pressure": {"value": 101.325, "unit": "kpa"}, "fish": {"value": 200, "unit": "mg/d"}, "other": {"value": 1, "unit": "mg/l/d"},
  "start": {"value": 95, "unit": "percent"}, "critical": {"value": 3, "unit": "mg/l"}
}`)
}

func addCarbonate() {
	type hard struct {
		PH          quantity.PH          `json:"ph"`
		KH          quantity.Hardness    `json:"kh"`
		Temperature quantity.Temperature `json:"temperature"`
	}
	add("water.co2", func(in hard) (of[quantity.Concentration], error) {
		return traced(water.CO2(in.PH, in.KH, in.Temperature))
	},
		`{"ph": {"value": 7.2, "unit": "ph"}, "kh": {"value": 4, "unit": "dkh"}, "temperature": {"value": 25, "unit": "degc"}}`)
	type gassy struct {
		CO2         quantity.Concentration `json:"co2"`
		KH          quantity.Hardness      `json:"kh"`
		Temperature quantity.Temperature   `json:"temperature"`
	}
	add("water.ph_of_co2", func(in gassy) (of[quantity.PH], error) { return traced(water.PHOfCO2(in.CO2, in.KH, in.Temperature)) },
		`{"co2": {"value": 20, "unit": "mg/l"}, "kh": {"value": 4, "unit": "dkh"}, "temperature": {"value": 25, "unit": "degc"}}`)
	add("water.carbonate", func(in warm) (of[water.Carbonate], error) { return traced(water.CarbonateConstants(in.Temperature)) },
		`{"temperature": {"value": 25, "unit": "degc"}}`)
	type air struct {
		Share       quantity.Ratio       `json:"share"`
		Temperature quantity.Temperature `json:"temperature"`
	}
	add("water.air_co2", func(in air) (of[quantity.Concentration], error) {
		return traced(water.AirCO2(in.Share, in.Temperature))
	},
		`{"share": {"value": 0.08, "unit": "percent"}, "temperature": {"value": 25, "unit": "degc"}}`)
	type mix struct {
		PHA         quantity.PH          `json:"ph_a"`
		KHA         quantity.Hardness    `json:"kh_a"`
		PHB         quantity.PH          `json:"ph_b"`
		KHB         quantity.Hardness    `json:"kh_b"`
		Share       quantity.Ratio       `json:"share"` // of b in the mixture
		Temperature quantity.Temperature `json:"temperature"`
	}
	add("water.mix_ph", func(in mix) (of[water.Mixed], error) {
		return traced(water.MixPH(water.Buffered{PH: in.PHA, KH: in.KHA}, water.Buffered{PH: in.PHB, KH: in.KHB}, in.Share, in.Temperature))
	}, `{
  "ph_a": {"value": 6.8, "unit": "ph"}, "kh_a": {"value": 2, "unit": "dkh"}, "ph_b": {"value": 8.0, "unit": "ph"}, "kh_b": {"value": 8, "unit": "dkh"},
  "share": {"value": 25, "unit": "percent"}, "temperature": {"value": 25, "unit": "degc"}
}`)
}

// addMeaning adds what readings mean.
func addMeaning() {
	type judged struct{ Findings []working.Finding }
	add("water.interpret", func(in water.Tests) (judged, error) {
		if in.Emergency != 0 {
			if err := water.AcceptEmergency(in.Emergency); err != nil {
				return judged{}, err
			}
		}
		return judged{water.Interpret(in)}, nil
	}, `{
  "ammonia": {"value": {"value": 0.25, "unit": "mg/l", "basis": "n"}, "resolution": {"value": 0.25, "unit": "mg/l"}, "at": "2026-11-25T08:10:00+01:00"},
  "nitrite": {"value": {"value": 0.5, "unit": "mg/l", "basis": "ion"}},
  "nitrate": {"value": {"value": 20, "unit": "mg/l", "basis": "ion"}},
  "ph": {"value": {"value": 7.6, "unit": "ph"}, "at": "2026-11-25T08:10:00+01:00"},
  "temperature": {"value": {"value": 77, "unit": "degf"}, "at": "2026-11-25T08:10:00+01:00"},
  "mature": false, "gasping": false
}`)
	type series struct {
		Test     water.Test      `json:"test"`
		Readings []water.Reading `json:"readings"`
	}
	add("water.trend", func(in series) (water.Trend, error) {
		for i, r := range in.Readings {
			if err := acceptAt("readings["+strconv.Itoa(i)+"].value", in.Test, r); err != nil {
				return water.Trend{}, err
			}
		}
		return water.TrendOf(in.Test, in.Readings)
	}, `{
  "test": "nitrate",
  "readings": [
    {"value": {"value": 10, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-01T08:00:00Z"},
    {"value": {"value": 18, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-08T08:00:00Z"},
    {"value": {"value": 27, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-15T08:00:00Z"}
  ]
}`)
	type two struct {
		Test    water.Test     `json:"test"`
		Earlier water.Reading  `json:"earlier"`
		Later   water.Reading  `json:"later"`
		Changed quantity.Ratio `json:"changed"`
	}
	type jumped struct {
		Jumped   bool
		Findings []working.Finding
	}
	add("water.jump", func(in two) (jumped, error) {
		if err := acceptAt("earlier.value", in.Test, in.Earlier); err != nil {
			return jumped{}, err
		}
		if err := acceptAt("later.value", in.Test, in.Later); err != nil {
			return jumped{}, err
		}
		f, ok := water.Jump(in.Test, in.Earlier, in.Later, in.Changed)
		if !ok {
			return jumped{}, nil
		}
		return jumped{true, []working.Finding{f}}, nil
	}, `{
  "test": "ph",
  "earlier": {"value": {"value": 7.4, "unit": "ph"}, "at": "2026-11-24T08:00:00Z"},
  "later": {"value": {"value": 5.4, "unit": "ph"}, "at": "2026-11-25T08:00:00Z"},
  "changed": {"value": 0, "unit": "percent"}
}`)
	type mineral struct {
		GH quantity.Hardness `json:"gh"`
	}
	type class struct {
		Class working.Key `json:"class"`
	}
	add("water.hardness_class", func(in mineral) (class, error) {
		if err := acceptAt("gh", water.TestGH, water.Reading{Value: in.GH.Value()}); err != nil {
			return class{}, err
		}
		return class{water.HardnessClass(in.GH)}, nil
	}, `{"gh": {"value": 9, "unit": "dgh"}}`)
}

// acceptAt refuses a reading by the place where it stands.
func acceptAt(path string, x water.Test, r water.Reading) error {
	err := x.Accept(r)
	var refusal *working.Refusal
	if errors.As(err, &refusal) {
		refusal.Field = path
	}
	return err
}
