package shell

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/region"
	"example.org/driploop/model/water"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// ShowSettings is the panel of language, units, region and look. Each choice is
// in force at once.
func (s *Shell) ShowSettings() {
	var shut func()
	change := func(f func(*Prefs, string)) func(string) {
		return func(code string) {
			p := s.prefs
			f(&p, code)
			shut()
			s.SetPrefs(p)
			s.ShowSettings()
		}
	}
	choice := func(id string, label working.Key, chosen string, options []parts.Option, f func(*Prefs, string)) fyne.CanvasObject {
		return parts.NewChoice(parts.ChoiceSpec{ID: id, Label: s.t(label), Chosen: chosen, Options: options, Search: s.t("label.search")}, change(f))
	}
	var langs, units, places, sizes []parts.Option
	for _, l := range i18n.Languages() {
		langs = append(langs, parts.Option{Code: l, Label: i18n.NameOf(l)})
	}
	for _, u := range quantity.Systems() {
		units = append(units, parts.Option{Code: string(u), Label: s.t(working.Key("system." + string(u)))})
	}
	for _, c := range s.present.W.Countries(region.Codes()) {
		places = append(places, parts.Option{Code: c.Code, Label: c.Name})
	}
	places = append(places, parts.Option{Code: elsewhere, Label: s.t("region.none")})
	for _, n := range textSizes {
		sizes = append(sizes, parts.Option{Code: strconv.Itoa(n), Label: s.present.W.Percent(float64(n) / 100)})
	}
	looks := []parts.Option{{Code: "system", Label: s.t("menu.theme_system")}, {Code: "light", Label: s.t("menu.theme_light")}, {Code: "dark", Label: s.t("menu.theme_dark")}}
	here := s.present.Region.Code
	if !s.present.Region.Known() {
		here = elsewhere
	}
	motion := working.Key("menu.motion")
	if s.calm {
		motion = "menu.motion_calm"
	}
	still := parts.NewTick(parts.TickSpec{ID: "still", Text: s.t(motion), Done: s.prefs.Still}, func(done bool) {
		change(func(p *Prefs, _ string) { p.Still = done })("")
	})
	line, solids := s.emergencyField(), s.solidsField()
	close := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close"), Kind: parts.Primary}, func() { shut() })
	first := choice("language", "menu.language", s.prefs.Lang, langs, func(p *Prefs, c string) { p.Lang = c })
	shut = s.dialog(s.t("menu.settings"), parts.NewColumn(10,
		first, choice("units", "menu.units", string(s.prefs.Units), units, func(p *Prefs, c string) { p.Units = quantity.System(c) }), // whose names are long
		parts.NewRow(choice("region", "menu.region", here, places, func(p *Prefs, c string) {
			if p.Region = c; c == elsewhere {
				p.Region = ""
			}
		}), choice("theme", "menu.theme", themeName(s.prefs.Theme), looks, func(p *Prefs, c string) { p.Theme = themes[c] })),
		parts.NewText(parts.TextSpec{Text: s.usualHere(), Role: parts.Note}),
		parts.NewRow(choice("text", "menu.text", strconv.Itoa(s.prefs.Text), sizes, func(p *Prefs, c string) { p.Text, _ = strconv.Atoi(c) }), still),
		s.remindTick(), line, solids, s.doubleClick(),
		parts.NewText(parts.TextSpec{Text: s.present.W.Colon(s.t("menu.data"), s.o.Keeper.Dir()), Role: parts.Note}),
		parts.NewText(parts.TextSpec{Text: s.t("menu.about"), Role: parts.Note})), parts.NewFlow(close))
	if c, ok := first.(fyne.Focusable); ok && s.canvas() != nil {
		s.canvas().Focus(c)
	}
}

// emergencyField asks for the line of an emergency, which is judgement: kept when
// Enter is typed or the focus goes; what cannot be taken stays in the box and is not.
func (s *Shell) emergencyField() *parts.Field {
	w, ctx := s.present.W, context.Background()
	kind := quantity.KindConcentration
	spec := parts.FieldSpec{ID: "emergency", Label: s.t("menu.judgement"), Unit: w.Unit(w.DefaultUnit(kind, i18n.General)),
		Hint: w.T("menu.judgement_hint", i18n.Args{"Least": w.Quantity(water.HarmNH3N.Value()), "Most": w.Quantity(water.MostEmergency.Value()), "Usual": w.Quantity(water.EmergencyNH3.Value())})}
	if m, err := s.o.Keeper.EmergencyLine(ctx); err == nil && !m.IsZero() {
		spec.Text, spec.Unit = strings.Replace(m.Number, ".", string(w.Decimal()), 1), w.Unit(m.Unit)
	}
	return s.ownField(spec, kind, w.Reading(kind, i18n.General), s.o.Keeper.SetEmergencyLine)
}

