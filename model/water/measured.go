package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// How well people measure the water they carry. // judgement
const (
	bucketSpread = 0.05                    // a mark on a bucket, filled by eye
	rulerSpread  = quantity.Length(0.0015) // a ruler read twice, to half a division each
)

// VolumeByBuckets returns the water of n buckets (0.1 to 1000, the last may be
// part of one) filled to a mark (0.1 to 200 L).
func VolumeByBuckets(n quantity.Count, each quantity.Volume) (quantity.Volume, *working.Trail, error) {
	err := first(working.InRange("buckets", "q.water.buckets", n.Value(), quantity.Count(0.1).Value(), quantity.Count(1000).Value()),
		acceptVolume("bucket", "q.water.bucket", each, quantity.Litres(0.1), quantity.Litres(200)))
	if err != nil {
		return 0, nil, err
	}
	v := quantity.Volume(float64(n) * float64(each))
	return v, working.New("ask.water.volume_carried").
		Given("n", "q.water.buckets", n.Value()).Given("V_b", "q.water.bucket", each.Value()).
		Step("V", "q.water.volume_changed", "V = n·V_b", v.Value(), working.Algebra).
		Between((v * (1 - bucketSpread)).Value(), (v * (1 + bucketSpread)).Value(), "assume.water.bucket_mark"), nil
}

// VolumeByDrop returns the water that leaves a tank with upright walls when its
// level falls by drop (1 mm to depth), where depth is the water above the bed (1 mm
// to 5 m) and surface the open area inside the walls (0.001 to 100 m²). It
// refuses a drop into the bed, where the area is no longer that of the surface.
func VolumeByDrop(surface quantity.Area, depth, drop quantity.Length) (quantity.Volume, *working.Trail, error) {
	err := first(working.InRange("surface", "q.water.surface", surface.Value(), quantity.Area(0.001).Value(), quantity.Area(100).Value()),
		working.InRange("depth", "q.water.depth_above_bed", depth.Value(), quantity.Length(0.001).Value(), quantity.Length(5).Value()),
		working.InRange("drop", "q.water.drop_of_level", drop.Value(), quantity.Length(0.001).Value(), depth.Value()))
	if err != nil {
		return 0, nil, err
	}
	v := quantity.Volume(float64(surface) * float64(drop))
	off := quantity.Volume(float64(surface) * float64(rulerSpread))
	return v, working.New("ask.water.volume_dropped").
		Given("A", "q.water.surface", surface.Value()).Given("d", "q.water.depth_above_bed", depth.Value()).Given("h", "q.water.drop_of_level", drop.Value()).
		Step("V", "q.water.volume_changed", "V = A·h", v.Value(), working.Algebra).
		Between(max(0, v-off).Value(), (v + off).Value(), "assume.water.ruler").
		Assume("assume.water.rocks_in_band"), nil
}

// ShareChanged returns which share of a tank (1 L to 100 000 L) a volume is. It
// refuses more than the tank holds.
func ShareChanged(changed, tank quantity.Volume) (quantity.Ratio, *working.Trail, error) {
	err := first(acceptVolume("tank", "q.water.tank_volume", tank, smallestTank, largestTank), acceptVolume("changed", "q.water.volume_changed", changed, 0, tank))
	if err != nil {
		return 0, nil, err
	}
	f := quantity.Ratio(changed / tank)
	return f, working.New("ask.water.share_changed").
		Given("V", "q.water.volume_changed", changed.Value()).Given("V_t", "q.water.tank_volume", tank.Value()).
		Step("f", "q.water.fraction", "f = V/V_t", f.Value(), working.Algebra), nil
}

// GentleShare returns the largest part of a wanted change (WaterPair.Fraction)
// that stays within every limit of GentleChange which depends on its size, and
// the name of the limit that holds it back, empty where none does: its size, the
// move of the tank's temperature, pH and dissolved solids. Rules of thumb.
func GentleShare(p WaterPair) (quantity.Ratio, working.Key, *working.Trail, error) {
	if _, err := GentleChange(p); err != nil { // accepts the input
		return 0, "", nil, err
	}
	best, why := p.Fraction, working.Key("")
	lower := func(f quantity.Ratio, by working.Key) {
		if f < best {
			best, why = f, by
		}
	}
	most := routineFraction
	if p.Emergency {
		most = emergencyFraction
	}
	lower(most, "q.water.change_size")
	t := working.New("ask.water.gentle_share").As(working.RuleOfThumb).Cites(working.Trade).
		Given("f_w", "q.water.fraction", p.Fraction.Value()).Given("T_t", "q.water.tank_temperature", p.Tank.Value()).Given("T_n", "q.water.new_temperature", p.New.Value()).
		Step("f_1", "q.water.change_size", "f_1 = f_max", most.Value(), working.Trade)
	if gap := math.Abs(float64(p.New - p.Tank)); gap > 0 {
		f := quantity.Ratio(math.Min(1, float64(newWaterWithin)/gap))
		t.Step("f_2", "q.water.new_gap", "f_2 = 2 K/|T_n − T_t|", f.Value(), working.Trade)
		lower(f, "q.water.new_gap")
	}
	if p.TankPH != nil && p.NewPH != nil {
		f := quantity.Ratio(bisect(0, 1, func(x float64) bool {
			m, _, err := MixPH(*p.TankPH, *p.NewPH, quantity.Ratio(x), p.Tank)
			return err == nil && math.Abs(float64(m.PH-p.TankPH.PH)) < float64(phStep)
		}))
		t.Step("f_3", "q.water.ph_step", "|pH(f_3) − pH| = 0.3", f.Value(), working.Trade)
		lower(f, "q.water.ph_step")
	}
	if p.TankTDS != nil && p.NewTDS != nil {
		if s := math.Abs(float64(*p.NewTDS-*p.TankTDS) / float64(*p.TankTDS)); s > 0 {
			f := quantity.Ratio(math.Min(1, float64(tdsStep)/s))
			t.Step("f_4", "q.water.tds_step", "f_4 = 0.2·S_t/|S_n − S_t|", f.Value(), working.Trade)
			lower(f, "q.water.tds_step")
		}
	}
	t.Step("f", "q.water.gentle_share", "f = min(f_w; f_1; f_2; f_3; f_4)", best.Value(), working.Algebra)
	return best, why, t, nil
}
