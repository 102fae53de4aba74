package present

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/intake"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// measured are the readings that a column of a table may hold.
var measured = []string{journal.NameTemperature, journal.NameAmmonia, journal.NameNitrite, journal.NameNitrate, journal.NamePH, journal.NameKH, journal.NameGH,
	journal.NameChlorine, journal.NameOxygen, journal.NamePhosphate, journal.NameTDS, journal.NameVolume, journal.NameDose, journal.NameFeed, journal.NameCount,
	journal.NameDuration, journal.NameLength}

// spoken are the readings that are words.
var spoken = []string{journal.NameReason, journal.NameState, journal.NameLeft, journal.NamePart, journal.NameWhat, journal.NameCame, journal.NameSeen, journal.NameSource, journal.NamePrice}

// headsOf are the messages with headings for a role or a reading, with commas
// between them.
var headsOf = map[working.Key]intake.As{
	"page.intake.heads_date": {Role: intake.Date}, "page.intake.heads_time": {Role: intake.Clock}, "page.intake.heads_kind": {Role: intake.Kind},
	"page.intake.heads_note": {Role: intake.Note}, "page.intake.heads_temperature": {Role: intake.Value, Reading: journal.NameTemperature},
	"page.intake.heads_ammonia": {Role: intake.Value, Reading: journal.NameAmmonia}, "page.intake.heads_nitrite": {Role: intake.Value, Reading: journal.NameNitrite},
	"page.intake.heads_nitrate": {Role: intake.Value, Reading: journal.NameNitrate}, "page.intake.heads_kh": {Role: intake.Value, Reading: journal.NameKH},
	"page.intake.heads_gh": {Role: intake.Value, Reading: journal.NameGH}, "page.intake.heads_volume": {Role: intake.Value, Reading: journal.NameVolume},
	"page.intake.heads_phosphate": {Role: intake.Value, Reading: journal.NamePhosphate}, "page.intake.heads_oxygen": {Role: intake.Value, Reading: journal.NameOxygen},
	"page.intake.heads_tds": {Role: intake.Value, Reading: journal.NameTDS},
}

// Hints is what is known of headings and words, in every language there is.
func (p Presenter) Hints(now time.Time) intake.Hints {
	h := intake.Hints{Heads: map[string]intake.As{}, Kinds: map[string]journal.Kind{}, Qualifiers: map[string]journal.Qualifier{},
		Usual: func(k quantity.Kind) quantity.Reading { return p.W.Reading(k, i18n.General) }, Order: intake.DayFirst, Now: now}
	if p.Region.Code == "US" {
		h.Order = intake.MonthFirst
	}
	for _, r := range intake.Roles() { // our own export's columns, and the names of the readings in it
		if r != intake.Value && r != intake.Nothing {
			h.Heads[string(r)] = intake.As{Role: r}
		}
	}
	h.Heads["at"] = intake.As{Role: intake.Date}
	for _, lang := range i18n.Languages() {
		w := i18n.Speak(lang, "", quantity.Metric)
		for _, name := range slices.Concat(measured, spoken) {
			h.Heads[intake.Fold(w.T(working.Key("reading."+name), nil))] = intake.As{Role: intake.Value, Reading: name}
		}
		for key, as := range headsOf {
			for _, head := range strings.Split(w.T(key, nil), ",") {
				h.Heads[intake.Fold(head)] = as
			}
		}
		for _, k := range journal.Kinds() {
			h.Kinds[intake.Fold(w.T(working.Key("entry."+string(k)), nil))] = k
		}
		for _, q := range []journal.Qualifier{journal.NotDetected, journal.OverRange} {
			h.Qualifiers[intake.Fold(w.T(working.Key("reading.is_"+string(q)), nil))] = q
		}
		for _, word := range strings.Split(w.T("page.intake.words_not_detected", nil), ",") {
			h.Qualifiers[intake.Fold(word)] = journal.NotDetected
		}
	}
	for _, name := range slices.Concat(measured, spoken) {
		h.Heads[name] = intake.As{Role: intake.Value, Reading: name}
	}
	for _, k := range journal.Kinds() {
		h.Kinds[intake.Fold(string(k))] = k
	}
	h.Qualifiers[intake.Fold(string(journal.NotDetected))] = journal.NotDetected
	h.Qualifiers[intake.Fold(string(journal.OverRange))] = journal.OverRange
	return h
}

