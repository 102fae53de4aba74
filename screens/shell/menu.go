package shell

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// digits are the keys of the places of the bar, in order.
var digits = []fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8, fyne.Key9}

func (s *Shell) t(k working.Key) string { return s.present.W.T(k, nil) }

// Menu is the main menu. Every shortcut is an item of it, for there it works
// while a box has the focus too.
func (s *Shell) Menu() *fyne.MainMenu {
	item := func(k working.Key, do func(), key fyne.KeyName) *fyne.MenuItem {
		m := fyne.NewMenuItem(s.t(k), do)
		if key != "" {
			m.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault}
		}
		return m
	}
	tank := s.route.Tank
	items := []*fyne.MenuItem{item("menu.start", func() { s.Go(nav.Route{Place: nav.Start}) }, fyne.KeyN)}
	if tank != "" {
		remove := working.Key("menu.remove")
		retire := working.Key("menu.retire")
		if v, err := s.o.Keeper.Brief(context.Background(), tank); err == nil {
			if v.Tank.Origin == keeper.Example {
				remove = "menu.remove_example"
			}
			if !v.Tank.Retired.IsZero() {
				retire = "menu.reuse"
			}
		}
		items = append(items, item("menu.rename", s.rename, ""), item("menu.sheet", func() { s.print(string(paper.Sheet), tank) }, fyne.KeyP),
			item("menu.kit_list", func() { s.print(string(paper.Kit), tank) }, ""), item("menu.table", func() { s.table(tank) }, ""), item("menu.save_profile", s.makeProfile, ""), item(retire, s.retire, ""), item(remove, s.remove, ""))
	}
	items = append(items, item("page.start.profile", s.openProfile, fyne.KeyO), item("menu.open_reply", s.openReply, ""), item("menu.open_visit", s.openVisit, ""))
	quit := item("menu.quit", func() { s.o.App.Quit() }, fyne.KeyQ)
	quit.IsQuit = true
	items = append(items, fyne.NewMenuItemSeparator(), quit)

	edit := []*fyne.MenuItem{}
	if tank != "" {
		paste := item("menu.paste_pictures", s.PastePictures, fyne.KeyV)
		paste.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyV, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
		edit = append(edit, fyne.NewMenuItemSeparator(), item("menu.add_pictures", s.AddPictures, fyne.KeyI), paste)
	}
	undo, redo := item("label.undo", s.takeBack, ""), item("label.redo", s.Redo, "")
	// The toolkit has shortcuts of its own for these keys, and asks for them only.
	undo.Shortcut, redo.Shortcut = &fyne.ShortcutUndo{}, &fyne.ShortcutRedo{}
	if label, values, ok := s.o.Keeper.UndoLabel(context.Background(), s.route.Record()); ok {
		undo.Label = s.present.W.Colon(s.t("label.undo"), s.present.UndoName(label, values))
	} else {
		undo.Disabled = true
	}
	if label, values, ok := s.o.Keeper.RedoLabel(context.Background(), s.route.Record()); ok {
		redo.Label = s.present.W.Colon(s.t("label.redo"), s.present.UndoName(label, values))
	} else {
		redo.Disabled = true
	}
	goes := []*fyne.MenuItem{}
	if tank != "" {
		for i, p := range nav.Places() {
			m := fyne.NewMenuItem(s.present.PlaceName(string(p)), func() { s.Go(nav.Route{Place: p, Tank: tank}) })
			if i < len(digits) {
				m.Shortcut = &desktop.CustomShortcut{KeyName: digits[i], Modifier: fyne.KeyModifierShortcutDefault}
			}
			goes = append(goes, m)
		}
	}
	if tank != "" {
		goes = append(goes, item("page.sick.button", func() { s.Go(nav.Route{Place: nav.Sick, Tank: tank}) }, fyne.KeyE), item("menu.visit", func() { s.Go(nav.Route{Place: nav.Visit, Tank: tank}) }, ""))
	}
	if tank == "" {
		goes = append(goes, item("nav.counter", func() { s.Go(nav.Route{Place: nav.Counter}) }, ""))
	}
	goes = append(goes, item("nav.view.kinds", func() { s.Go(nav.Route{Place: nav.Kinds, Tank: tank}) }, fyne.KeyK))
	back := item("label.back", s.Back, fyne.KeyLeft)
	back.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierAlt}
	goes = append(goes, back)
	aloud := working.Key("menu.read_out")
	if s.hush != nil {
		aloud = "menu.read_stop"
	}
	help := []*fyne.MenuItem{item("menu.safety", s.ShowSafety, fyne.KeyH), item("menu.sources", s.ShowSources, "")}
	return fyne.NewMainMenu(fyne.NewMenu(s.t("menu.tank"), items...), fyne.NewMenu(s.t("menu.edit"), append([]*fyne.MenuItem{undo, redo}, edit...)...), s.outAndIn(), fyne.NewMenu(s.t("menu.go"), goes...),
		fyne.NewMenu(s.t("menu.view"), item("menu.copy_page", s.copyPage, ""), item(aloud, s.readOut, ""), fyne.NewMenuItemSeparator(), item("menu.settings", s.ShowSettings, fyne.KeyComma)), fyne.NewMenu(s.t("menu.help"), help...))
}

