package heat

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Whatever comes in, a *working.Refusal or finite numbers come out.
func TestNoBadNumberLeaves(t *testing.T) {
	hostile := rapid.OneOf(
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), -1, 1e-300, 1e300, math.MaxFloat64, 0.1, 3, 45, -10, 1}),
		rapid.Float64Range(0, 1), rapid.Float64Range(-20, 60), rapid.Float64())
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		x := func(name string, usual float64) float64 {
			if rapid.IntRange(0, 9).Draw(t, name+" kept") < 9 {
				return usual
			}
			return hostile.Draw(t, name)
		}
		e := Enclosure{Length: quantity.Length(x("length", 0.6)), Width: quantity.Length(x("width", 0.3)), Height: quantity.Length(x("height", 0.4)),
			Wall: quantity.Length(x("wall", 0.005)), Material: Material(rapid.IntRange(0, 2).Draw(t, "material")),
			Cover: Cover(rapid.IntRange(0, 2).Draw(t, "cover")), Support: Support(rapid.IntRange(0, 2).Draw(t, "support"))}
		water, room := quantity.Temperature(x("water", 25)), quantity.Temperature(x("room", 18))
		humid := quantity.Ratio(x("humidity", 0.5))
		volume := quantity.Volume(x("volume", 0.06))
		look := func(tr *working.Trail, err error, numbers ...float64) {
			if err != nil {
				var r *working.Refusal
				if !errors.As(err, &r) || r.Field == "" {
					t.Fatalf("%v is no refusal of a field", err)
				}
				return
			}
			answered++
			if !tr.Finite() {
				t.Fatalf("not a number in the working of %s", tr.Ask)
			}
			for _, n := range numbers {
				if !quantity.Finite(n) {
					t.Fatalf("not a number from %s", tr.Ask)
				}
			}
		}
		l, err := Loss(e, water, room, humid)
		look(l.Trail, err, float64(l.Total), float64(l.EvaporationHigh))
		in := HeaterInput{Enclosure: e, Water: volume, SetPoint: water, RoomLow: room, RoomUsual: room + 2, Start: quantity.Temperature(x("start", 15)), Humidity: humid}
		h, err := HeaterSize(in)
		look(h.Trail, err, float64(h.Size))
		h, err = HeaterCheck(in, quantity.Power(x("power", 100)), rapid.IntRange(-1, 5).Draw(t, "count"))
		look(h.Trail, err, float64(h.Installed), h.WarmUp.Time.X, h.Runaway.Ends.X)
		p, err := PowerCut(PowerCutInput{e, volume, water, room, humid, quantity.Time(x("lasts", 8*hour)), quantity.Temperature(x("watch", 20))})
		look(p.Trail, err, float64(p.End), p.ReachesAfter.X, p.TimeConstant.X)
		w, err := WarmUp(HeatCapacity(x("capacity", 1e5)), quantity.Conductance(x("ua", 5)), quantity.Power(x("warm", 100)), room, in.Start, water)
		look(w.Trail, err, w.Time.X, float64(w.Stored), w.Drawn.X)
		b, err := Blend(quantity.Temperature(x("hot", 50)), quantity.Temperature(x("cold", 10)), water)
		look(b.Trail, err, float64(b.HotShare))
		c, err := Change(water, room, quantity.Ratio(x("share", 0.2)))
		look(c.Trail, err, float64(c.After))
		s, err := LargestChange(water, room, quantity.TemperatureDifference(x("limit", 1)))
		look(s.Trail, err, float64(s.Share))
		k, err := RunningCost(quantity.Power(x("mean", 30)), quantity.Value{Kind: quantity.KindMoney, X: x("tariff", 0.3)})
		look(k.Trail, err, float64(k.Energy), k.Cost.X)
		g, err := Plugs([]Plug{{quantity.Power(x("plug", 50)), quantity.Time(x("daily", day)), quantity.Ratio(x("duty", 1))}}, Outlet(rapid.IntRange(0, 2).Draw(t, "outlet")), quantity.Value{})
		look(g.Trail, err, float64(g.AllOn), float64(g.Mean), g.Check.Use)
		f, err := RequiredFlow(volume)
		look(f.Trail, err, float64(f.LabelHigh))
		u, err := Turnover(quantity.Flow(x("label", 1e-4)), volume)
		look(u.Trail, err, u.Low, u.High, u.Check.Use)
		m, err := MediaArea(quantity.MassRate(x("food", 2)), quantity.Ratio(x("protein", 0.45)), water, true)
		look(m.Trail, err, float64(m.Area))
		hose := Hose{quantity.Length(x("bore", 0.012)), quantity.Length(x("hose", 2)), quantity.Ratio(x("fittings", 6)), quantity.Length(x("lift", 0.3))}
		d, err := HeadLoss(hose, quantity.Flow(x("flow", 1e-4)))
		look(d.Trail, err, float64(d.Loss), d.Reynolds, d.Friction)
		o, err := FilterOperatingPoint(Pump{quantity.Length(x("head", 1.2)), quantity.Flow(x("pump", 2e-4))}, hose)
		look(o.Trail, err, float64(o.Flow), float64(o.Head))
	})
	if answered == 0 {
		t.Error("everything was refused")
	}
}
