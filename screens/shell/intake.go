package shell

import (
	"context"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/intake"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

// tableEnding marks a table.
const tableEnding = ".csv"

// How many cells stand for a column, and how many rows are shown. // judgement
const (
	cellsShown = 4
	rowsShown  = 5
	badShown   = 20
)

// table is a table on its way in.
type tableIn struct {
	s     *Shell
	tank  string
	path  string
	sheet *intake.Sheet
	plan  intake.Plan
	hints intake.Hints
	shut  func()
}

// takeTable shows a table with what each of its columns is taken for.
func (s *Shell) takeTable(path string) {
	tank := s.route.Tank
	if tank == "" {
		tanks, err := s.o.Keeper.Tanks(context.Background())
		if err != nil || len(tanks) == 0 {
			s.say(s.t("err.verb.no_tank"), "", nil)
			return
		}
		tank = tanks[len(tanks)-1].ID
	}
	t := &tableIn{s: s, tank: tank, path: path, hints: s.present.Hints(s.o.Now())}
	s.long(s.t("page.intake.reading"), func(context.Context, func(done, total int64)) (err error) {
		if t.sheet, err = s.o.Keeper.OpenCSV(path); err == nil {
			t.plan = t.sheet.Guess(t.hints)
		}
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		t.look()
	})
}

// look reads the rows by the plan and shows what would become of them.
func (t *tableIn) look() {
	var p keeper.TablePreview
	t.s.long(t.s.t("page.intake.reading"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		p, err = t.s.o.Keeper.ReadCSV(ctx, t.tank, t.sheet, t.plan, t.hints)
		return err
	}, func(err error) {
		if err != nil {
			t.s.fail(err)
			return
		}
		t.show(p)
	})
}

func (t *tableIn) show(p keeper.TablePreview) {
	s, w := t.s, t.s.present.W
	list := []fyne.CanvasObject{s.bodyText(s.t("page.intake.what"))}
	if v, err := s.o.Keeper.Brief(context.Background(), t.tank); err == nil {
		list = append(list, s.bodyText(w.T("page.intake.into", i18n.Args{"Name": v.Tank.Name})))
	}
	for _, line := range s.present.Table(p) {
		list = append(list, parts.NewText(parts.TextSpec{Text: line, Role: parts.StrongBody}))
	}
	if doubt := s.present.Doubt(t.sheet, t.plan); doubt != "" {
		list = append(list, s.bodyText(doubt))
	}
	leave := func() { t.shut() }
	row, focus := s.buttons("take", "page.intake.take", func() { t.shut(); t.take() }, leave)
	if p.Entries == 0 {
		row, focus = s.buttons("close", "label.close", leave, leave)
	}
	list = append(list, t.customs())
	for i := range t.plan.Columns {
		list = append(list, t.column(i))
	}
	list = append(list, parts.NewPanel(s.t("page.intake.first_rows"), t.rows(p, false, rowsShown)...))
	if p.Refused > 0 {
		list = append(list, parts.NewPanel(s.t("page.intake.refused_rows"), t.rows(p, true, badShown)...))
	}
	t.shut = s.dialog(filepath.Base(t.path), parts.NewColumn(10, list...), row)
	focus()
}

// again shows everything anew after a change of the plan.
func (t *tableIn) again() {
	t.shut()
	t.look()
}

func (t *tableIn) choice(id string, label working.Key, chosen string, from []present.Choice, change func(string)) fyne.CanvasObject {
	var options []parts.Option
	for _, c := range from {
		options = append(options, parts.Option{Code: c.Code, Label: c.Name})
	}
	return parts.NewChoice(parts.ChoiceSpec{ID: id, Label: t.s.t(label), Chosen: chosen, Options: options, Search: t.s.t("label.search")}, func(code string) {
		change(code)
		t.again()
	})
}

// customs are how the table writes dates and numbers.
func (t *tableIn) customs() fyne.CanvasObject {
	s := t.s
	mark := map[rune]string{'.': "point", ',': "comma"}
	return parts.NewColumn(6, parts.NewRow(
		t.choice("order", "page.intake.order", string(t.plan.Order), []present.Choice{{Code: string(intake.DayFirst), Name: s.t("page.intake.order_dmy")}, {Code: string(intake.MonthFirst), Name: s.t("page.intake.order_mdy")}},
			func(code string) { t.plan.Order = intake.Order(code) }),
		t.choice("decimal", "page.intake.decimal", mark[t.plan.Decimal], []present.Choice{{Code: "point", Name: s.t("page.intake.decimal_point")}, {Code: "comma", Name: s.t("page.intake.decimal_comma")}},
			func(code string) { t.plan.Decimal = map[string]rune{"point": '.', "comma": ','}[code] })),
		s.bodyText(s.t("page.intake.noon")))
}

// column is what one column holds and is taken for.
func (t *tableIn) column(i int) fyne.CanvasObject {
	s, as := t.s, t.plan.Columns[i]
	title := s.present.W.T("page.intake.column_bare", i18n.Args{"Number": strconv.Itoa(i + 1)})
	if name := t.sheet.Name(i); name != "" {
		title = s.present.W.T("page.intake.column", i18n.Args{"Number": strconv.Itoa(i + 1), "Name": name})
	}
	id := strconv.Itoa(i)
	row := []fyne.CanvasObject{t.choice("means-"+id, "page.intake.means", present.RoleCode(as), s.present.RoleChoices(), func(code string) { t.plan.Columns[i] = present.RoleOf(code, t.hints) })}
	if units := s.present.UnitChoices(as); len(units) > 0 {
		row = append(row, t.choice("unit-"+id, "page.intake.unit", present.UnitCode(as), units, func(code string) { t.plan.Columns[i] = present.WithUnit(as, code) }))
	}
	cells := strings.Join(t.sheet.Sample(i, cellsShown), " · ")
	if r := []rune(cells); len(r) > 120 {
		cells = string(r[:119]) + "…"
	}
	return parts.NewPanel(title, s.bodyText(s.present.W.T("page.intake.samples", i18n.Args{"Cells": cells})), parts.NewRow(row...))
}

func (t *tableIn) rows(p keeper.TablePreview, refused bool, most int) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, r := range p.Rows {
		if refused && r.State != keeper.RowRefused {
			continue
		}
		if out = append(out, t.s.bodyText(t.s.present.Row(r))); len(out) == most {
			break
		}
	}
	return out
}

// take adds the entries and writes the report beside the table.
func (t *tableIn) take() {
	s := t.s
	var p keeper.TablePreview
	report := strings.TrimSuffix(filepath.Base(t.path), filepath.Ext(t.path)) + "-report.csv"
	s.long(s.t("page.intake.taking"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		if p, err = s.o.Keeper.TakeCSV(ctx, t.tank, t.sheet, t.plan, t.hints); err != nil {
			return err
		}
		report, err = s.keepFile(ctx, report, func(_ context.Context, w io.Writer) error { return s.present.WriteReport(w, p) })
		return err
	}, func(err error) {
		s.page.Refresh()
		s.changed()
		if err != nil {
			s.fail(err)
			return
		}
		undo, label := s.Undo, s.t("label.undo")
		if p.Snapshot != "" || t.tank != s.route.Tank {
			undo, label = nil, ""
		}
		s.say(s.present.W.T("page.intake.done", i18n.Args{"Entries": s.present.W.N("n.entries", float64(p.Entries), nil), "Path": report}), label, undo)
	})
}
