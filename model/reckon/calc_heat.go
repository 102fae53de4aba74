package reckon

import (
	"example.org/driploop/model/heat"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// box is the enclosure of the examples.
const box = `{
    "length": {"value": 51.4, "unit": "cm"}, "width": {"value": 26.7, "unit": "cm"}, "height": {"value": 31.9, "unit": "cm"},
    "wall": {"value": 5, "unit": "mm"}, "material": "glass", "cover": "lid", "support": "foam"
  }`

const aHeater = `{
  "enclosure": ` + box + `,
  "water_volume": {"value": 32, "unit": "l"}, "set_point": {"value": 25, "unit": "degc"},
  "room_low": {"value": 16, "unit": "degc"}, "room_usual": {"value": 20, "unit": "degc"}, "start": {"value": 20, "unit": "degc"},
  "humidity": {"value": 50, "unit": "percent"}`

func init() {
	type losing struct {
		Enclosure heat.Enclosure       `json:"enclosure"`
		Water     quantity.Temperature `json:"water"`
		Room      quantity.Temperature `json:"room"`
		Humidity  quantity.Ratio       `json:"humidity"`
	}
	add("heat.loss", func(in losing) (heat.LossResult, error) {
		return heat.Loss(in.Enclosure, in.Water, in.Room, in.Humidity)
	}, `{
  "enclosure": `+box+`,
  "water": {"value": 25, "unit": "degc"}, "room": {"value": 18, "unit": "degc"}, "humidity": {"value": 0.5, "unit": "one"}
}`)
	type filled struct {
		Enclosure heat.Enclosure  `json:"enclosure"`
		Water     quantity.Volume `json:"water_volume"`
	}
	type capacity struct {
		Capacity heat.HeatCapacity `json:"joules_per_kelvin"`
	}
	add("heat.capacity", func(in filled) (capacity, error) {
		c, err := in.Enclosure.Capacity(in.Water)
		return capacity{c}, err
	}, `{"enclosure": `+box+`, "water_volume": {"value": 32, "unit": "l"}}`)
	add("heater.size", heat.HeaterSize, aHeater+"\n}")
	type owned struct {
		Heater heat.HeaterInput `json:"need"`
		Size   quantity.Power   `json:"heater_power"`
		Count  int              `json:"heater_count"`
	}
	add("heater.check", func(in owned) (heat.HeaterResult, error) { return heat.HeaterCheck(in.Heater, in.Size, in.Count) },
		`{"need": `+aHeater+`},
  "heater_power": {"value": 50, "unit": "w"}, "heater_count": 1
}`)
	add("heater.sizes", func(nothing) (list[quantity.Power], error) { return list[quantity.Power]{heat.CommonSizes()}, nil }, `{}`)
	type warming struct {
		Capacity    heat.HeatCapacity    `json:"joules_per_kelvin" reckon:"capacity"`
		Conductance quantity.Conductance `json:"conductance"`
		Power       quantity.Power       `json:"heater_power"`
		Room        quantity.Temperature `json:"room"`
		Start       quantity.Temperature `json:"start"`
		Set         quantity.Temperature `json:"set_point"`
	}
	add("heater.warm_up", func(in warming) (heat.WarmUpResult, error) {
		return heat.WarmUp(in.Capacity, in.Conductance, in.Power, in.Room, in.Start, in.Set)
	}, `{
  "joules_per_kelvin": 150000, "conductance": {"value": 3.2, "unit": "w/k"}, "heater_power": {"value": 50, "unit": "w"},
  "room": {"value": 20, "unit": "degc"}, "start": {"value": 18, "unit": "degc"}, "set_point": {"value": 25, "unit": "degc"}
}`)
	add("heat.power_cut", heat.PowerCut, `{
  "enclosure": `+box+`,
  "water_volume": {"value": 32, "unit": "l"}, "start": {"value": 77, "unit": "degf"}, "room": {"value": 60, "unit": "degf"},
  "humidity": {"value": 50, "unit": "percent"}, "lasts": {"value": 12, "unit": "h"}, "watch": {"value": 70, "unit": "degf"}
}`)
	addMixing()
	addPower()
	addFilter()
}

func addMixing() {
	type blend struct {
		Hot    quantity.Temperature `json:"hot"`
		Cold   quantity.Temperature `json:"cold"`
		Target quantity.Temperature `json:"target"`
		Bucket quantity.Volume      `json:"bucket"`
	}
	type blended struct {
		Blend heat.BlendResult
		Hot   quantity.Volume
		Cold  quantity.Volume
	}
	add("heat.blend", func(in blend) (blended, error) {
		if err := working.InRange("bucket", "q.water.bucket", in.Bucket.Value(), quantity.Litres(0.1).Value(), quantity.Litres(1000).Value()); err != nil {
			return blended{}, err
		}
		b, err := heat.Blend(in.Hot, in.Cold, in.Target)
		return blended{b, b.Hot(in.Bucket), b.Cold(in.Bucket)}, err
	}, `{
  "hot": {"value": 50, "unit": "degc"}, "cold": {"value": 12, "unit": "degc"}, "target": {"value": 25, "unit": "degc"},
  "bucket": {"value": 2.5, "unit": "gal_us"}
}`)
	type change struct {
		Tank  quantity.Temperature `json:"tank"`
		Fresh quantity.Temperature `json:"fresh"`
		Share quantity.Ratio       `json:"share"`
	}
	add("heat.change", func(in change) (heat.ChangeResult, error) { return heat.Change(in.Tank, in.Fresh, in.Share) },
		`{"tank": {"value": 25, "unit": "degc"}, "fresh": {"value": 21, "unit": "degc"}, "share": {"value": 25, "unit": "percent"}}`)
	type largest struct {
		Tank  quantity.Temperature           `json:"tank"`
		Fresh quantity.Temperature           `json:"fresh"`
		Limit quantity.TemperatureDifference `json:"limit"`
	}
	add("heat.largest_change", func(in largest) (heat.ShareResult, error) { return heat.LargestChange(in.Tank, in.Fresh, in.Limit) },
		`{"tank": {"value": 25, "unit": "degc"}, "fresh": {"value": 12, "unit": "degc"}, "limit": {"value": 2, "unit": "k_diff"}}`)
}

func addPower() {
	type plugs struct {
		Plugs  []heat.Plug    `json:"plugs"`
		Outlet heat.Outlet    `json:"outlet"`
		Tariff quantity.Value `json:"tariff,omitzero" reckon:"tariff"`
	}
	add("power.plugs", func(in plugs) (heat.PlugsResult, error) { return heat.Plugs(in.Plugs, in.Outlet, in.Tariff) }, `{
  "plugs": [
    {"power": {"value": 50, "unit": "w"}, "daily": {"value": 24, "unit": "h"}, "share": {"value": 30, "unit": "percent"}},
    {"power": {"value": 5, "unit": "w"}, "daily": {"value": 24, "unit": "h"}, "share": {"value": 1, "unit": "one"}},
    {"power": {"value": 12, "unit": "w"}, "daily": {"value": 8, "unit": "h"}, "share": {"value": 1, "unit": "one"}}
  ],
  "outlet": "120v_15a", "tariff": {"value": 0.17, "unit": "USD"}
}`)
	type cost struct {
		Power  quantity.Power `json:"power"`
		Tariff quantity.Value `json:"tariff,omitzero" reckon:"tariff"`
	}
	add("power.cost", func(in cost) (heat.CostResult, error) { return heat.RunningCost(in.Power, in.Tariff) },
		`{"power": {"value": 24, "unit": "w"}, "tariff": {"value": 0.31, "unit": "EUR"}}`)
}

func addFilter() {
	type ofWater struct {
		Water quantity.Volume `json:"water_volume"`
	}
	add("filter.flow", func(in ofWater) (heat.FlowResult, error) { return heat.RequiredFlow(in.Water) },
		`{"water_volume": {"value": 32, "unit": "l"}}`)
	type labelled struct {
		Label quantity.Flow   `json:"label_flow"`
		Water quantity.Volume `json:"water_volume"`
	}
	add("filter.turnover", func(in labelled) (heat.TurnoverResult, error) { return heat.Turnover(in.Label, in.Water) },
		`{"label_flow": {"value": 100, "unit": "gph_us"}, "water_volume": {"value": 32, "unit": "l"}}`)
	const hose = `{"bore": {"value": 12, "unit": "mm"}, "length": {"value": 1.5, "unit": "m"}, "fittings": {"value": 6, "unit": "one"}, "lift": {"value": 20, "unit": "cm"}}`
	type flowing struct {
		Hose heat.Hose     `json:"hose"`
		Flow quantity.Flow `json:"flow"`
	}
	add("filter.head_loss", func(in flowing) (heat.HeadLossResult, error) { return heat.HeadLoss(in.Hose, in.Flow) },
		`{"hose": `+hose+`, "flow": {"value": 300, "unit": "l/h"}}`)
	type pumping struct {
		Pump heat.Pump `json:"pump"`
		Hose heat.Hose `json:"hose"`
	}
	add("filter.operating_point", func(in pumping) (heat.OperatingPoint, error) { return heat.FilterOperatingPoint(in.Pump, in.Hose) },
		`{"pump": {"head": {"value": 1.2, "unit": "m"}, "flow": {"value": 600, "unit": "l/h"}}, "hose": `+hose+`}`)
	type media struct {
		Food    quantity.MassRate    `json:"food"`
		Protein quantity.Ratio       `json:"protein"`
		Water   quantity.Temperature `json:"water"`
		New     bool                 `json:"new_media"`
	}
	add("filter.media", func(in media) (heat.MediaResult, error) { return heat.MediaArea(in.Food, in.Protein, in.Water, in.New) },
		`{"food": {"value": 0.5, "unit": "g/d"}, "protein": {"value": 45, "unit": "percent"}, "water": {"value": 25, "unit": "degc"}, "new_media": true}`)
	type packed struct {
		Kind   heat.MediaKind  `json:"media_kind"`
		Volume quantity.Volume `json:"media_volume"`
	}
	add("filter.media_surface", func(in packed) (of[quantity.Area], error) { return traced(heat.MediaSurface(in.Kind, in.Volume)) },
		`{"media_kind": "medium_foam", "media_volume": {"value": 0.4, "unit": "l"}}`)
}
