package shell

import (
	"context"
	"errors"
	"maps"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// slipKinds are the kinds of files in which a slip is looked for: its own and pictures
// of its paper together, and pictures alone.
func (s *Shell) slipKinds(both working.Key, ending string) []fileKind {
	all := endings{ending: true}
	maps.Copy(all, pictureEndings)
	return []fileKind{{"all", s.t(both), all}, {"pictures", s.t("page.choose.profile_pictures"), pictureEndings}}
}

// takeSlips shows the first file of a slip among paths, else the slip of the paper in
// the pictures.
func (s *Shell) takeSlips(paths []string) {
	for _, p := range paths {
		if !isPicture(p) {
			s.TakeFile(p)
			return
		}
	}
	s.takeSheet(&slip.Sheet{}, paths)
}

func isPicture(path string) bool { return pictureEndings[strings.ToLower(filepath.Ext(path))] }

// takeSheet reads pictures of a printed profile, visit slip or reply beside the window,
// and shows it as its file is shown once all of its codes are there; while some are
// missing it asks for more pictures.
func (s *Shell) takeSheet(sheet *slip.Sheet, paths []string) {
	var shut func()
	ctx, stop := context.WithCancel(s.aside.ctx)
	cancel := parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, stop)
	shut = s.dialogBack(s.t("page.sheet.reading"), parts.NewText(parts.TextSpec{Text: s.t("page.sheet.reading_text"), Role: parts.Body}), stop, parts.NewFlow(cancel))
	if c := s.canvas(); c != nil {
		c.Focus(cancel)
	}
	var wrong error
	var o keeper.Opened
	s.aside.do(func(context.Context) {
		defer stop()
		if wrong = s.o.Keeper.ReadSheet(ctx, sheet, paths...); wrong == nil && sheet.Whole() {
			o, wrong = s.o.Keeper.OpenSheet(ctx, sheet)
		}
	}, func() {
		shut()
		have, of := sheet.Have()
		switch {
		case errors.Is(wrong, context.Canceled):
		case have > 0 && !sheet.Whole():
			s.missing(sheet, have, of, wrong)
		case wrong != nil:
			s.refused(wrong)
		case o.Format == slip.FormatVisit:
			s.lookAt(o.Visit, o.Found, arrival{name: filepath.Base(paths[0]), file: o.File})
		case o.Format == slip.FormatReply:
			s.offerReply(o.Reply, o.Found)
		default:
			s.offer(o.Profile, o.Found, nil)
		}
	})
}

// missing says how many codes of a sheet are there and asks for pictures of the rest.
func (s *Shell) missing(sheet *slip.Sheet, have, of int, wrong error) {
	w := s.present.W
	var shut func()
	list := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.T("page.sheet.some", i18n.Args{"Have": have, "Of": of}), Role: parts.Body})}
	if words, ok := w.Problem(wrong); wrong != nil && ok {
		list = append(list, parts.NewText(parts.TextSpec{Text: words, Role: parts.Body}))
	}
	more := parts.NewButton(parts.ButtonSpec{ID: "more-pictures", Label: s.t("page.sheet.more"), Kind: parts.Primary}, func() {
		shut()
		s.chooseFiles("page.sheet.more", s.pictureKinds(), true, func(paths []string) { s.takeSheet(sheet, paths) })
	})
	shut = s.dialog(s.t("page.sheet.heading"), parts.NewColumn(8, list...),
		parts.NewFlow(more, parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(more)
	}
}
