package main

import (
	"context"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/shell"
)

// First fill is walked by keyboard alone, in both languages, for both tanks, at
// both window sizes; what the pages said and what the store holds are read.
func TestFirstFillByKeyboard(t *testing.T) {
	for _, c := range []struct {
		name   string
		prefs  shell.Prefs
		size   fyne.Size
		plan   plan
		kept   map[care.FieldID]string // as the store holds what was typed
		litres [2]float64              // net volume, by hand below
	}{
		// 20 x 10 x 12 in of 3.2 mm glass is 34.35 L inside to an inch below the rim (full_mass_worked.csv
		// has 34.35 gross for 25 mm of air); gravel 1.5 to 2.5 in at 40 % pores displaces
		// 0.508·0.254·0.0508·0.6 = 3.9 L, stones 0.4 L: about 30 L.
		{"gallons in English", shell.Prefs{Lang: "en", Region: "US", Units: quantity.US, Text: 100, Still: true}, fyne.NewSize(1280, 800), gallons(),
			map[care.FieldID]string{"room.low": "64 degf", "socket.height": "42 in", "filter.flow": "80 gph_us", "frame.leg_width": "45 mm", "bag.temp": "70.7 degf", "bag.volume": "1 l"}, [2]float64{29.5, 31}},
		{"gallons in Spanish", shell.Prefs{Lang: "es", Region: "MX", Units: quantity.US, Text: 100, Still: true}, fyne.NewSize(1024, 700), gallons(),
			map[care.FieldID]string{"dose.amount": "5 ml", "dose.per": "10 gal_us"}, [2]float64{29.5, 31}},
		// 60 x 30 x 30 cm: 54 L outside.
		{"litres in English", shell.Prefs{Lang: "en", Region: "GB", Units: quantity.Metric, Text: 100, Theme: look.Dark, Still: true}, fyne.NewSize(1024, 700), dotted(litres()),
			map[care.FieldID]string{"gravel.back": "6.5 cm", "stand.rated": "150 kg", "bag.temp": "21.5 degc"}, [2]float64{40, 46}},
		{"litres in Spanish", shell.Prefs{Lang: "es", Region: "ES", Units: quantity.Metric, Text: 100, Still: true}, fyne.NewSize(1280, 800), litres(),
			map[care.FieldID]string{"gravel.back": "6.5 cm", "fish.adult": "4.5 cm"}, [2]float64{40, 46}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := newStage(test.NewTempApp(t), c.prefs, c.size)
			if err != nil {
				t.Fatal(err)
			}
			defer func() {
				if err := s.strike(); err != nil {
					t.Error(err)
				}
			}()
			said := map[care.Step]present.Page{}
			w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock, at: func(step care.Step, p present.Page, filled bool) error {
				if filled {
					said[step] = p
				}
				return nil
			}}
			if err := w.walk(c.plan); err != nil {
				t.Fatal(err)
			}
			tank := s.shell.Route().Tank
			states, net, err := kept(context.Background(), s.keeper, tank)
			if err != nil {
				t.Fatal(err)
			}
			for _, step := range care.Steps() {
				if states[step] != care.Finished {
					t.Errorf("%s is %s in the store", step, states[step])
				}
			}
			if l := net.X * 1000; l < c.litres[0] || l > c.litres[1] {
				t.Errorf("net volume %.2f L, want %v", l, c.litres)
			}
			record, err := s.keeper.Record(context.Background(), tank)
			if err != nil {
				t.Fatal(err)
			}
			for id, want := range c.kept {
				m := record.Answers[id].Measure
				if got := m.Number + " " + string(m.Unit); got != want {
					t.Errorf("the store holds %q for %s, want %q", got, id, want)
				}
			}
			words := i18n.Speak(c.prefs.Lang, c.prefs.Region, c.prefs.Units)
			if got, want := said[care.TankPlace].Number.Value, words.Quantity(net); got != want {
				t.Errorf("the first page says %q, the store gives %q", got, want)
			}
			if len(record.Acks) < 6+4 {
				t.Errorf("%d confirmations kept, want the six checks and the notes", len(record.Acks))
			}
			for _, a := range record.Acks {
				if a.Lang != c.prefs.Lang || a.Shown == "" || a.Hash == "" {
					t.Errorf("confirmation %+v lacks its text, language or source", a)
				}
			}
			kinds := map[journal.Kind]int{}
			for _, e := range record.Entries {
				kinds[e.Kind]++
			}
			if kinds[journal.HomeComing] != 1 || kinds[journal.FishIn] != 1 || kinds[journal.Powered] != 1 || kinds[journal.Filled] != 1 {
				t.Errorf("entries %v", kinds)
			}
			floatTime(t, record)
			for _, m := range i18n.Missing() {
				t.Errorf("message missing: %s", m)
			}
		})
	}
}

// floatTime checks the float of a litre against the reference table bag_float.csv:
// 4 K apart, U 80: 26.8 min to within 1 K. The gaps of the walks are 3.5 K.
func floatTime(t *testing.T, r care.Record) {
	t.Helper()
	plan, _, err := care.NewFacts(&r).Float()
	if err != nil {
		t.Fatal(err)
	}
	const tau = 19.31 // minutes for 1 L; a small tank shortens it by V/(V+v)
	got := float64(plan.Times[1].Likely) / 60
	want := tau * math.Log(3.5)
	if got > want*1.02 || got < want*0.93 {
		t.Errorf("float %.1f min, want just under %.1f", got, want)
	}
}

// dotted writes the plan's decimal commas as points.
func dotted(p plan) plan {
	for _, as := range p.answers {
		for i, a := range as {
			b := []rune(a.text)
			for j := range b {
				if b[j] == ',' {
					b[j] = '.'
				}
			}
			as[i].text = string(b)
		}
	}
	return p
}

// kept reads what the store holds after a walk.
func kept(ctx context.Context, k *keeper.Keeper, tank string) (map[care.Step]care.StepState, quantity.Value, error) {
	v, _, err := k.FirstFill(ctx, tank, care.TankPlace)
	if err != nil {
		return nil, quantity.Value{}, err
	}
	states := map[care.Step]care.StepState{}
	for _, s := range v.Steps {
		states[s.Step] = s.State
	}
	if v.Page.Headline == nil {
		return states, quantity.Value{}, nil
	}
	return states, v.Page.Headline.Value, nil
}
