package reckon

import (
	"time"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
)

const (
	aHome = `{
    "tank": {"value": 112, "unit": "l"}, "net": {"value": 95, "unit": "l"}, "length": {"value": 79, "unit": "cm"}, "width": {"value": 33, "unit": "cm"},
    "water": {"temperature": {"value": 24, "unit": "degc"}, "ph": {"value": 7, "unit": "ph"}, "gh": {"value": 8, "unit": "dgh"}},
    "age": {"value": 20, "unit": "wk"}, "media": {"value": 0.9, "unit": "m2"}
  }`
	aStock = `[
    {"code": "paracheirodon-innesi", "count": 10, "length": {"value": 3, "unit": "cm"}},
    {"code": "corydoras-panda", "count": 6, "planned": true},
    {"code": "trichogaster-chuna", "count": 2, "males": 1, "planned": true}
  ]`
)

// twoVisits is two visits, a day apart, that saw nothing.
const twoVisits = `[
    {"ammonia": {"value": {"value": 0, "unit": "mg/l", "basis": "n"}, "at": "2026-11-23T08:00:00Z"},
     "nitrite": {"value": {"value": 0, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-23T08:05:00Z"}, "mature": true, "gasping": false},
    {"ammonia": {"value": {"value": 0, "unit": "mg/l", "basis": "n"}, "at": "2026-11-24T09:00:00Z"},
     "nitrite": {"value": {"value": 0, "unit": "mg/l", "basis": "ion"}, "at": "2026-11-24T09:05:00Z"}, "mature": true, "gasping": false}
  ]`

// stocked is a home with its animals.
type stocked struct {
	Home fish.Home  `json:"home"`
	Lots []fish.Lot `json:"lots"`
}

func init() {
	type coded struct {
		Code fish.Code `json:"code"`
	}
	add("fish.animal", func(in coded) (fish.Animal, error) {
		a, err := fish.Get(in.Code)
		if err != nil {
			return fish.Animal{}, err
		}
		return *a, nil
	}, `{"code": "paracheirodon-innesi"}`)
	type found struct {
		Code       fish.Code   `json:"code"`
		Name       working.Key `json:"name"`
		Scientific string      `json:"scientific"`
	}
	add("fish.find", func(in fish.Filter) (list[found], error) {
		if in.Water != nil {
			if err := in.Water.Accept(); err != nil {
				return list[found]{}, err
			}
		}
		out := list[found]{Items: []found{}}
		for _, a := range fish.Find(in, nil) {
			out.Items = append(out.Items, found{a.Code, a.Code.Name(), a.Scientific})
		}
		return out, nil
	}, `{"groups": ["tetra", "corydoras"], "zones": ["middle"], "temper": ["peaceful"], "most": {"value": 5, "unit": "cm"}, "tank": {"value": 60, "unit": "l"},
  "water": {"temperature": {"value": 25, "unit": "degc"}}}`)
	add("fish.together", func(in stocked) (fish.Together, error) { return fish.Judge(in.Home, in.Lots) }, `{"home": `+aHome+`, "lots": `+aStock+`}`)
	add("fish.capacity", func(in stocked) (fish.Capacity, error) { return fish.CapacityOf(in.Home, in.Lots) }, `{"home": `+aHome+`, "lots": `+aStock+`}`)
	type more struct {
		Home fish.Home  `json:"home"`
		Lots []fish.Lot `json:"lots,omitempty"`
		Code fish.Code  `json:"code"`
	}
	add("fish.room", func(in more) (fish.Room, error) { return fish.RoomFor(in.Home, in.Lots, in.Code) },
		`{"home": `+aHome+`, "lots": `+aStock+`, "code": "paracheirodon-innesi"}`)
	add("fish.fit", func(in more) (fish.Fit, error) { return fish.FitOf(in.Home, in.Lots, in.Code) },
		`{"home": `+aHome+`, "lots": `+aStock+`, "code": "hyphessobrycon-herbertaxelrodi"}`)
	add("fish.fit_all", func(in stocked) (list[fish.Fit], error) {
		all, err := fish.Fits(in.Home, in.Lots)
		return list[fish.Fit]{all}, err
	}, `{"home": `+aHome+`, "lots": `+aStock+`}`)
	type wanted struct {
		Home fish.Home  `json:"home"`
		Lots []fish.Lot `json:"lots,omitempty"`
		Code fish.Code  `json:"code,omitempty"` // what does not fit, if anything
		Most int        `json:"most"`
	}
	add("fish.fits", func(in wanted) (list[fish.Suggestion], error) {
		s, err := fish.Suggest(in.Home, in.Lots, in.Code, in.Most)
		return list[fish.Suggestion]{s}, err
	}, `{"home": `+aHome+`, "lots": `+aStock+`, "code": "carassius-auratus-fancy", "most": 5}`)
	add("fish.plan", fish.PlanOf, `{
  "home": `+aHome+`,
  "wish": [{"code": "paracheirodon-innesi", "count": 10}, {"code": "corydoras-panda", "count": 6}],
  "tests": `+twoVisits+`,
  "at": "2026-11-25T08:00:00Z", "quarantine": "in_the_tank"
}`)
	type tested struct {
		Tests []water.Tests `json:"tests,omitempty"`
		At    time.Time     `json:"at"`
	}
	add("fish.gate", func(in tested) (fish.Gate, error) {
		if in.At.IsZero() {
			return fish.Gate{}, working.Refuse("at", "refuse.missing")
		}
		return fish.GateOf(in.Tests, in.At), nil
	}, `{"tests": `+twoVisits+`, "at": "2026-11-25T08:00:00Z"}`)
	addFood()
}

// addFood adds mass, growth and food.
func addFood() {
	type measured struct {
		Code   fish.Code       `json:"code"`
		Length quantity.Length `json:"length"`
	}
	add("fish.weight", func(in measured) (of[quantity.Mass], error) { return traced(fish.WeightOf(in.Code, in.Length)) },
		`{"code": "poecilia-reticulata", "length": {"value": 3.5, "unit": "cm"}}`)
	type growing struct {
		Code   fish.Code       `json:"code"`
		Length quantity.Length `json:"length"`
		After  quantity.Time   `json:"after"`
	}
	add("fish.growth", func(in growing) (of[fish.Growth], error) { return traced(fish.GrowthOf(in.Code, in.Length, in.After)) },
		`{"code": "pterophyllum-scalare", "length": {"value": 4, "unit": "cm"}, "after": {"value": 26, "unit": "wk"}}`)
	add("fish.ration", func(in fish.Feeding) (of[fish.Ration], error) { return traced(fish.RationOf(in)) }, `{
  "lots": `+aStock+`, "temperature": {"value": 24, "unit": "degc"}, "net": {"value": 95, "unit": "l"}, "protein": {"value": 45, "unit": "percent"},
  "twenty": {"value": 0.8, "unit": "g"}, "last": ["leftovers", "clean_floor"]
}`)
	type twenty struct {
		Twenty quantity.Mass `json:"twenty"`
	}
	add("fish.pinch", func(in twenty) (of[quantity.Mass], error) { return traced(fish.PinchOf(in.Twenty)) }, `{"twenty": {"value": 0.8, "unit": "g"}}`)
}