func (s *Shell) walk(step func(context.Context, string) (working.Key, map[string]string, error), said working.Key) {
	tank := s.route.Record()
	var label working.Key
	var values map[string]string
	s.work(func(ctx context.Context) (err error) { label, values, err = step(ctx, tank); return err }, func(err error) {
		switch {
		case quiet(err):
			return
		case err != nil:
			s.fail(err)
			return
		}
		if tank == "" && s.route.Place != nav.Counter {
			s.open(nav.Route{Place: nav.Start})
		} else {
			s.page.Refresh()
		}
		s.changed()
		s.say(s.present.W.T(said, i18n.Args{"What": s.present.UndoName(label, values)}), "", nil)
	})
}

func (s *Shell) rename() {
	v, err := s.o.Keeper.Brief(context.Background(), s.route.Tank)
	if err != nil {
		s.fail(err)
		return
	}
	tank := s.route.Tank
	f := parts.NewField(parts.FieldSpec{ID: "name", Label: s.t("page.fill.name"), Text: v.Tank.Name})
	var shut func()
	save := func() {
		name := f.Text()
		s.work(func(ctx context.Context) error { return s.o.Keeper.RenameTank(ctx, tank, name) }, func(err error) {
			if words, ok := s.present.W.Problem(err); err != nil && ok {
				spec := f.Spec()
				spec.Error = words
				f.Set(spec)
				return
			}
			shut()
			s.fail(err)
			s.changed()
		})
	}
	f.OnEnter = save
	shut = s.dialog(s.t("menu.rename"), f, parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "keep", Label: s.t("page.day.keep"), Kind: parts.Primary}, save),
		parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(f.Focusable())
	}
}

// remove puts the tank aside, with the way back at hand.
func (s *Shell) remove() {
	tank := s.route.Tank
	v, err := s.o.Keeper.Brief(context.Background(), tank)
	if err != nil {
		s.fail(err)
		return
	}
	s.work(func(ctx context.Context) error { return s.o.Keeper.RemoveTank(ctx, tank) }, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.Go(nav.Route{Place: nav.Start})
		s.changed()
		s.say(s.present.W.T("menu.removed", i18n.Args{"Name": v.Tank.Name}), s.t("label.undo"), s.undoList)
	})
}

// takeBack takes back what is half typed in a box, else the latest change.
func (s *Shell) takeBack() {
	if c := s.canvas(); c == nil || !parts.TakeBack(c.Focused()) {
		s.Undo()
	}
}

// undoList takes back the latest change of the list of tanks, and shows it.
func (s *Shell) undoList() {
	s.Go(nav.Route{Place: nav.Start})
	s.Undo()
}
