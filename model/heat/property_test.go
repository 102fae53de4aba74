package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func anyEnclosure(t *rapid.T) Enclosure {
	side := func(name string) quantity.Length {
		return quantity.Length(rapid.Float64Range(0.15, 2).Draw(t, name))
	}
	e := Enclosure{Length: side("length"), Width: side("width"), Height: side("height"),
		Material: rapid.SampledFrom([]Material{Glass, Acrylic}).Draw(t, "material"),
		Cover:    rapid.SampledFrom([]Cover{Open, Lid}).Draw(t, "cover"),
		Support:  rapid.SampledFrom([]Support{OnWood, OnFoam}).Draw(t, "support")}
	e.Wall = quantity.Length(rapid.Float64Range(0.003, 0.02).Draw(t, "wall"))
	return e
}

func temperature(t *rapid.T, name string, low, high float64) quantity.Temperature {
	return quantity.Temperature(rapid.Float64Range(low, high).Draw(t, name))
}

func TestLossGrowsWithDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEnclosure(t)
		room := temperature(t, "room", -10, 45)
		h := quantity.Ratio(rapid.Float64Range(0, 1).Draw(t, "humidity"))
		cool, warm := temperature(t, "a", 0, 45), temperature(t, "b", 0, 45)
		if cool > warm {
			cool, warm = warm, cool
		}
		a, err := Loss(e, cool, room, h)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Loss(e, warm, room, h)
		if err != nil {
			t.Fatal(err)
		}
		if b.Total < a.Total-1e-6 {
			t.Fatalf("room %v: %v at %v, but %v at %v", room, a.Total, cool, b.Total, warm)
		}
		if math.Abs(float64(a.Walls+a.Bottom+a.Surface-a.Total)) > 1e-9*(1+math.Abs(float64(a.Total))) {
			t.Fatalf("parts %v + %v + %v are not the total %v", a.Walls, a.Bottom, a.Surface, a.Total)
		}
		if a.Evaporation < 0 || a.EvaporationLow > a.Evaporation || a.Evaporation > a.EvaporationHigh || a.Low > a.Total || a.Total > a.High {
			t.Fatalf("ranges out of order: %+v", a)
		}
		if !a.Trail.Finite() || !b.Trail.Finite() {
			t.Fatal("not a number in the working")
		}
	})
}

func TestNothingFlowsInEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, x := anyEnclosure(t), temperature(t, "temperature", 0, 45)
		r, err := Loss(e, x, x, 1)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(r.Total)) > 1e-9 || r.Conductance.Known() {
			t.Fatalf("%v lost at %v without a difference in saturated air", r.Total, x)
		}
	})
}

func TestLidAndFoamNeverCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEnclosure(t)
		room := temperature(t, "room", 0, 30)
		water := temperature(t, "water", float64(room)+1, 45)
		h := quantity.Ratio(rapid.Float64Range(0, 1).Draw(t, "humidity"))
		e.Cover, e.Support = Open, OnWood
		open, err := Loss(e, water, room, h)
		if err != nil {
			t.Fatal(err)
		}
		e.Cover, e.Support = Lid, OnFoam
		shut, err := Loss(e, water, room, h)
		if err != nil {
			t.Fatal(err)
		}
		if shut.Total >= open.Total || shut.Evaporation > open.Evaporation {
			t.Fatalf("with lid and foam %v, without %v", shut.Total, open.Total)
		}
	})
}

func TestBlendIsUndoneByMixing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := temperature(t, "cold", 0, 90)
		hot := temperature(t, "hot", float64(cold)+1, 95)
		target := temperature(t, "target", float64(cold), float64(hot))
		b, err := Blend(hot, cold, target)
		if err != nil {
			t.Fatal(err)
		}
		const litres = 10
		v := quantity.Litres(litres)
		mixed := (b.Hot(v).Litres()*float64(hot) + b.Cold(v).Litres()*float64(cold)) / litres
		if math.Abs(mixed-float64(target)) > 1e-9 {
			t.Fatalf("%v of %v in %v gives %v, wanted %v", b.HotShare, hot, cold, mixed, target)
		}
	})
}

