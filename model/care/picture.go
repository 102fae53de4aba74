package care

import (
	"strings"

	"example.org/driploop/model/fish"
	"example.org/driploop/model/load"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/tank"
)

// Swimmer is a lot of animals as the drawing shows it.
type Swimmer struct {
	ID      string    // of the fish or group in the record; of what is planned, of the wish
	Code    fish.Code // empty: a kind that the catalogue does not have
	Name    string    // as the person calls them; may be empty
	Count   int
	Length  quantity.Length // of one today; the adult one where it is not known
	Adult   quantity.Length // 0 is not known
	Planned bool
}

// Picture is what stands in the room as the record has it: the facts that the
// elevation is drawn from. Sizes are true; what is not known is zero.
type Picture struct {
	Known    bool // the tank can be drawn at all
	Tank     tank.Tank
	Contents tank.Contents
	Full     tank.Full

	Stand       load.StandKind
	StandHeight quantity.Length
	StandDepth  quantity.Length
	TopBoard    quantity.Length
	Leg, Rail   load.Section
	Back, Rails bool
	Feet        []load.Foot

	SocketHeight   quantity.Length
	SocketDistance quantity.Length

	GravelIn, Planted                bool
	Heater, Filter, Thermometer, Lid bool // in place
	FilterKind                       string
	HeaterIn, FilterIn, LightIn      bool // plugged in
	LidOpen                          bool
	WaterLine                        quantity.Length // above the tank's underside; 0 is dry
	ShowLoads                        bool
	Weight                           quantity.Mass
	Sag                              quantity.Value
	FishCount                        int
	FishLength                       quantity.Length
	Stock                            []Swimmer // known to the daybook; the keeper adds it
	Bag                              bool      // a bag floats in it
	BagVolume                        quantity.Volume
	Temperature                      quantity.Value // the last reading
	Powered, Filled, CordsHung       bool
}

// Picture tells what to draw while a step is open: what is done is drawn as
// done, what the step is about is drawn as it is meant to be.
func (f *Facts) Picture(s Step) Picture {
	t := f.Tank()
	full, err := f.Full()
	p := Picture{Known: err == nil, Tank: t, Contents: f.Contents(), Full: full, FilterKind: f.choice("filter.kind"),
		StandHeight: quantity.Length(f.or("stand.height", 0)), StandDepth: quantity.Length(f.or("stand.depth", 0)), Stand: load.StandKind(f.choice("stand.kind")),
		SocketHeight: quantity.Length(f.or("socket.height", 0)), SocketDistance: quantity.Length(f.or("socket.distance", 0))}
	done := func(st Step) bool { _, ok := f.r.Done[st]; return ok }
	at := func(st Step) bool { return s.Index() >= st.Index() }
	if in, err := f.standInput(); err == nil {
		p.TopBoard = quantity.Length(f.or("top.thickness", 0.018))
		p.Leg, p.Rail = in.Frame.Leg, in.Frame.Rail
		p.Back, p.Rails = in.Back == load.Yes, in.Frame.BottomRails == load.Yes
	}
	p.ShowLoads = s == StandFloor
	p.Weight = full.Total
	if a, err := f.Stand(); err == nil {
		p.Feet = a.Feet
		for _, c := range a.Checks {
			if strings.Contains(string(c.Name), "sag") {
				p.Sag = c.Demand
			}
		}
	}
	p.GravelIn = f.Ticked("dry.gravel") || done(PlaceDry) || s == TankPlace || s == StandFloor || s == KitList
	p.Planted = done(PlaceDry) || s == KitList || s == StandFloor
	p.Filter = f.Ticked("dry.filter") || done(PlaceDry) || s == KitList
	p.Heater = f.Ticked("dry.heater") || done(PlaceDry) || s == KitList
	p.Thermometer = f.Ticked("dry.thermometer") || done(PlaceDry) || s == KitList
	p.LidOpen = f.choice("lid.kind") == "open"
	_, p.Filled = f.filledAt()
	_, p.Powered = f.poweredAt()
	p.Lid = (p.Powered || f.acknowledged("power.lid")) && !p.LidOpen
	p.HeaterIn = p.Powered || (!done(PlaceDry) && f.choice("plug.heater") == "in")
	p.FilterIn = p.Powered || (!done(PlaceDry) && f.choice("plug.filter") == "in")
	p.LightIn = p.Powered || (!done(PlaceDry) && f.choice("plug.light") == "in")
	p.CordsHung = at(PlaceDry)
	switch {
	case p.Filled || f.Ticked("fill.line"):
		p.WaterLine = full.WaterLine
	case f.Ticked("fill.half"):
		p.WaterLine = full.WaterLine / 2
	}
	if s == TankPlace && err == nil { // the water line that the air gap makes
		p.WaterLine = full.WaterLine
	}
	p.FishLength = quantity.Length(f.or("fish.adult", 0))
	if done(HomeComing) || (s == FirstFish && at(FirstFish)) {
		p.FishCount = int(f.or("fish.count", 0))
	}
	p.Bag = s == HomeComing && !done(HomeComing)
	p.BagVolume = quantity.Volume(f.or("bag.volume", 0))
	if r := f.Steadiness().Readings; len(r) > 0 {
		p.Temperature = r[len(r)-1].T.Value()
	}
	return p
}

func (f *Facts) acknowledged(id FieldID) bool {
	_, ok := f.r.Acknowledged(PowerOn, NoteID(id))
	return ok
}
