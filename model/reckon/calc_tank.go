package reckon

import (
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
	"example.org/driploop/model/working"
)

// set is a tank as it stands, filled and furnished.
type set struct {
	Tank     tank.Tank            `json:"tank"`
	Contents tank.Contents        `json:"contents"`
	Water    quantity.Temperature `json:"water"`
}

func (s set) measure() (tank.Full, error) { return tank.Measure(s.Tank, s.Contents, s.Water) }

// aTank is the tank of the examples: 10 US gallons by its measures.
const aTank = `{
    "shape": "box", "material": "glass", "rim": "framed", "sizes": "measured",
    "length": {"value": 20, "unit": "in"}, "width": {"value": 10, "unit": "in"}, "height": {"value": 12, "unit": "in"},
    "wall": {"value": 5, "unit": "mm"}, "bottom": {"value": 5, "unit": "mm"}
  }`

const aSet = `{
  "tank": ` + aTank + `,
  "contents": {
    "substrate": "gravel", "substrate_front": {"value": 4, "unit": "cm"}, "substrate_back": {"value": 6, "unit": "cm"},
    "rocks": [{"kind": "granite", "mass": {"value": 2, "unit": "kg"}}],
    "equipment": {"value": 1.5, "unit": "kg"}, "air_gap": {"value": 3, "unit": "cm"}
  },
  "water": {"value": 77, "unit": "degf"}`

// ofTank is the input of what a tank alone tells.
type ofTank struct {
	Tank tank.Tank `json:"tank"`
}

const anOfTank = `{
  "tank": ` + aTank + `
}`

// accepted is the first refusal of a tank as an error.
func (in ofTank) accepted() error {
	if rs := in.Tank.Check(); len(rs) > 0 {
		return rs[0]
	}
	return nil
}

func init() {
	add("tank.net_volume", func(in set) (of[tank.Full], error) {
		f, err := in.measure()
		return of[tank.Full]{f, f.NetTrail}, err
	}, aSet+"\n}")
	add("tank.full_mass", func(in set) (of[tank.Full], error) {
		f, err := in.measure()
		return of[tank.Full]{f, f.MassTrail}, err
	}, aSet+"\n}")
	type bags struct {
		Tank     tank.Tank            `json:"tank"`
		Contents tank.Contents        `json:"contents"`
		Water    quantity.Temperature `json:"water"`
		Bag      quantity.Mass        `json:"bag"`
	}
	type bagged struct {
		Bags int           `json:"bags"`
		Left quantity.Mass `json:"left"`
	}
	add("tank.bags", func(in bags) (bagged, error) {
		f, err := set{in.Tank, in.Contents, in.Water}.measure()
		if err != nil {
			return bagged{}, err
		}
		n, left, err := f.Bags(in.Bag)
		return bagged{n, left}, err
	}, aSet+`,
  "bag": {"value": 5, "unit": "lb"}
}`)
	type loaded struct{ Load load.Load }
	add("tank.load", func(in set) (loaded, error) {
		f, err := in.measure()
		return loaded{load.Of(in.Tank, f)}, err
	}, aSet+"\n}")
	type outline struct {
		Length quantity.Length `json:"length"`
		Width  quantity.Length `json:"width"`
		Height quantity.Length `json:"height"`
		Area   quantity.Area   `json:"area"`
		Radius quantity.Length `json:"radius"`
		Arc    quantity.Length `json:"arc"`
	}
	add("tank.outline", func(in ofTank) (outline, error) {
		if err := in.accepted(); err != nil {
			return outline{}, err
		}
		l, w, h := in.Tank.Outer()
		p := in.Tank.Plan()
		return outline{l, w, h, p.Area(), p.Radius(), p.Arc()}, nil
	}, anOfTank)
	add("tank.usual_thickness", func(in ofTank) (of[quantity.Length], error) {
		if in.Tank.Wall == 0 { // the very thing that is asked for
			in.Tank.Wall = quantity.Millimetres(1)
		}
		if err := in.accepted(); err != nil {
			return of[quantity.Length]{}, err
		}
		d, ok := tank.UsualThickness(in.Tank)
		if !ok {
			return of[quantity.Length]{}, working.Refuse("tank", "refuse.reckon.none")
		}
		return of[quantity.Length]{Value: d}, nil
	}, anOfTank)
	type nearest struct{ Nominal *tank.Nominal }
	add("tank.nearest", func(in ofTank) (nearest, error) {
		if err := in.accepted(); err != nil {
			return nearest{}, err
		}
		if n, ok := tank.Nearest(in.Tank); ok {
			return nearest{&n}, nil
		}
		return nearest{}, nil
	}, anOfTank)
	type named struct {
		Code string `json:"code"`
	}
	type size struct {
		Nominal tank.Nominal
		Tank    tank.Tank
	}
	add("tank.nominal", func(in named) (size, error) {
		n, ok := tank.NominalOf(in.Code)
		if !ok {
			return size{}, working.Refuse("code", "refuse.unknown")
		}
		return size{n, n.Tank()}, nil
	}, `{"code": "us_10"}`)
	add("tank.nominals", func(nothing) (list[tank.Nominal], error) { return list[tank.Nominal]{tank.Nominals()}, nil }, `{}`)
	type warm struct {
		Water quantity.Temperature `json:"water"`
	}
	add("tank.water_density", func(in warm) (of[quantity.Density], error) {
		d, err := tank.WaterDensity(in.Water)
		return of[quantity.Density]{Value: d}, err
	}, `{"water": {"value": 25, "unit": "degc"}}`)
	addMaterials()
}

// addMaterials adds what is known of what a tank is made of and filled with.
func addMaterials() {
	type porous struct {
		Density quantity.Density `json:"density"`
		Pores   quantity.Ratio   `json:"pores"`
	}
	type material struct {
		Material tank.Material `json:"material"`
	}
	add("tank.material", func(in material) (of[quantity.Density], error) {
		return of[quantity.Density]{Value: in.Material.Density()}, nil
	}, `{"material": "acrylic"}`)
	type stone struct {
		Stone tank.Stone `json:"stone"`
	}
	add("tank.stone", func(in stone) (porous, error) {
		d, p, ok := in.Stone.Solid()
		if !ok {
			return porous{}, working.Refuse("stone", "refuse.unknown")
		}
		return porous{d, p}, nil
	}, `{"stone": "lava"}`)
	type substrate struct {
		Substrate tank.Substrate `json:"substrate"`
	}
	add("tank.substrate", func(in substrate) (porous, error) {
		d, p, ok := in.Substrate.Grain()
		if !ok {
			return porous{}, working.Refuse("substrate", "refuse.unknown")
		}
		return porous{d, p}, nil
	}, `{"substrate": "sand"}`)
}
