package fish

import (
	"strings"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Code names an animal of the catalogue for good: "paracheirodon-innesi".
type Code string

// Name is the key of the animal's name in a person's language.
func (c Code) Name() working.Key {
	return working.Key("species." + strings.ReplaceAll(string(c), "-", "_"))
}

// Group is what the trade shelves animals by.
type Group string

// The groups, as they are offered.
const (
	Tetra         Group = "tetra"
	Rasbora       Group = "rasbora"
	Danio         Group = "danio"
	Barb          Group = "barb"
	SharkMinnow   Group = "shark_minnow"
	Livebearer    Group = "livebearer"
	Corydoras     Group = "corydoras"
	Pleco         Group = "pleco"
	Catfish       Group = "catfish"
	Loach         Group = "loach"
	Betta         Group = "betta"
	Gourami       Group = "gourami"
	Angelfish     Group = "angelfish"
	DwarfCichlid  Group = "dwarf_cichlid"
	Cichlid       Group = "cichlid"
	Rainbowfish   Group = "rainbowfish"
	Killifish     Group = "killifish"
	Coldwater     Group = "coldwater"
	LargeCharacin Group = "large_characin"
	Oddball       Group = "oddball"
	Puffer        Group = "puffer"
	Brackish      Group = "brackish"
	Shrimp        Group = "shrimp"
	Snail         Group = "snail"
	Crayfish      Group = "crayfish"
	Frog          Group = "frog"
)

// Groups lists the groups as they are offered.
func Groups() []Group {
	return []Group{Tetra, Rasbora, Danio, Barb, SharkMinnow, Livebearer, Corydoras, Pleco, Catfish, Loach, Betta, Gourami, Angelfish, DwarfCichlid,
		Cichlid, Rainbowfish, Killifish, Coldwater, LargeCharacin, Oddball, Puffer, Brackish, Shrimp, Snail, Crayfish, Frog}
}

// Zone is where an animal spends most of its time.
type Zone string

// The zones, from above.
const (
	Top    Zone = "top"
	Middle Zone = "middle"
	Bottom Zone = "bottom"
	AllOf  Zone = "all"
)

// Zones lists the zones from above.
func Zones() []Zone { return []Zone{Top, Middle, Bottom, AllOf} }

// Temper is how an animal treats others.
type Temper string

// The tempers, mildest first; a predator eats what fits its mouth and may else be calm.
const (
	Peaceful       Temper = "peaceful"
	SemiAggressive Temper = "semi_aggressive"
	Aggressive     Temper = "aggressive"
	Predatory      Temper = "predatory"
)

// Tempers lists the tempers, mildest first.
func Tempers() []Temper { return []Temper{Peaceful, SemiAggressive, Aggressive, Predatory} }

// Mouth is the class of an animal's gape.
type Mouth string

// The classes of gape.
const (
	TinyMouth   Mouth = "tiny"
	SmallMouth  Mouth = "small"
	MediumMouth Mouth = "medium"
	LargeMouth  Mouth = "large"
)

// Diet is what an animal eats by nature.
type Diet string

// The diets.
const (
	Omnivore  Diet = "omnivore"
	Carnivore Diet = "carnivore"
	Herbivore Diet = "herbivore"
	Micro     Diet = "micro" // live and powdered food of the smallest size
)

// Rivalry says which of a kind fight each other.
type Rivalry string

// The rivalries.
const (
	NoRivals   Rivalry = "none"
	MaleRivals Rivalry = "males"
	AllRivals  Rivalry = "all" // any two, unless a bonded pair
)

// Build is the shape of a body, for drawing and for how hard it is to swallow.
type Build string

// The builds.
const (
	Fusiform Build = "fusiform"
	Deep     Build = "deep"
	Elongate Build = "elongate"
	FlatBed  Build = "flat" // flattened below
	EelLike  Build = "eel"
)

// Trait is something to know of a kind that its figures do not say.
type Trait string

// The traits.
const (
	Active        Trait = "active"
	Armoured      Trait = "armoured" // plates or spines: harder to swallow
	NeedsSalt     Trait = "brackish" // needs salt in the long run
	TakesSalt     Trait = "brackish_ok"
	ColdWater     Trait = "cold_water" // no heater, below 24 °C in the long run
	TakesCool     Trait = "cool_ok"
	NoCopper      Trait = "copper_sensitive"
	Delicate      Trait = "delicate"
	EatsPlants    Trait = "eats_plants"
	EatsShrimp    Trait = "eats_shrimp"
	EatsSnails    Trait = "eats_snails"
	Escapes       Trait = "escapes"
	GrowsLarge    Trait = "grows_large" // 20 cm and more, commonly sold small
	HardOnly      Trait = "hard_water_only"
	Jumps         Trait = "jumps"
	LawCheck      Trait = "legal_check"
	MatureTank    Trait = "mature_tank"  // from 12 weeks on
	MucusGrazer   Trait = "mucus_grazer" // rasps the flanks of slow deep fish
	Nano          Trait = "nano"         // 3.5 cm at most
	BreathesAir   Trait = "needs_airspace"
	NeedsFlow     Trait = "needs_flow"
	NeedsSand     Trait = "needs_sand"
	NeedsWood     Trait = "needs_wood"
	NotSmallTanks Trait = "not_for_small_tanks"
	SexRatio      Trait = "sex_ratio" // two females and more a male
	SlowSwimmer   Trait = "slow_swimmer"
	SoftOnly      Trait = "soft_water_only"
	SoftPreferred Trait = "soft_water_pref"
	Alone         Trait = "species_tank" // alone or with its own kind
	TallTank      Trait = "tall_tank"
)

// Sure is how sure a figure of the catalogue is.
type Sure string

// How sure, the firmest first.
const (
	SurePublished Sure = "published" // as the source has it
	SureAdjusted  Sure = "adjusted"  // published, of a relative or narrowed by practice
	SurePractice  Sure = "practice"  // the trade's, or hobby pages
)

// From says where a figure of the catalogue comes from.
type From struct {
	Sources []working.SourceID `json:"sources"`
	Sure    Sure               `json:"sure"`
}

// Animal is a kind of the catalogue. Ranges are to recommend, narrower than what
// it survives. Figures without a From of their own are common practice, no source.
type Animal struct {
	Code       Code     `json:"code"`
	Scientific string   `json:"scientific"`
	Common     string   `json:"common"` // in English, for searching; people read Code.Name
	Also       []string `json:"also"`   // old and other names, for searching
	Group      Group    `json:"group"`

	Length     quantity.Length `json:"length"` // of a large adult in captivity, total
	LengthFrom From            `json:"length_from"`

	TempLow  quantity.Temperature `json:"temp_low"`
	TempHigh quantity.Temperature `json:"temp_high"`
	TempFrom From                 `json:"temp_from"`
	PHLow    quantity.PH          `json:"ph_low"`
	PHHigh   quantity.PH          `json:"ph_high"`
	PHFrom   From                 `json:"ph_from"`
	GHLow    quantity.Hardness    `json:"gh_low"`
	GHHigh   quantity.Hardness    `json:"gh_high"`
	GHFrom   From                 `json:"gh_from"`

	Zone       Zone            `json:"zone"`
	MinGroup   int             `json:"min_group"`
	Temper     Temper          `json:"temper"`
	NipsFins   bool            `json:"nips_fins"`
	LongFins   bool            `json:"long_fins"`
	Mouth      Mouth           `json:"mouth"`
	Diet       Diet            `json:"diet"`
	LeastTank  quantity.Volume `json:"least_tank"` // by its label
	Rivalry    Rivalry         `json:"rivalry"`
	Breeds     bool            `json:"breeds"`    // readily
	Hardiness  int             `json:"hardiness"` // 5 forgives a beginner, 1 only a settled tank
	MassFactor float64         `json:"mass_factor"`
	MassPower  float64         `json:"mass_power"` // W[g] = factor · L[cm]^power
	MassFrom   From            `json:"mass_from"`
	Build      Build           `json:"build"`
	Traits     []Trait         `json:"traits"`

	name   working.Key // Code.Name
	traits traitSet
	cm     float64 // Length
	grams  float64 // mass of an adult
	temp   [2]float64
	ph     [2]float64
	dgh    [2]float64
}

// traitSet holds traits as bits, since the rules ask for them for every pair.
type traitSet uint64

var traitBits = func() map[Trait]traitSet {
	m := map[Trait]traitSet{}
	for i, t := range []Trait{Active, Armoured, NeedsSalt, TakesSalt, ColdWater, TakesCool, NoCopper, Delicate, EatsPlants, EatsShrimp, EatsSnails, Escapes,
		GrowsLarge, HardOnly, Jumps, LawCheck, MatureTank, MucusGrazer, Nano, BreathesAir, NeedsFlow, NeedsSand, NeedsWood, NotSmallTanks, SexRatio, SlowSwimmer,
		SoftOnly, SoftPreferred, Alone, TallTank} {
		m[t] = 1 << i
	}
	return m
}()

// Has reports whether a kind has a trait.
func (a *Animal) Has(t Trait) bool { return a.traits&traitBits[t] != 0 }

// has asks for traits whose bits are known.
func (a *Animal) has(bits traitSet) bool { return a.traits&bits != 0 }

// Bits of the traits that rules ask for.
var (
	bitActive, bitArmoured, bitSalt, bitTakesSalt = traitBits[Active], traitBits[Armoured], traitBits[NeedsSalt], traitBits[TakesSalt]
	bitCold, bitEatsShrimp, bitEatsSnails         = traitBits[ColdWater], traitBits[EatsShrimp], traitBits[EatsSnails]
	bitHard, bitSoft, bitLaw, bitMature           = traitBits[HardOnly], traitBits[SoftOnly], traitBits[LawCheck], traitBits[MatureTank]
	bitMucus, bitSexRatio, bitSlow, bitAlone      = traitBits[MucusGrazer], traitBits[SexRatio], traitBits[SlowSwimmer], traitBits[Alone]
)

// Swims reports whether a kind is a fish or a frog: what is no shrimp, snail or crayfish.
func (a *Animal) Swims() bool { return a.Group != Shrimp && a.Group != Snail && a.Group != Crayfish }

// IsFish reports whether a kind is a fish.
func (a *Animal) IsFish() bool { return a.Swims() && a.Group != Frog }
