package sick

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"example.org/driploop/model/working"
)

// SignID names a sign. It is stable: it is kept with a case.
type SignID string

// Group says where a sign is seen.
type Group string

// The groups, in the order in which one looks.
const (
	Breathing Group = "breathing"
	Swimming  Group = "swimming"
	Skin      Group = "skin" // and fins
	Body      Group = "body"
	Eating    Group = "eating"
	Deaths    Group = "deaths"
	Tank      Group = "tank" // the tank as a whole
)

// Groups lists the groups in order.
func Groups() []Group { return []Group{Breathing, Swimming, Skin, Body, Eating, Deaths, Tank} }

// Level is how soon something must be done.
type Level uint8

// The levels, mildest first. None is for nothing seen.
const (
	None Level = iota
	Watch
	Week
	TwoDays
	SameDay
	Emergency
)

var levelNames = [...]string{"none", "watch", "week", "two_days", "same_day", "emergency"}

// String returns the stable name of l.
func (l Level) String() string { return levelNames[l] }

// State is the verdict that goes with a level: emergencies and what must be
// done the same day ask to act, what can wait two days or a week asks to wait.
func (l Level) State() working.State {
	switch {
	case l >= SameDay:
		return working.Act
	case l >= Week:
		return working.Wait
	}
	return working.Steady
}

// days is how many civil days a sign of a level may last before a veterinarian
// is asked in any case; 0 for no limit. Source: the urgency of the table of signs
// ("no change in 24 h", "48 h", "within a week").
var days = map[Level]int{SameDay: 1, TwoDays: 2, Week: 7}

// Sign is something that can be seen.
type Sign struct {
	Code    SignID
	Group   Group
	Level   Level
	Tests   []string // readings of the journal, in the order to make them
	Acts    []Act
	Notes   []string // ids of safety notes of package care
	Sources []working.SourceID
}

// Message is the key of the sign in plain words.
func (s Sign) Message() working.Key { return working.Key("sign." + string(s.Code)) }

// Vet is the key of what it says on calling a veterinarian.
func (s Sign) Vet() working.Key { return working.Key("sign.vet." + string(s.Code)) }

// Act names something to do in the next hour: the message tick.sick.ACT.
type Act string

// Message is the key of the act in words.
func (a Act) Message() working.Key { return working.Key("tick.sick." + string(a)) }

// acts are all acts in the order of doing: what endangers people, what keeps
// fish alive, what keeps it from growing worse, what tells more.
var acts = []Act{"power_off", "electrician", "flow", "air", "co2_off", "heater", "fumes", "conditioner", "stop_dosing", "no_more_water", "change_half",
	"change_matched", "change_small", "no_food", "less_food", "remove_body", "keep_sample", "separate", "chaser", "keep_apart", "separate_calm", "leak",
	"lid", "decor", "shelter", "calm", "clean_gravel", "take_out_food", "food_check", "torch", "no_new_fish", "look_all", "harder_water", "ask_shop"}

//go:embed signs.csv
var table string

var signs = mustRead(table)

// Signs lists all signs, by group and then the gravest first.
func Signs() []Sign { return slices.Clone(signs) }

// SignOf finds a sign by its code.
func SignOf(code SignID) (Sign, bool) {
	for _, s := range signs {
		if s.Code == code {
			return s, true
		}
	}
	return Sign{}, false
}

func mustRead(text string) []Sign {
	out, err := read(text)
	if err != nil {
		panic(err) // the table is part of the program
	}
	return out
}

// read reads a table of signs. Errors name the row and what is wrong with it.
func read(text string) ([]Sign, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("sick: %w", err)
	}
	if len(rows) < 2 || !slices.Equal(rows[0], []string{"code", "group", "level", "tests", "acts", "notes", "source"}) {
		return nil, fmt.Errorf("sick: the table of signs has another head")
	}
	var out []Sign
	for _, row := range rows[1:] {
		s := Sign{Code: SignID(row[0]), Group: Group(row[1]), Tests: strings.Fields(row[3]), Notes: strings.Fields(row[5])}
		if !slices.Contains(Groups(), s.Group) {
			return nil, fmt.Errorf("sick: %s: no group %q", s.Code, row[1])
		}
		l := slices.Index(levelNames[:], row[2])
		if l <= int(None) {
			return nil, fmt.Errorf("sick: %s: no level %q", s.Code, row[2])
		}
		s.Level = Level(l)
		for _, a := range strings.Fields(row[4]) {
			if !slices.Contains(acts, Act(a)) {
				return nil, fmt.Errorf("sick: %s: no act %q", s.Code, a)
			}
			s.Acts = append(s.Acts, Act(a))
		}
		for _, c := range strings.Fields(row[6]) {
			id, ok := sources[c]
			if !ok {
				return nil, fmt.Errorf("sick: %s: no source %q", s.Code, c)
			}
			s.Sources = append(s.Sources, id)
		}
		if slices.ContainsFunc(out, func(o Sign) bool { return o.Code == s.Code }) || len(s.Tests) == 0 || len(s.Acts) == 0 || len(s.Sources) == 0 {
			return nil, fmt.Errorf("sick: %s stands twice, or lacks tests, acts or sources", s.Code)
		}
		out = append(out, s)
	}
	return out, nil
}
