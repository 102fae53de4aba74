package fish

import (
	"testing"

	"example.org/driploop/model/quantity"
)

// crowd is thirty kinds in one large tank.
func crowd() (Home, []Lot) {
	var lots []Lot
	for i, a := range load().list {
		if i%4 == 0 && len(lots) < 30 {
			lots = append(lots, Lot{Code: a.Code, Count: a.MinGroup})
		}
	}
	h := homeOf(2000, 300, 100, 25)
	h.Age = weeks(40)
	return h, lots
}

// BenchmarkVerdict is the whole judgement of a stock of thirty kinds, beside a loop
// that only looks at the lengths of all their pairs.
func BenchmarkVerdict(b *testing.B) {
	h, lots := crowd()
	if len(lots) != 30 {
		b.Fatal(len(lots))
	}
	b.Run("judge", func(b *testing.B) {
		for b.Loop() {
			if _, err := Judge(h, lots); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("reference", func(b *testing.B) {
		kinds, longer := kindsOf(lots), 0
		for b.Loop() {
			for i := range kinds {
				for n := range kinds {
					if kinds[i].cm > kinds[n].cm {
						longer++
					}
				}
			}
		}
		if longer == 0 {
			b.Fatal("no pair differs")
		}
	})
}

// BenchmarkFits tries the catalogue beside a stock, beside a loop that only reads
// each kind's least tank.
func BenchmarkFits(b *testing.B) {
	h := homeOf(250, 120, 50, 25)
	h.Age = weeks(40)
	lots := []Lot{{Code: neonCode, Count: 12}, {Code: "corydoras-sterbai", Count: 6}, {Code: "trichogaster-chuna", Count: 2}}
	_, many := crowd()
	for name, stock := range map[string][]Lot{"three kinds": lots, "thirty kinds": many} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Suggest(h, stock, "", 20); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("reference", func(b *testing.B) {
		n, tank := 0, quantity.Litres(250)
		for b.Loop() {
			for _, a := range load().list {
				if a.LeastTank <= tank {
					n++
				}
			}
		}
		if n == 0 {
			b.Fatal("no kind fits")
		}
	})
}
