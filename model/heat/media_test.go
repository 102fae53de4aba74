package heat

import (
	"math"
	"testing"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Plastic carriers that fill 70 % of a cubic metre give 350 m². Source: Ødegaard et
// al. 2000, Water Sci. Technol. 41(4-5):383 (abstract). Ceramic rings of 13 mm give
// 364 to 400 m²/m³. Source: handbook tables of random packing, from memory.
func TestMediaSurface(t *testing.T) {
	got := func(k MediaKind, litres float64) float64 {
		a, tr, err := MediaSurface(k, quantity.Litres(litres))
		if err != nil || !tr.Finite() || tr.Spread.Low.X >= float64(a) || tr.Spread.High.X <= float64(a) {
			t.Fatalf("%s: %v %v", k, a, err)
		}
		return float64(a)
	}
	if a := 10 * got(Carriers, 70); math.Abs(a-350) > 1e-9 {
		t.Errorf("carriers: %g m², want 350", a)
	}
	if a := 10 * got(Rings, 100); a < 364 || a > 400 {
		t.Errorf("rings: %g m², want 364 to 400", a)
	}
	if !(got(CoarseFoam, 1) < got(MediumFoam, 1) && got(MediumFoam, 1) < got(FineFoam, 1)) {
		t.Error("finer foam has less surface")
	}
	for _, c := range []struct {
		kind   MediaKind
		litres float64
		field  string
	}{{"wool", 1, "media_kind"}, {Rings, 0.001, "media_volume"}, {Rings, math.NaN(), "media_volume"}, {Rings, 1e6, "media_volume"}} {
		_, _, err := MediaSurface(c.kind, quantity.Litres(c.litres))
		var r *working.Refusal
		if !asRefusal(err, &r) || r.Field != c.field {
			t.Errorf("%s of %g L: %v, want a refusal of %s", c.kind, c.litres, err, c.field)
		}
	}
}