// Choice is one thing that a person may choose: a code and what it is called.
type Choice struct{ Code, Name string }

// roleNames are the names of the roles.
var roleNames = map[intake.Role]working.Key{
	intake.Nothing: "page.intake.role_nothing", intake.Date: "page.intake.role_date", intake.Clock: "page.intake.role_time", intake.Kind: "page.intake.role_kind",
	intake.Note: "page.intake.role_note", intake.Entry: "page.intake.role_entry", intake.Step: "page.intake.role_step", intake.Name: "page.intake.role_reading",
	intake.Number: "page.intake.role_number", intake.Unit: "page.intake.role_unit", intake.BasisOf: "page.intake.role_basis", intake.Qualifier: "page.intake.role_qualifier",
}

// valuePrefix stands before the name of a reading in the code of a choice.
const valuePrefix = "value."

// RoleCode is the code under which RoleChoices lists what a column means.
func RoleCode(a intake.As) string {
	if a.Role == intake.Value {
		return valuePrefix + a.Reading
	}
	if a.Role == intake.Nothing {
		return "nothing"
	}
	return string(a.Role)
}

// RoleOf is the reverse of RoleCode.
func RoleOf(code string, h intake.Hints) intake.As {
	if name, ok := strings.CutPrefix(code, valuePrefix); ok {
		return intake.As{Role: intake.Value, Reading: name}.Complete(h)
	}
	if code == "nothing" {
		return intake.As{}
	}
	return intake.As{Role: intake.Role(code)}
}

// RoleChoices lists what a column may mean.
func (p Presenter) RoleChoices() []Choice {
	var out []Choice
	for _, r := range intake.Roles() {
		if r != intake.Value {
			out = append(out, Choice{RoleCode(intake.As{Role: r}), p.W.T(roleNames[r], nil)})
			continue
		}
		for _, name := range measured {
			out = append(out, Choice{valuePrefix + name, p.W.T(working.Key("reading."+name), nil)})
		}
	}
	return out
}

// UnitCode is the code under which UnitChoices lists unit and basis.
func UnitCode(a intake.As) string { return string(a.Unit) + "/" + string(a.Basis) }

// WithUnit gives a column the unit and basis of a code.
func WithUnit(a intake.As, code string) intake.As {
	if i := strings.LastIndexByte(code, '/'); i >= 0 { // units have strokes of their own
		a.Unit, a.Basis = quantity.UnitCode(code[:i]), quantity.Basis(code[i+1:])
	}
	return a
}

