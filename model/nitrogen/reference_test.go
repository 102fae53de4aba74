package nitrogen

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"example.org/driploop/model/quantity"
)

const days = quantity.Time(secondsADay)

// meq makes an alkalinity of x meq/L.
func meq(x float64) quantity.Hardness { return quantity.Hardness(x * perEquivalent) }

// tapOfReference is the tap water of the reference runs.
var tapOfReference = Tap{Nitrate: 1, Alkalinity: meq(2.14)}

type referenceRow struct {
	line  int
	at    float64
	phase Phase
	v     []float64 // TAN NO2 NO3 XA XN ALK pH NH3 KH
}

func readReference(t testing.TB, name string) []referenceRow {
	t.Helper()
	f, err := os.Open("../../testdata/water/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	var rows []referenceRow
	for {
		rec, err := r.Read()
		if err != nil {
			break
		}
		line, _ := r.FieldPos(0)
		if rec[0] == "t_d" {
			continue
		}
		row := referenceRow{line: line, phase: Phase(rec[1])}
		row.at, err = strconv.ParseFloat(rec[0], 64)
		if err != nil {
			t.Fatalf("%s:%d: %v", name, line, err)
		}
		for _, s := range rec[2:] {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatalf("%s:%d: %v", name, line, err)
			}
			row.v = append(row.v, x)
		}
		rows = append(rows, row)
	}
	return rows
}

// TestReferenceRuns holds both preset schedules against trajectories computed
// with LSODA (rtol 1e-10), at every row and column, at the table's tolerance.
func TestReferenceRuns(t *testing.T) {
	for _, c := range []struct {
		name string
		plan Plan
		rows int
		last quantity.Time
	}{
		{"nitrification_A_fishless.csv", Plan{Fishless, 26, 0.09315, tapOfReference}, 101, 0},
		{"nitrification_B_fish_in.csv", Plan{WithFish, 25, 0.09315, tapOfReference}, 150, 63 * days},
	} {
		rows := readReference(t, c.name)
		if len(rows) != c.rows {
			t.Fatalf("%s: %d rows read, want %d", c.name, len(rows), c.rows)
		}
		until := quantity.Time(rows[len(rows)-1].at) * days
		last := until
		if c.last > 0 {
			last = c.last // the reference run makes its last change on day 63
		}
		s, evs, err := c.plan.Schedule(Defaults(), last)
		if err != nil {
			t.Fatal(err)
		}
		r, tr, err := Run(Defaults(), s, evs, until, days/2)
		if err != nil {
			t.Fatal(err)
		}
		if !tr.Finite() {
			t.Errorf("%s: trail is not finite", c.name)
		}
		if len(r.Samples) != len(rows) {
			t.Fatalf("%s: %d samples, %d rows", c.name, len(r.Samples), len(rows))
		}
		worst := 0.0
		for i, row := range rows {
			g := r.Samples[i]
			if math.Abs(float64(g.At/days)-row.at) > 1e-6 || g.Phase != row.phase {
				t.Fatalf("%s:%d: sample at %g %s, want %g %s", c.name, row.line, float64(g.At/days), g.Phase, row.at, row.phase)
			}
			y := g.State.vector()
			got := append(y[:], float64(g.PH), float64(g.NH3N), g.State.Alkalinity.Value().In(quantity.MustUnit("dkh")))
			for j, want := range row.v {
				tol := 0.005*math.Abs(want) + 0.0005 // the table's own tolerance
				worst = max(worst, math.Abs(got[j]-want)/tol)
				if !(math.Abs(got[j]-want) <= tol) {
					t.Errorf("%s:%d (LSODA reference) day %g %s column %d: want %g, got %g", c.name, row.line, row.at, row.phase, j+3, want, got[j])
				}
			}
		}
		t.Logf("%s: %d rows, worst deviation %.2g of the tolerance", c.name, len(rows), worst)
	}
}
