package reckon

import (
	"time"

	"example.org/driploop/model/nitrogen"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

const aTap = `{
    "ammonia": {"value": 0, "unit": "mg/l", "basis": "n"}, "nitrite": {"value": 0, "unit": "mg/l", "basis": "n"},
    "nitrate": {"value": 5, "unit": "mg/l", "basis": "ion"}, "alkalinity": {"value": 6, "unit": "dkh"}
  }`

const aPlan = `{
  "way": "fishless", "temperature": {"value": 25, "unit": "degc"}, "load": {"value": 0.3, "unit": "mg/l/d", "basis": "n"},
  "tap": ` + aTap + `
}`

// event is an event in JSON: a time and just one thing that is done.
type event struct {
	At         quantity.Time        `json:"at"`
	Dose       *nitrogen.Dose       `json:"dose"`
	Change     *nitrogen.Change     `json:"change"`
	Production *nitrogen.Production `json:"production"`
	Stock      *nitrogen.Stock      `json:"stock"`
	Setting    *nitrogen.Setting    `json:"setting"`
}

// action is the one thing that is done.
func (e event) action() (nitrogen.Action, error) {
	var out []nitrogen.Action
	if e.Dose != nil {
		out = append(out, *e.Dose)
	}
	if e.Change != nil {
		out = append(out, *e.Change)
	}
	if e.Production != nil {
		out = append(out, *e.Production)
	}
	if e.Stock != nil {
		out = append(out, *e.Stock)
	}
	if e.Setting != nil {
		out = append(out, *e.Setting)
	}
	if len(out) != 1 {
		return nil, working.Refuse("events", "refuse.reckon.one_thing")
	}
	return out[0], nil
}

// mostEvents is more than one an hour for a year would ever be worth. // judgement
const mostEvents = 2000

// following is the input of nitrogen.run.
type following struct {
	Figures nitrogen.Params `json:"figures,omitzero"`
	Start   nitrogen.Start  `json:"start"`
	Events  []event         `json:"events,omitempty"`
	Until   quantity.Time   `json:"until"`
	Step    quantity.Time   `json:"sample_step"`
}

func (in following) run() (of[nitrogen.Result], error) {
	if n := quantity.Count(len(in.Events)); n > mostEvents {
		return of[nitrogen.Result]{}, working.Outside("events", "q.reckon.events", n.Value(), quantity.Count(0).Value(), quantity.Count(mostEvents).Value())
	}
	events := make([]nitrogen.Event, len(in.Events))
	for i, e := range in.Events {
		do, err := e.action()
		if err != nil {
			return of[nitrogen.Result]{}, err
		}
		events[i] = nitrogen.Event{At: e.At, Do: do}
	}
	return traced(nitrogen.Run(in.Figures, in.Start, events, in.Until, in.Step))
}

func init() {
	addFrom("nitrogen.run", func() following { return following{Figures: nitrogen.Defaults()} }, following.run, `{
  "start": {
    "state": {
      "ammonia": {"value": 2, "unit": "mg/l", "basis": "n"}, "nitrite": {"value": 0, "unit": "mg/l", "basis": "n"},
      "nitrate": {"value": 1, "unit": "mg/l", "basis": "n"}, "alkalinity": {"value": 6, "unit": "dkh"},
      "eaters_a": {"value": 0.001, "unit": "mg/l"}, "eaters_n": {"value": 0.0005, "unit": "mg/l"}
    },
    "temperature": {"value": 25, "unit": "degc"},
    "production": {"rate": {"value": 0, "unit": "mg/l/d", "basis": "n"}, "returns": 1}
  },
  "events": [
    {"at": {"value": 14, "unit": "d"}, "dose": {"ammonia": {"value": 1, "unit": "mg/l", "basis": "n"}, "returns": 0}},
    {"at": {"value": 28, "unit": "d"}, "change": {"fraction": {"value": 50, "unit": "percent"}, "tap": `+aTap+`}}
  ],
  "until": {"value": 42, "unit": "d"}, "sample_step": {"value": 1, "unit": "d"}
}`)
	add("nitrogen.maturing", func(in nitrogen.Plan) (of[nitrogen.Duration], error) { return traced(nitrogen.Maturing(in)) }, aPlan)
	add("nitrogen.compare", func(in nitrogen.Plan) (list[nitrogen.Duration], error) {
		ds, err := nitrogen.Compare(in)
		return list[nitrogen.Duration]{ds}, err
	}, aPlan)
	addSchedule()
	type feeding struct {
		Feed    quantity.MassRate `json:"feed"`
		Protein quantity.Ratio    `json:"protein"`
		Tank    quantity.Volume   `json:"tank"`
	}
	add("nitrogen.load", func(in feeding) (of[nitrogen.Load], error) {
		return traced(nitrogen.LoadOf(in.Feed, in.Protein, in.Tank))
	},
		`{"feed": {"value": 0.2, "unit": "g/d"}, "protein": {"value": 45, "unit": "percent"}, "tank": {"value": 32, "unit": "l"}}`)
	add("nitrogen.ammonia_dose", func(in nitrogen.AmmoniaDose) (of[quantity.Value], error) { return traced(in.Amount()) },
		`{"target": {"value": 2, "unit": "mg/l", "basis": "n"}, "tank": {"value": 32, "unit": "l"}, "kind": "solution", "share": {"value": 9.5, "unit": "percent"}}`)
	add("nitrogen.figures", func(nothing) (list[nitrogen.Sheet], error) {
		return list[nitrogen.Sheet]{nitrogen.DefaultSheet()}, nil
	}, `{}`)
	type sampled struct {
		Sample      nitrogen.Sample      `json:"sample"`
		Start       time.Time            `json:"start"`
		Temperature quantity.Temperature `json:"temperature"`
	}
	type read struct {
		Tests    water.Tests
		Findings []working.Finding
	}
	add("nitrogen.readings", func(in sampled) (read, error) {
		if err := working.InRange("at", "q.nitrogen.at", in.Sample.At.Value(), quantity.Time(0).Value(), quantity.Time(400*86400).Value()); err != nil {
			return read{}, err
		}
		t := in.Sample.Readings(in.Start, in.Temperature)
		for _, x := range water.AllTests() {
			if r := t.Of(x); r.Known() {
				if err := x.Accept(r); err != nil {
					return read{}, err
				}
			}
		}
		return read{t, water.Interpret(t)}, nil
	}, `{
  "sample": {
    "at": {"value": 20, "unit": "d"}, "phase": "grid",
    "state": {
      "ammonia": {"value": 0.4, "unit": "mg/l", "basis": "n"}, "nitrite": {"value": 1, "unit": "mg/l", "basis": "n"},
      "nitrate": {"value": 4, "unit": "mg/l", "basis": "n"}, "alkalinity": {"value": 5, "unit": "dkh"},
      "eaters_a": {"value": 0.1, "unit": "mg/l"}, "eaters_n": {"value": 0.01, "unit": "mg/l"}
    },
    "ph": {"value": 7.4, "unit": "ph"}, "nh3_n": {"value": 0.006, "unit": "mg/l", "basis": "n"}
  },
  "start": "2026-11-01T08:00:00Z", "temperature": {"value": 25, "unit": "degc"}
}`)
}

// addSchedule adds the usual rounds of a plan and the water they begin with.
func addSchedule() {
	type planned struct {
		Figures nitrogen.Params `json:"figures,omitzero"`
		Plan    nitrogen.Plan   `json:"plan"`
		Until   quantity.Time   `json:"until"`
	}
	type schedule struct {
		Start  nitrogen.Start
		Events []event
	}
	add := func(in planned) (schedule, error) {
		if err := working.InRange("until", "q.nitrogen.until", in.Until.Value(), quantity.Time(0).Value(), quantity.Time(400*86400).Value()); err != nil {
			return schedule{}, err
		}
		s, events, err := in.Plan.Schedule(in.Figures, in.Until)
		out := schedule{Start: s, Events: []event{}}
		for _, e := range events {
			out.Events = append(out.Events, eventOf(e))
		}
		return out, err
	}
	addFrom("nitrogen.schedule", func() planned { return planned{Figures: nitrogen.Defaults()} }, add,
		`{"plan": `+aPlan+`, "until": {"value": 45, "unit": "d"}}`)
	type fresh struct {
		Figures nitrogen.Params `json:"figures,omitzero"`
		Tap     nitrogen.Tap    `json:"tap"`
	}
	type filled struct {
		State    nitrogen.State
		Nitrogen quantity.Concentration `json:"nitrogen" reckon:"as_n"`
	}
	addFrom("nitrogen.new_tank", func() fresh { return fresh{Figures: nitrogen.Defaults()} }, func(in fresh) (filled, error) {
		if err := in.Figures.Accept(); err != nil {
			return filled{}, err
		}
		s := nitrogen.NewTank(in.Figures, in.Tap)
		return filled{s, s.Nitrogen()}, nil
	}, `{"tap": `+aTap+`}`)
}

func eventOf(e nitrogen.Event) event {
	out := event{At: e.At}
	switch a := e.Do.(type) {
	case nitrogen.Dose:
		out.Dose = &a
	case nitrogen.Change:
		out.Change = &a
	case nitrogen.Production:
		out.Production = &a
	case nitrogen.Stock:
		out.Stock = &a
	case nitrogen.Setting:
		out.Setting = &a
	}
	return out
}
