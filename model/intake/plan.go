package intake

import (
	"slices"
	"strings"
	"time"
	"unicode"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
)

// Role is what a column holds.
type Role string

// The roles. A wide table has a column for each thing measured (Value); a long one,
// as our own export is, has a row for each and names it in a column.
const (
	Nothing   Role = ""
	Date      Role = "date" // may hold the time too
	Clock     Role = "time"
	Kind      Role = "kind"
	Note      Role = "note"
	Value     Role = "value" // of the reading that As names
	Entry     Role = "entry" // rows of one entry share it
	Step      Role = "step"
	Name      Role = "reading" // long: the name of the value in Number
	Number    Role = "number"
	Unit      Role = "unit"
	BasisOf   Role = "basis"
	Qualifier Role = "qualifier"
)

// Roles lists the roles that a person may choose for a column; Value stands for
// every reading.
func Roles() []Role {
	return []Role{Nothing, Date, Clock, Kind, Note, Value, Entry, Step, Name, Number, Unit, BasisOf, Qualifier}
}

// As is what a column means.
type As struct {
	Role    Role
	Reading string            // of Value: a name of journal
	Unit    quantity.UnitCode // of Value: what numbers without a unit are in
	Basis   quantity.Basis    // of Value: for a compound of nitrogen
}

// Order is how dates of figures are written.
type Order string

// The orders. A date that begins with four figures is always year, month, day.
const (
	DayFirst   Order = "dmy"
	MonthFirst Order = "mdy"
)

// Plan says how a table is to be read.
type Plan struct {
	Columns []As
	Order   Order
	Decimal rune // '.' or ','
}

// Hints are what the caller knows of words and customs.
type Hints struct {
	// Heads is the meaning of headings in any language, by Fold of the heading.
	Heads map[string]As
	// Kinds and Qualifiers are the words for them, by Fold.
	Kinds      map[string]journal.Kind
	Qualifiers map[string]journal.Qualifier
	// Usual is how this person writes numbers of a kind.
	Usual func(quantity.Kind) quantity.Reading
	// Order is the custom of the region, for when the table does not decide.
	Order Order
	// Now is the present, in the zone of the wall clock.
	Now time.Time
}

// Fold makes headings and words comparable: small letters and figures only.
func Fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// nitrogenous are the readings that need a basis.
var nitrogenous = []string{journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate}

// Guess proposes a plan.
func (s *Sheet) Guess(h Hints) Plan {
	p := Plan{Columns: make([]As, s.Columns()), Decimal: s.decimal(h)}
	taken := map[As]bool{}
	for i := range p.Columns {
		as := headed(s.Name(i), h)
		if as.Role == Nothing && s.Head == nil {
			as = s.looks(i)
		}
		if as.Role != Nothing && !taken[As{Role: as.Role, Reading: as.Reading}] {
			taken[As{Role: as.Role, Reading: as.Reading}] = true
			p.Columns[i] = as
		}
	}
	if i := s.find(p, Date); i < 0 { // unnamed, or named in words we do not know
		for i := range p.Columns {
			if p.Columns[i].Role == Nothing && s.looks(i).Role == Date {
				p.Columns[i] = As{Role: Date}
				break
			}
		}
	}
	p.Order = h.Order
	if p.Order == "" {
		p.Order = DayFirst
	}
	if first, second := s.dateFigures(p); second > 12 && first <= 12 {
		p.Order = MonthFirst
	} else if first > 12 {
		p.Order = DayFirst
	}
	return p
}

func (s *Sheet) find(p Plan, r Role) int {
	return slices.IndexFunc(p.Columns, func(a As) bool { return a.Role == r })
}

// headed reads a heading: a word that is known, with a unit behind it or in
// brackets, such as "NO2-N (mg/l)".
func headed(head string, h Hints) As {
	word, unit := head, ""
	if i := strings.IndexAny(head, "([{"); i > 0 {
		word, unit = head[:i], strings.Trim(head[i:], "()[]{} ")
	}
	as, ok := h.Heads[Fold(word)]
	if !ok {
		// The unit may stand behind without brackets: "Temp °C".
		if i := strings.LastIndexByte(strings.TrimSpace(word), ' '); i > 0 && unit == "" {
			word, unit = word[:i], strings.TrimSpace(word[i:])
			as, ok = h.Heads[Fold(word)]
		}
	}
	if !ok && strings.HasSuffix(Fold(word), "-n") { // counted as nitrogen
		if as, ok = h.Heads[strings.TrimSuffix(Fold(word), "-n")]; ok {
			as.Basis = quantity.AsN
		}
	}
	if !ok || as.Role != Value {
		return as
	}
	return as.complete(unit, h)
}

// Complete gives a column of readings the unit and basis that are usual.
func (a As) Complete(h Hints) As { return a.complete("", h) }

func (a As) complete(unit string, h Hints) As {
	for _, k := range journal.KindsOf(a.Reading) {
		usual := h.Usual(k)
		if a.Unit == "" {
			a.Unit = usual.Unit
		}
		if m, err := quantity.Parse("1 "+unit, k, usual); unit != "" && err == nil {
			a.Unit = m.Unit
			break
		}
	}
	if slices.Contains(nitrogenous, a.Reading) && a.Basis == quantity.BasisNone {
		a.Basis = quantity.AsIon
	}
	return a
}

// looks guesses a column by its cells alone.
func (s *Sheet) looks(column int) As {
	sample := s.Sample(column, 20)
	if len(sample) == 0 {
		return As{}
	}
	for _, c := range sample {
		if _, ok := figures(c); !ok {
			return As{}
		}
	}
	return As{Role: Date}
}

// decimal finds the decimal mark of a table: a comma where one stands in numbers
// and no point does.
func (s *Sheet) decimal(h Hints) rune {
	commas, points := 0, 0
	for _, r := range s.Rows[:min(len(s.Rows), 2000)] {
		for _, c := range r {
			c = strings.TrimLeft(strings.TrimSpace(c), "<>~ ")
			if len(c) == 0 || c[0] < '0' || c[0] > '9' || len(c) > 20 || strings.Count(c, ".")+strings.Count(c, ",") != 1 {
				continue
			}
			if strings.Contains(c, ",") {
				commas++
			} else {
				points++
			}
		}
	}
	switch {
	case commas > points:
		return ','
	case points > commas:
		return '.'
	case s.Separator == ';':
		return ','
	}
	if d := h.Usual(quantity.KindPH).Decimal; d != 0 {
		return d
	}
	return '.'
}
