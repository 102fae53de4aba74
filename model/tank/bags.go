package tank

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Bags returns how many whole bags of the given mass hold the substrate that a
// tank needs, and what is left over. A bag weighs 0.1 to 50 kg; otherwise it
// refuses.
func (f Full) Bags(bag quantity.Mass) (count int, left quantity.Mass, err error) {
	if err := working.InRange("bag", "q.tank.bag", bag.Value(), quantity.Mass(0.1).Value(), quantity.Mass(50).Value()); err != nil {
		return 0, 0, err
	}
	// A bag that is short by a thousandth is still enough.
	n := math.Ceil(float64(f.Substrate/bag) - 1e-3)
	return int(n), max(0, quantity.Mass(n)*bag-f.Substrate), nil
}