// solidsField asks for the factor from conductivity to dissolved solids, which is
// common practice.
func (s *Shell) solidsField() *parts.Field {
	w := s.present.W
	spec := parts.FieldSpec{ID: "solids", Label: s.t("menu.solids"),
		Hint: w.T("menu.solids_hint", i18n.Args{"Least": w.Number(float64(water.LeastSolidsFactor), 2), "Most": w.Number(float64(water.MostSolidsFactor), 2), "Usual": w.Number(float64(water.SolidsFactor), 2)})}
	if factor, own, err := s.o.Keeper.SolidsFactor(context.Background()); err == nil && own {
		spec.Text = w.Number(float64(factor), 4)
	}
	reading := w.Reading(quantity.KindRatio, i18n.General)
	reading.Unit = "one"
	return s.ownField(spec, quantity.KindRatio, reading, func(ctx context.Context, m quantity.Measure) error {
		if m.IsZero() {
			return s.o.Keeper.SetSolidsFactor(ctx, 0)
		}
		v, err := m.Value()
		if err != nil {
			return err
		}
		if v.X == 0 { // typed, and no wish for the usual one
			return water.AcceptSolidsFactor(0)
		}
		return s.o.Keeper.SetSolidsFactor(ctx, quantity.Ratio(v.X))
	})
}

// ownField is a box for a figure that decides something, which the person may set
// in place of the usual one: kept when Enter is typed or the focus goes.
func (s *Shell) ownField(spec parts.FieldSpec, kind quantity.Kind, reading quantity.Reading, keep func(context.Context, quantity.Measure) error) *parts.Field {
	w := s.present.W
	f := parts.NewField(spec)
	refuse := func(err error) {
		spec := f.Spec()
		spec.Error, _ = w.Problem(err)
		f.Set(spec)
	}
	f.OnCommit = func(text string) {
		var m quantity.Measure
		if strings.TrimSpace(text) != "" {
			var err error
			if m, err = quantity.Parse(text, kind, reading); err != nil {
				refuse(err)
				return
			}
		}
		s.work(func(ctx context.Context) error { return keep(ctx, m) }, func(err error) {
			if _, ok := w.Problem(err); err != nil && !ok {
				s.fail(err)
				return
			}
			refuse(err)
			s.page.Refresh()
		})
	}
	return f
}

// elsewhere is the choice of a country that the table of regions does not have.
const elsewhere = "none"

// usualHere tells what the region decides: the mains and what guards them, paper,
// the week, the number to call, and what tap water is usually treated with.
func (s *Shell) usualHere() string {
	w, r := s.present.W, s.present.Region
	lines := []string{w.T("menu.region_here", i18n.Args{"Volts": w.Quantity(r.Mains()), "Protection": w.T(r.Protection(), nil),
		"Paper": paper.SizeFor(r.Code).Name, "Day": w.Weekday(r.FirstWeekday())}), s.emergency()}
	if f, ok := care.Supply(r); ok {
		lines = append(lines, s.present.Say(f))
	}
	return strings.Join(lines, "\n")
}

// ShowSafety lists every safety note, from anywhere, by one key: what to do when it
// has happened first, with the number to call.
func (s *Shell) ShowSafety() {
	if s.safety != nil && slices.Contains(s.panels, s.safety) { // open already
		return
	}
	var shut func()
	list := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: s.emergency(), Role: parts.Section})}
	for _, n := range care.Notes() {
		list = append(list, parts.NewSafety(nav.Panel(s.present.Note(n)), nil))
	}
	close := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close"), Kind: parts.Primary}, func() { shut() })
	s.safety = parts.NewColumn(10, list...)
	shut = s.dialog(s.t("menu.safety"), s.safety, parts.NewFlow(close))
	if c := s.canvas(); c != nil {
		c.Focus(close)
	}
}

// emergency names the number to call, and says so where it wants checking.
func (s *Shell) emergency() string {
	key := working.Key("menu.emergency")
	if s.present.Region.Emergency().Rule == "" {
		key = "menu.emergency_check"
	}
	return s.present.W.T(key, i18n.Args{"Emergency": s.present.Emergency()})
}

// ShowSources lists where the figures come from and how sure each is.
func (s *Shell) ShowSources() {
	var shut func()
	close := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close"), Kind: parts.Primary}, func() { shut() })
	var list []fyne.CanvasObject
	if !i18n.English(s.present.W.Language()) {
		list = append(list, parts.NewText(parts.TextSpec{Text: s.t("menu.sources_english"), Role: parts.Note}))
	}
	for _, src := range working.Sources() {
		list = append(list, parts.NewText(parts.TextSpec{Text: src.Cite + " · " + s.present.W.Origin(src.Origin), Role: parts.Body}))
	}
	shut = s.dialog(s.t("menu.sources"), parts.NewColumn(8, list...), parts.NewFlow(close))
	if c := s.canvas(); c != nil {
		c.Focus(close)
	}
}
