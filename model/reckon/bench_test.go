package reckon

import (
	"encoding/json"
	"math"
	"os/exec"
	"testing"
	"time"

	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
)

// race is what nitrogen.py race prints: the same sixty days by other solvers.
type race struct {
	LSODASeconds float64    `json:"lsoda_seconds"`
	LSODA        [6]float64 `json:"lsoda"`
	RadauSeconds float64    `json:"radau_seconds"`
	Radau        [6]float64 `json:"radau"`
}

// BenchmarkSixtyDaysBesideSolveIVP runs sixty days with fish beside scipy's
// solve_ivp in the same run: LSODA at rtol 1e-6, and Radau at rtol 1e-11 for the
// errors, which are the largest of the end's six figures, relative. Without scipy
// there are no ratios.
func BenchmarkSixtyDaysBesideSolveIVP(b *testing.B) {
	const day = quantity.Time(86400)
	meq := quantity.MustUnit("meq/l")
	tap := nitrogen.Tap{Nitrate: 1, Alkalinity: quantity.Hardness(meq.ToBase(2.14))}
	plan := nitrogen.Plan{Way: nitrogen.WithFish, Temperature: 25, Load: 0.09315, Tap: tap}
	start, events, err := plan.Schedule(nitrogen.Defaults(), 60*day)
	if err != nil {
		b.Fatal(err)
	}
	var r nitrogen.Result
	begin := time.Now()
	for b.Loop() {
		if r, _, err = nitrogen.Run(nitrogen.Defaults(), start, events, 60*day, day/2); err != nil {
			b.Fatal(err)
		}
	}
	ours := time.Since(begin).Seconds() / float64(b.N)
	b.ReportMetric(ours*1000, "ms")
	if exec.Command(python(), "-c", "import scipy").Run() != nil {
		b.Log("no ratios: scipy is not there")
		return
	}
	var other race
	if err := json.Unmarshal(script(b, "nitrogen", "race"), &other); err != nil {
		b.Fatal(err)
	}
	s := r.End
	end := [6]float64{float64(s.Ammonia), float64(s.Nitrite), float64(s.Nitrate), float64(s.EatersA), float64(s.EatersN), meq.FromBase(float64(s.Alkalinity))}
	off := func(y [6]float64) (worst float64) {
		for i, want := range other.Radau {
			worst = max(worst, math.Abs(y[i]-want)/math.Abs(want))
		}
		return worst
	}
	b.ReportMetric(other.LSODASeconds/ours, "x_LSODA")
	b.ReportMetric(other.RadauSeconds/ours, "x_Radau")
	b.ReportMetric(1e9*off(end), "ppb_off")
	b.ReportMetric(1e9*off(other.LSODA), "ppb_off_LSODA")
}
