package shell

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/claim"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// doubleClick is the part of the settings that has the system open our files with
// this program, and takes that back: how it stands, what is written for it, and a
// button for each way that is open. It is nothing where the system takes no such
// record.
func (s *Shell) doubleClick() fyne.CanvasObject {
	part := parts.NewColumn(6)
	if s.o.Files == nil {
		return part
	}
	var x *claim.Claim // reads the messages of every language
	s.work(func(context.Context) error {
		x = s.o.Files()
		return nil
	}, func(error) {
		if x != nil {
			s.showDoubleClick(*x, part, "")
		}
	})
	return part
}

// showDoubleClick shows how it stands now, with what the last change wants said, and
// gives the first of its buttons.
func (s *Shell) showDoubleClick(x claim.Claim, part *parts.Column, said string) *parts.Button {
	x.Lang = s.prefs.Lang
	state, err := x.State()
	if err != nil {
		s.fail(err)
		return nil
	}
	change := func(do func() error) func() {
		return func() {
			s.work(func(context.Context) error { return do() }, func(err error) {
				said := ""
				var tool *claim.ToolError
				switch {
				case errors.As(err, &tool):
					said = s.present.W.T("page.files.tool", i18n.Args{"Tool": tool.Tool})
				case err != nil:
					s.fail(err)
				}
				if b := s.showDoubleClick(x, part, said); b != nil && s.canvas() != nil {
					s.canvas().Focus(b)
				}
			})
		}
	}
	var ways []fyne.CanvasObject
	var first *parts.Button
	way := func(id string, label working.Key, do func() error) {
		b := parts.NewButton(parts.ButtonSpec{ID: id, Label: s.t(label)}, change(do))
		if ways = append(ways, b); first == nil {
			first = b
		}
	}
	if !state.Made {
		way("files-open", "page.files.make", x.Make)
	}
	if state.Some {
		way("files-leave", "page.files.leave", x.TakeBack)
	}
	list := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: s.present.Files(state), Role: parts.Body})}
	if said != "" {
		list = append(list, parts.NewText(parts.TextSpec{Text: said, Role: parts.Refusal}))
	}
	part.Set(append(list, parts.NewFlow(ways...), parts.NewText(parts.TextSpec{Text: s.present.FilesPlaces(state), Role: parts.Note}))...)
	return first
}