// UnitChoices lists the units that a column of readings may be in, none where
// there is no choice.
func (p Presenter) UnitChoices(a intake.As) []Choice {
	if a.Role != intake.Value {
		return nil
	}
	var out []Choice
	for _, k := range journal.KindsOf(a.Reading) {
		for _, u := range quantity.UnitsOf(k) {
			if a.Basis == quantity.BasisNone {
				out = append(out, Choice{string(u.Code) + "/", p.W.Unit(u.Code)})
				continue
			}
			for _, b := range []quantity.Basis{quantity.AsIon, quantity.AsN} {
				out = append(out, Choice{string(u.Code) + "/" + string(b), p.W.Unit(u.Code) + " " + p.W.T(working.Key("word.basis."+string(b)), nil)})
			}
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// Table says what would become of a table, a line each.
func (p Presenter) Table(t keeper.TablePreview) []string {
	return p.table("page.intake.counts", t)
}

// TableDone says what became of a table, a line each.
func (p Presenter) TableDone(t keeper.TablePreview) []string {
	return p.table("page.intake.counts_done", t)
}

func (p Presenter) table(counts working.Key, t keeper.TablePreview) []string {
	n := func(x int) string { return p.W.Number(float64(x), 6) }
	out := []string{p.W.T(counts, i18n.Args{"Taken": n(t.Taken), "Here": n(t.Here), "Refused": n(t.Refused), "Entries": p.W.N("n.entries", float64(t.Entries), nil)})}
	if t.First != "" {
		out = append(out, p.W.T("page.intake.days", i18n.Args{"First": p.day(t.First.Day()), "Last": p.day(t.Last.Day())}))
	}
	if !t.Undoable && t.Entries > 0 {
		out = append(out, p.W.T("page.archive.large", nil))
	}
	return out
}

// Columns says as what each column of readings is taken, in which unit and on which
// basis where the table does not say, a line each.
func (p Presenter) Columns(s *intake.Sheet, plan intake.Plan) []string {
	var out []string
	for i, a := range plan.Columns {
		if a.Role != intake.Value {
			continue
		}
		means := p.W.T(working.Key("reading."+a.Reading), nil)
		if unit := p.W.Unit(a.Unit); unit != "" {
			means = p.W.Comma(means, unit)
		}
		if a.Basis != quantity.BasisNone {
			means += " " + p.W.T(working.Key("word.basis."+string(a.Basis)), nil)
		}
		head := p.W.T("page.intake.column_bare", i18n.Args{"Number": strconv.Itoa(i + 1)})
		if i < len(s.Head) && s.Head[i] != "" {
			head = p.W.T("page.intake.column", i18n.Args{"Number": strconv.Itoa(i + 1), "Name": s.Head[i]})
		}
		out = append(out, head+" · "+means)
	}
	return out
}

// Doubt says that the table does not tell days from months, "" where it does.
func (p Presenter) Doubt(s *intake.Sheet, plan intake.Plan) string {
	text, first, second, doubt := s.Doubt(plan)
	if !doubt {
		return ""
	}
	chosen := first
	if plan.Order == intake.MonthFirst {
		chosen = second
	}
	return p.W.T("page.intake.doubt", i18n.Args{"Text": text, "One": p.W.Date(first), "Other": p.W.Date(second), "Chosen": p.W.Date(chosen)})
}

// Row says what becomes of one row.
func (p Presenter) Row(r keeper.RowReport) string {
	return p.W.T("page.intake.row", i18n.Args{"Line": strconv.Itoa(r.Line), "State": p.W.T(rowStates[r.State], nil), "Why": p.why(r), "Text": r.Text})
}

func (p Presenter) why(r keeper.RowReport) string {
	if r.Err == nil {
		return ""
	}
	words, ok := p.W.Problem(r.Err)
	if !ok {
		words = p.Error(r.Err)
	}
	return words
}

var rowStates = map[keeper.RowState]working.Key{
	keeper.RowTaken: "page.intake.taken", keeper.RowHere: "page.intake.here", keeper.RowRefused: "page.intake.refused",
}

// WriteReport writes what became of each row as a table: line, state, reason, the
// row itself. What a spreadsheet would take for a formula begins with an
// apostrophe. Errors: those of w.
func (p Presenter) WriteReport(w io.Writer, t keeper.TablePreview) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	rows := [][]string{{p.W.T("page.intake.col_line", nil), p.W.T("page.intake.col_state", nil), p.W.T("page.intake.col_why", nil), p.W.T("page.intake.col_row", nil)}}
	for _, r := range t.Rows {
		rows = append(rows, []string{strconv.Itoa(r.Line), p.W.T(rowStates[r.State], nil), journal.PlainText(p.why(r)), journal.PlainText(r.Text)})
	}
	return c.WriteAll(rows)
}
