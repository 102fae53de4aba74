package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Label is the dose as the bottle or the tub gives it: Amount for every Per of
// water. It is that product's own: it is never scaled to another product.
type Label struct {
	Amount quantity.Value  `json:"amount"` // KindVolume of liquid or KindMass of powder, above zero
	Per    quantity.Volume `json:"per"`    // water that the amount treats, 0.1 L to 10 000 L
}

// LiquidLabel makes the label of a liquid.
func LiquidLabel(amount quantity.Volume, per quantity.Volume) Label {
	return Label{amount.Value(), per}
}

// A dose beyond these is a label read or typed wrongly, such as litres for
// millilitres. // judgement: spans liquid conditioners and powders in use
const (
	leastLiquid = 1e-5 // litres a litre: 0.01 mL per L
	mostLiquid  = 1e-2 // 10 mL per L
	leastPowder = 1e-6 // kilograms a litre: 1 mg per L
	mostPowder  = 2e-3 // 2 g per L
)

// accept refuses labels that cannot be right, with the reason.
func (l Label) accept() error {
	if err := acceptVolume("label_per", "q.water.label_per", l.Per, quantity.Litres(0.1), quantity.Litres(10_000)); err != nil {
		return err
	}
	var name working.Key
	var low, high float64
	switch l.Amount.Kind {
	case quantity.KindNone:
		return working.Refuse("label_amount", "refuse.missing")
	case quantity.KindVolume: // m³ for a volume: 1 L a litre is 0.001 m³ a litre
		name, low, high = "q.water.label_amount", leastLiquid/1000, mostLiquid/1000
	case quantity.KindMass:
		name, low, high = "q.water.label_amount", leastPowder, mostPowder
	default:
		return working.Refuse("label_amount", "refuse.water.amount_kind")
	}
	if !quantity.Finite(l.Amount.X) {
		return working.Refuse("label_amount", "refuse.not_a_number")
	}
	least := quantity.Value{Kind: l.Amount.Kind, X: low * l.Per.Litres()}
	most := quantity.Value{Kind: l.Amount.Kind, X: high * l.Per.Litres()}
	r := &working.Refusal{Field: "label_amount", Values: map[string]quantity.Value{"Amount": l.Amount, "Per": l.Per.Value()},
		Accept: working.Limit{Name: name, Low: least, High: most}}
	switch {
	case l.Amount.X < least.X:
		r.Code = "refuse.water.label_weak"
		return r
	case l.Amount.X > most.X:
		r.Code = "refuse.water.label_strong"
		return r
	}
	return nil
}

// Dose returns what the label gives for the treated water, in the kind of the
// label's amount. treated is 0 to 100 000 L; no water needs no dose. It refuses
// labels outside 0.01 to 10 mL per L or 1 mg to 2 g per L as misread.
func Dose(l Label, treated quantity.Volume) (quantity.Value, *working.Trail, error) {
	err := first(l.accept(), acceptVolume("treated", "q.water.treated", treated, 0, largestTank))
	if err != nil {
		return quantity.Value{}, nil, err
	}
	d := quantity.Value{Kind: l.Amount.Kind, X: l.Amount.X * float64(treated/l.Per)}
	t := working.New("ask.water.dose").
		Given("a", "q.water.label_amount", l.Amount).
		Given("V_L", "q.water.label_per", l.Per.Value()).
		Given("V", "q.water.treated", treated.Value()).
		Step("D", "q.water.dose", "D = a·V/V_L", d, working.Algebra).
		Assume("assume.water.own_label")
	return d, t, nil
}

// Method is a way to treat tap water.
type Method string

// The two ways. Trade practice: what is treated is the water that chlorine can
// reach.
const (
	InBucket  Method = "bucket"     // each bucket is treated before it goes in: new water only
	WholeTank Method = "whole_tank" // tap water runs straight into the tank: the whole tank
)

// Treatment is tap water about to be treated.
type Treatment struct {
	Label    Label           `json:"label"`
	Method   Method          `json:"method"`
	NewWater quantity.Volume `json:"new_water"` // tap water of this fill or change
	Tank     quantity.Volume `json:"tank"`      // net volume of the tank; for WholeTank, at least NewWater
	Bucket   quantity.Volume `json:"bucket"`    // water in one bucket; for InBucket, 1 to 200 L
}

// Treated is the plan for a treatment. With WholeTank there are no buckets.
type Treated struct {
	Water      quantity.Volume `json:"water"` // water that the dose is for
	Whole      quantity.Value  `json:"whole"` // dose for all of it
	Buckets    int             `json:"buckets"`
	PerBucket  quantity.Value  `json:"per_bucket,omitzero"`  // dose of a full bucket
	LastVolume quantity.Volume `json:"last_volume,omitzero"` // water in the last, perhaps smaller, bucket
	LastBucket quantity.Value  `json:"last_bucket,omitzero"` // its dose
}

// Treat works out the doses of a fill or a change both ways. The doses of all
// buckets add up to Whole.
func Treat(p Treatment) (Treated, *working.Trail, error) {
	if err := acceptVolume("new_water", "q.water.new_water", p.NewWater, 0, largestTank); err != nil {
		return Treated{}, nil, err
	}
	switch p.Method {
	case WholeTank:
		return treatTank(p)
	case InBucket:
		return treatBuckets(p)
	}
	return Treated{}, nil, working.Refuse("method", "refuse.water.method")
}

func treatTank(p Treatment) (Treated, *working.Trail, error) {
	if err := acceptVolume("tank", "q.water.tank_volume", p.Tank, max(p.NewWater, smallestTank), largestTank); err != nil {
		return Treated{}, nil, err
	}
	d, t, err := Dose(p.Label, p.Tank)
	if err != nil {
		return Treated{}, nil, err
	}
	t.Assume("assume.water.whole_tank").Cites(working.Trade)
	return Treated{Water: p.Tank, Whole: d}, t, nil
}

func treatBuckets(p Treatment) (Treated, *working.Trail, error) {
	if err := acceptVolume("bucket", "q.water.bucket", p.Bucket, quantity.Litres(1), quantity.Litres(200)); err != nil {
		return Treated{}, nil, err
	}
	whole, t, err := Dose(p.Label, p.NewWater)
	if err != nil {
		return Treated{}, nil, err
	}
	each, _, err := Dose(p.Label, p.Bucket)
	if err != nil {
		return Treated{}, nil, err
	}
	r := Treated{Water: p.NewWater, Whole: whole, PerBucket: each}
	// A rest below a ten-thousandth of a bucket is rounding, not a bucket.
	r.Buckets = int(math.Ceil(float64(p.NewWater/p.Bucket) - 1e-4))
	if p.NewWater > 0 {
		r.Buckets = max(1, r.Buckets)
		r.LastVolume = p.NewWater - p.Bucket*quantity.Volume(r.Buckets-1)
		last, _, err := Dose(p.Label, r.LastVolume)
		if err != nil {
			return Treated{}, nil, err
		}
		r.LastBucket = last
	}
	t.Given("V_b", "q.water.bucket", p.Bucket.Value()).
		Step("n", "q.water.buckets", "n = ⌈V/V_b⌉", quantity.Count(r.Buckets).Value(), working.Algebra).
		Step("D_b", "q.water.dose_bucket", "D_b = a·V_b/V_L", each, working.Algebra).
		Assume("assume.water.bucket").Cites(working.Trade)
	t.Result = t.Steps[0] // the dose for all the water stays the answer
	return r, t, nil
}
