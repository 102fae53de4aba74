package slip

import (
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
)

// Profile is a starter profile: what a shop proposes for a tank. Everything in it
// is shown before it is taken, and every text is plain text.
type Profile struct {
	// Version of the format, as read. WriteProfile always writes Version.
	Version int
	MadeBy  Maker
	// Signature says whose key signed it, as read.
	Signature Signature
	Shop      Shop
	// Tank is a name proposed for the tank, up to MaxTankName runes; may be empty.
	Tank   string
	Units  quantity.System
	Region string // ISO 3166-1 alpha-2, may be empty
	// Answers of Settable fields, accepted by their fields; the origin of each is
	// care.FromProfile.
	Answers map[care.FieldID]care.Answer
	// Notes of the shop, by language tag (BCP 47), up to MaxString bytes each.
	Notes map[string]string
	// Edition counts how often the shop handed the profile out after a change, from
	// 1; 0 is of no catalogue.
	Edition int
	// Plan is what the shop proposes to do again and again, up to MaxRounds.
	Plan    []Round
	Feeding Feeding
	// Marks are the steps whose check failed where the profile was made: it was
	// handed out all the same.
	Marks []care.Step
	// Later is what a later version added: see there.
	Later Later
}

// Shop is who hands the profile over. Every part may be empty.
type Shop struct {
	Name    string `json:"name,omitempty"`    // up to MaxShopName runes
	Address string `json:"address,omitempty"` // up to MaxAddress runes, in lines
	Hours   string `json:"hours,omitempty"`   // up to MaxHours runes, in lines
}

// Maker is the program that wrote a slip.
type Maker struct {
	Program string `json:"program"`
	Version string `json:"version"`
}

// Fields lists the answers of p in the order of First fill.
func (p Profile) Fields() []care.FieldID {
	var out []care.FieldID
	for _, f := range care.Fields() {
		if _, ok := p.Answers[f.ID]; ok {
			out = append(out, f.ID)
		}
	}
	return out
}

// never are fields of the steps below that a shop cannot answer for a keeper:
// they are set by something that was done or confirmed, and open what would
// otherwise stay shut.
var never = []care.FieldID{
	"tank.system",     // is the profile's Units
	"stand.confirmed", // a professional's written word, held by the keeper
	"stand.anchored",  // done at the keeper's own wall
	"glass.wet_test",  // done with the keeper's own tank
	"fish.quarantine", // where the keeper has room for it
	care.FeedShare,    // by what is left on the keeper's own floor
	care.FeedProtein,
	care.FeedFasting,
}

// water are the fields of filling that come from the bottle's label and the
// local tap; what is measured on the day is not among them.
var water = []care.FieldID{"water.source", "water.residual", "treat.way", "dose.amount", "dose.per", "dose.strength",
	"bacteria.amount", "bacteria.per", "fill.target"}

// Settable reports whether a profile may hold an answer of the field: those of
// the tank and its place, the kit, the stand and the floor, the label and the
// tap, the temperature to hold and the first fish. Ticks are never among them.
func Settable(id care.FieldID) bool {
	f, ok := care.FieldOf(id)
	if !ok || f.Type == care.TypeTick || slices.Contains(never, id) {
		return false
	}
	switch f.Step {
	case care.TankPlace, care.KitList, care.StandFloor, care.FirstFish:
		return true
	case care.FillTreat:
		return slices.Contains(water, id)
	case care.Settle:
		return id == "settle.target"
	}
	return false
}

// Proposed makes an answer of a tank into one of a profile: it comes from the
// profile, a zero has no sign and words are one line of what can be seen. The
// result may hold nothing.
func Proposed(a care.Answer) care.Answer {
	a.Origin = care.FromProfile
	a.Measure.Number = unsigned(a.Measure.Number)
	a.Words = OneLine(a.Words)
	return a
}