func TestLargestChangeIsExactlyGentle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tank, fresh := temperature(t, "tank", 0, 45), temperature(t, "fresh", 0, 45)
		limit := quantity.TemperatureDifference(rapid.Float64Range(0.1, 10).Draw(t, "limit"))
		s, err := LargestChange(tank, fresh, limit)
		if err != nil {
			t.Fatal(err)
		}
		c, err := Change(tank, fresh, s.Share)
		if err != nil {
			t.Fatal(err)
		}
		shift := math.Abs(float64(c.Shift))
		if shift > float64(limit)+1e-9 || (s.Share < 1 && shift < float64(limit)-1e-9) {
			t.Fatalf("share %v shifts by %v, limit %v", s.Share, shift, limit)
		}
	})
}

func TestCoolingConverges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEnclosure(t)
		in := PowerCutInput{Enclosure: e, Water: quantity.Volume(e.Length*e.Width*e.Height) * 0.8,
			Start: temperature(t, "start", 15, 40), Room: temperature(t, "room", 5, 35),
			Humidity: quantity.Ratio(rapid.Float64Range(0.2, 0.9).Draw(t, "humidity")), Lasts: 14 * day, Watch: 20}
		if in.Water > volumeMax {
			in.Water = volumeMax
		}
		r, err := PowerCut(in)
		if err != nil {
			t.Fatal(err)
		}
		// The curve goes one way, and towards the temperature of no loss: what is lost
		// at its end is less than at its beginning.
		first, err := Loss(e, in.Start, in.Room, in.Humidity)
		if err != nil {
			t.Fatal(err)
		}
		last, err := Loss(e, r.End, in.Room, in.Humidity)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(last.Total)) > math.Abs(float64(first.Total))+1e-3 {
			t.Fatalf("loss grew from %v to %v", first.Total, last.Total)
		}
		down := first.Total > 0
		for i := 1; i < len(r.Curve); i++ {
			d := r.Curve[i].Water - r.Curve[i-1].Water
			if (down && d > 1e-5) || (!down && d < -1e-5) {
				t.Fatalf("curve turns at %v: %v", r.Curve[i].At, d)
			}
		}
		if len(r.Curve) != curvePoints+1 {
			t.Fatalf("%d points, expected %d", len(r.Curve), curvePoints+1)
		}
	})
}

func TestWatchLiesOnTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEnclosure(t)
		in := PowerCutInput{Enclosure: e, Water: min(volumeMax, quantity.Volume(e.Length*e.Width*e.Height)*0.8),
			Start: 25, Room: temperature(t, "room", 10, 22), Humidity: 0.5, Lasts: 48 * hour, Watch: temperature(t, "watch", 12, 24.9)}
		r, err := PowerCut(in)
		if err != nil {
			t.Fatal(err)
		}
		if r.Reaches != (r.End <= in.Watch) {
			t.Fatalf("end %v, watch %v, reached %v", r.End, in.Watch, r.Reaches)
		}
		if !r.Reaches || r.ReachesAfter.X < 600 {
			return
		}
		in.Lasts = quantity.Time(r.ReachesAfter.X)
		again, err := PowerCut(in)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(again.End-in.Watch)) > 0.002 {
			t.Fatalf("after %v it is %v, expected %v", in.Lasts, again.End, in.Watch)
		}
	})
}

