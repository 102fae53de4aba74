package shell

import (
	"context"
	"path/filepath"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// pictureEndings let files of pictures through the chooser; what a file is, its
// content decides.
var pictureEndings = func() endings {
	out := endings{}
	for _, f := range photo.Formats() {
		out[f.Extension()] = true
	}
	for e := range otherEndings {
		out[e] = true
	}
	return out
}()

// otherEndings are endings that a format has beside its own.
var otherEndings = map[string]photo.Format{".jpeg": photo.JPEG, ".jpe": photo.JPEG, ".heif": photo.HEIC, ".tif": photo.TIFF}

// endings let files through by their ending, in capitals too.
type endings map[string]bool

// mostSheets is how many pictures dropped at once are looked at for a printed
// profile. Judgement: a sheet is a picture or a few, an outing of pictures is many.
const mostSheets = 4

// Dropped takes what was dropped on the window: profiles and archives are
// offered for taking, and so is a printed profile that a picture shows; anything else
// is taken for pictures, by what is open where it wants them.
func (s *Shell) Dropped(paths []string) {
	var pictures, visits []string
	for _, p := range paths {
		switch {
		case s.route.Place == nav.Desk && strings.EqualFold(filepath.Ext(p), visitEnding):
			visits = append(visits, p) // whoever drops a slip on the desk wants it there
		case taking(p):
			s.TakeFile(p)
		default:
			pictures = append(pictures, p)
		}
	}
	if len(visits) > 0 {
		s.receiveVisits(visits, s.page.Refresh)
	}
	if len(pictures) == 0 {
		return
	}
	if s.route.Tank == "" || s.route.Place.InBar() == nav.Counter { // no daybook is open that would want them
		s.takeSheet(&slip.Sheet{}, pictures)
		return
	}
	take := func() {
		if d, ok := s.page.(nav.Dropper); ok && d.Dropped(pictures) {
			return
		}
		s.pictures(s.route.Tank, keeper.AddOptions{}, pictures, nil)
	}
	if len(pictures) > mostSheets {
		take()
		return
	}
	sheet := false
	s.aside.do(func(ctx context.Context) {
		for _, p := range pictures {
			sheet = sheet || isPicture(p) && s.o.Keeper.ShowsSheet(ctx, p)
		}
	}, func() {
		if sheet {
			s.takeSheet(&slip.Sheet{}, pictures)
			return
		}
		take()
	})
}

// AddPictures asks for pictures to take into the daybook of the tank.
func (s *Shell) AddPictures() { s.pictures(s.route.Tank, keeper.AddOptions{}, nil, nil) }

// pictures takes files and folders in; with none it asks for them.
func (s *Shell) pictures(tank string, o keeper.AddOptions, paths []string, then func(keeper.Added)) {
	if len(paths) == 0 {
		s.choosePictures(tank, o, then)
		return
	}
	sources := make([]photo.Source, len(paths))
	for i, p := range paths {
		sources[i] = photo.Source{Path: p}
	}
	s.takeIn(tank, o, sources, then)
}

// choosePictures shows the ways to give pictures.
func (s *Shell) choosePictures(tank string, o keeper.AddOptions, then func(keeper.Added)) {
	var shut func()
	way := func(id, label string, do func()) *parts.Button {
		return parts.NewButton(parts.ButtonSpec{ID: id, Label: label}, func() {
			shut()
			do()
		})
	}
	first := way("choose_file", s.t("page.photo.choose_file"), func() {
		s.chooseFiles("page.photo.choose_file", s.pictureKinds(), true, func(paths []string) { s.pictures(tank, o, paths, then) })
	})
	shut = s.dialog(s.t("page.photo.add"), parts.NewText(parts.TextSpec{Text: s.t("page.photo.ways"), Role: parts.SoftBody}),
		parts.NewFlow(first, way("paste", s.t("page.photo.paste"), func() { s.paste(tank, o, then) }),
			parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(first)
	}
}

// pictureKinds are the kinds of pictures, all of them first.
func (s *Shell) pictureKinds() []fileKind {
	out := []fileKind{{"all", s.t("page.choose.all_pictures"), pictureEndings}}
	for _, f := range photo.Formats() {
		k := fileKind{string(f), strings.ToUpper(string(f)), endings{f.Extension(): true}}
		for also, of := range otherEndings {
			if of == f {
				k.endings[also] = true
			}
		}
		out = append(out, k)
	}
	return out
}

// takeIn takes sources in beside the window, showing how far it is.
func (s *Shell) takeIn(tank string, o keeper.AddOptions, sources []photo.Source, then func(keeper.Added)) {
	if tank == "" {
		s.say(s.t("page.photo.no_tank"), "", nil)
		return
	}
	w := s.present.W
	bar := parts.NewBar(parts.BarSpec{Name: s.t("page.photo.looking")})
	ctx, stop := context.WithCancel(s.aside.ctx)
	cancel := parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, nil)
	cancel.OnPressed = func() {
		cancel.Set(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel"), Busy: true})
		stop()
	}
	shut := s.dialogBack(s.t("page.photo.adding"), bar, cancel.OnPressed, parts.NewFlow(cancel))
	if c := s.canvas(); c != nil {
		c.Focus(cancel)
	}
	var added keeper.Added
	var err error
	s.aside.do(func(context.Context) {
		defer stop()
		added, err = s.o.Keeper.AddPhotos(ctx, tank, sources, o, func(p keeper.Progress) {
			s.aside.post(func() {
				bar.Set(parts.BarSpec{Name: p.Name, Share: float64(p.Done) / float64(max(p.Total, 1)),
					Text: w.T("page.photo.progress", i18n.Args{"Done": p.Done, "Total": p.Total})})
			})
		})
	}, func() {
		shut()
		if err != nil {
			s.fail(err)
			return
		}
		s.changed()
		if s.route.Tank == tank {
			s.page.Refresh()
		}
		s.tellAdded(tank, added)
		if then != nil {
			then(added)
		}
	})
}
