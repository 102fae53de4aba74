package water

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// ShippedBag is the water of a bag that has been closed for long.
type ShippedBag struct {
	PH          quantity.PH            `json:"ph"`          // when opened, 5 to 9
	KH          quantity.Hardness      `json:"kh"`          // 0.05 to 60 dKH
	Temperature quantity.Temperature   `json:"temperature"` // 0 to 50 °C
	TAN         quantity.Concentration `json:"tan"`         // mg/L as nitrogen, 0 to 1000
	CO2End      quantity.Concentration `json:"co2_end"`     // after standing open, 0.3 to 10 mg/L
}

// OpenedBag is what becomes of the water once the bag is open.
type OpenedBag struct {
	CO2         quantity.Concentration `json:"co2"` // in the closed bag
	PHAfter     quantity.PH            `json:"ph_after"`
	Before      Ammonia                `json:"before"`
	After       Ammonia                `json:"after"`
	AmmoniaRise quantity.Ratio         `json:"ammonia_rise"` // un-ionised ammonia after ÷ before; 0 with no ammonia
}

// OpenBag returns what opening does: CO2 leaves, alkalinity stays, pH rises,
// and with it the un-ionised share of the ammonia. It refuses a bag that holds
// no more CO2 than it would end with, for then nothing leaves.
func OpenBag(b ShippedBag) (OpenedBag, *working.Trail, error) {
	err := first(acceptPH("ph", b.PH, 5, 9), acceptContent("tan", "q.water.tan", b.TAN, 1000),
		working.InRange("co2_end", "q.water.co2_end", b.CO2End.Value(), quantity.Concentration(0.3).Value(), quantity.Concentration(10).Value()))
	if err != nil {
		return OpenedBag{}, nil, err
	}
	co2, tr, err := CO2(b.PH, b.KH, b.Temperature)
	if err != nil {
		return OpenedBag{}, nil, err
	}
	if co2 <= b.CO2End {
		return OpenedBag{}, nil, working.Refuse("co2_end", "refuse.water.no_co2_to_lose")
	}
	after, _, err := PHOfCO2(b.CO2End, b.KH, b.Temperature)
	if err != nil {
		return OpenedBag{}, nil, err
	}
	r := OpenedBag{CO2: co2, PHAfter: after}
	if r.Before, _, err = UnionisedAmmonia(b.TAN, b.Temperature, b.PH); err != nil {
		return OpenedBag{}, nil, err
	}
	if r.After, _, err = UnionisedAmmonia(b.TAN, b.Temperature, after); err != nil {
		return OpenedBag{}, nil, err
	}
	if r.Before.AsN > 0 {
		r.AmmoniaRise = quantity.Ratio(r.After.AsN / r.Before.AsN)
	}
	tr.Ask, tr.Spread, tr.Strength = "ask.water.open_bag", nil, working.Robust
	tr.Given("TAN", "q.water.tan", b.TAN.Value()).
		Given("CO2_e", "q.water.co2_end", b.CO2End.Value()).
		Step("NH3_0", "q.water.nh3_n", "NH3_0 = f(t, pH)·TAN", r.Before.AsN.Value(), srcEmerson).
		Step("pH_e", "q.water.ph_after", "CO2(pH_e, KH) = CO2_e", after.Value(), srcPlummer).
		Step("NH3_e", "q.water.nh3_after", "NH3_e = f(t, pH_e)·TAN", r.After.AsN.Value(), srcEmerson).
		Assume("assume.water.alkalinity_stays")
	return r, tr, nil
}

// Homecoming is a way to bring fish from their bag into the tank.
type Homecoming string

// The two ways.
const (
	FloatAndMix Homecoming = "float_and_mix" // float the bag, add tank water little by little
	MoveSoon    Homecoming = "move_soon"     // float closed, open, move the fish out at once
)

// longTrip is the time in a closed bag from which it counts as shipped. // judgement
const longTrip = 6 * hour

// Trip is what is known of the way home.
type Trip struct {
	Closed quantity.Time `json:"closed"`        // time in the closed bag, 0 to 7 days
	Bag    *ShippedBag   `json:"bag,omitempty"` // the bag's water if it was tested, else nil
}

// WayHome tells which way suits a trip. A bag that was tested decides by the
// ammonia that opening would set free; one that was not, by the hours it was
// closed. The findings carry the steps in order.
func WayHome(p Trip) (Homecoming, []working.Finding, *working.Trail, error) {
	if err := acceptTime("closed", "q.water.closed", p.Closed, 0, 7*day); err != nil {
		return "", nil, nil, err
	}
	way := FloatAndMix
	if p.Closed > longTrip {
		way = MoveSoon
	}
	tr := working.New("ask.water.way_home").As(working.RuleOfThumb).
		Given("t", "q.water.closed", p.Closed.Value()).
		Constant("t_l", "q.water.long_trip", longTrip.Value(), working.Ours).Cites(srcBags)
	// The long trip is the cautious case, so a short one with bad water joins it.
	if p.Bag != nil {
		o, t2, err := OpenBag(*p.Bag)
		var none *working.Refusal
		switch {
		case err == nil:
			tr = t2
			if o.After.AsN > HarmNH3N {
				way = MoveSoon
			}
		case asRefusal(err, &none) && none.Code == "refuse.water.no_co2_to_lose": // opening changes nothing
		default:
			return "", nil, nil, err
		}
	}
	return way, wayHomeSteps(way), tr, nil
}

func asRefusal(err error, r **working.Refusal) bool {
	x, ok := err.(*working.Refusal)
	if ok {
		*r = x
	}
	return ok
}

func wayHomeSteps(w Homecoming) []working.Finding {
	if w == MoveSoon {
		return []working.Finding{working.Find(working.Act, "find.water.bag_float_closed"), working.Find(working.Act, "find.water.bag_no_air"),
			working.Find(working.Act, "find.water.bag_move"), working.Find(working.Act, "find.water.bag_discard")}
	}
	return []working.Finding{working.Find(working.Steady, "find.water.bag_float"), working.Find(working.Steady, "find.water.bag_mix"),
		working.Find(working.Steady, "find.water.bag_net"), working.Find(working.Steady, "find.water.bag_discard")}
}