// A tank typed in inches, gallons and Fahrenheit loses what the same tank typed
// in centimetres, litres and Celsius does.
func TestUnitsDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := func(x float64, c quantity.UnitCode) float64 {
			u := quantity.MustUnit(c)
			base := u.ToBase(x)
			m, ok := quantity.Measure{Number: trim(u.FromBase(base)), Unit: c}, true
			v, err := m.Value()
			if err != nil || !ok {
				t.Fatal(err)
			}
			return v.X
		}
		loss := func(l, w, h float64, side quantity.UnitCode, water, room float64, temp quantity.UnitCode) LossResult {
			r, err := Loss(Enclosure{Length: quantity.Length(typed(l, side)), Width: quantity.Length(typed(w, side)), Height: quantity.Length(typed(h, side)), Wall: 0.006},
				quantity.Temperature(typed(water, temp)), quantity.Temperature(typed(room, temp)), 0.5)
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		in := func(n string) float64 { return float64(rapid.IntRange(8, 60).Draw(t, n)) }
		l, w, h := in("length"), in("width"), in("height")
		water, room := float64(rapid.IntRange(20, 30).Draw(t, "water")), float64(rapid.IntRange(5, 30).Draw(t, "room"))
		us := loss(l, w, h, "in", water*1.8+32, room*1.8+32, "degf")
		metric := loss(l*2.54, w*2.54, h*2.54, "cm", water, room, "degc")
		if math.Abs(float64(us.Total-metric.Total)) > 1e-6*math.Max(1, math.Abs(float64(metric.Total))) {
			t.Fatalf("US %v, metric %v", us.Total, metric.Total)
		}
	})
}

func TestHeaterAlwaysHasItsReserve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := anyEnclosure(t)
		in := HeaterInput{Enclosure: e, Water: min(volumeMax, quantity.Volume(e.Length*e.Width*e.Height)*0.8),
			SetPoint: temperature(t, "set", 22, 30), RoomLow: temperature(t, "low", -10, 21.5), Start: temperature(t, "start", 10, 25), Humidity: 0.5}
		in.RoomUsual = in.RoomLow + temperature(t, "more", 0, 10)
		r, err := HeaterSize(in)
		if err != nil {
			var ref *working.Refusal
			if !asRefusal(err, &ref) || ref.Code != "refuse.heat.too_large" {
				t.Fatal(err)
			}
			return
		}
		if r.Installed < r.Need {
			t.Fatalf("%v installed, %v needed", r.Installed, r.Need)
		}
		if r.Count == 1 && r.Need > twoHeatersAt || r.Count == 2 && r.Need <= twoHeatersAt {
			t.Fatalf("%d heaters for %v", r.Count, r.Need)
		}
		if r.Checks[0].State != working.Steady || !r.WarmUp.Reached || !(r.WarmUp.Time.X >= 0) {
			t.Fatalf("the heater of our choice does not do: %+v", r.Checks[0])
		}
		if !r.Trail.Finite() || !r.Runaway.Trail.Finite() || !r.WarmUp.Trail.Finite() {
			t.Fatal("not a number in a working")
		}
		// A heater two sizes stronger warms faster and runs further away.
		big, err := HeaterCheck(in, r.Size*2, r.Count)
		if err != nil {
			t.Fatal(err)
		}
		if big.WarmUp.Time.X > r.WarmUp.Time.X || big.Runaway.Check.Use < r.Runaway.Check.Use {
			t.Fatal("a stronger heater is slower or safer")
		}
	})
}

// The pump delivers less through a longer hose and against more lift.
func TestOperatingPointFallsWithResistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pump{Head: quantity.Length(rapid.Float64Range(0.5, 5).Draw(t, "head")), Flow: quantity.Flow(rapid.Float64Range(200, 4000).Draw(t, "flow") / 3.6e6)}
		h := Hose{Bore: quantity.Millimetres(rapid.Float64Range(6, 40).Draw(t, "bore")), Length: quantity.Length(rapid.Float64Range(0, 5).Draw(t, "length")),
			Fittings: quantity.Ratio(rapid.Float64Range(0, 50).Draw(t, "fittings")), Lift: quantity.Length(rapid.Float64Range(0, 0.4).Draw(t, "lift"))}
		a, err := FilterOperatingPoint(p, h)
		if err != nil {
			t.Fatal(err)
		}
		h.Length += 1
		h.Lift += 0.05
		b, err := FilterOperatingPoint(p, h)
		if err != nil {
			t.Fatal(err)
		}
		if b.Flow > a.Flow*(1+1e-9) || a.Flow > p.Flow {
			t.Fatalf("flow %v, with more resistance %v, pump %v", a.Flow, b.Flow, p.Flow)
		}
	})
}
