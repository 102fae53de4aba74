package photos

import (
	"context"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
)

// tellers say who told when a picture was taken.
var tellers = map[keeper.TakenFrom]working.Key{
	keeper.TakenUnknown:  "page.photo.taken_unknown",
	keeper.TakenByCamera: "page.photo.taken_camera",
	keeper.TakenByFile:   "page.photo.taken_file",
	keeper.TakenByPerson: "page.photo.taken_person",
}

// taken is the box of when the picture was taken.
func (p *bench) taken() fyne.CanvasObject {
	s := p.shot()
	id := s.photo.ID
	spec := parts.FieldSpec{ID: "taken", Label: p.t("page.photo.taken"), Hint: p.t(tellers[s.photo.TakenFrom])}
	if t, err := s.photo.Taken.Parse(); err == nil {
		spec.Text = t.Format(i18n.WhenLayout)
	}
	refuse := func(err error) bool {
		words, ok := p.deps.Present.W.Problem(err)
		f, is := p.made["taken"+s.id].(*parts.Field)
		if ok && is {
			spec.Error = words
			f.Set(spec)
		}
		return ok
	}
	return p.field("taken", spec, func(text string) {
		t, err := time.Parse(i18n.WhenLayout, strings.TrimSpace(strings.Replace(text, "T", " ", 1)))
		if err != nil {
			refuse(working.Refuse("at", "refuse.journal.time"))
			return
		}
		p.deps.Work(func(ctx context.Context) error {
			return p.deps.Keeper.SetPhotoTaken(ctx, p.tank, keeper.Taken{ID: id, At: journal.CivilOf(t), From: keeper.TakenByPerson})
		}, func(err error) {
			switch {
			case err != nil && refuse(err):
			case err != nil:
				p.deps.Fail(err)
			default:
				p.deps.Changed()
				p.Refresh()
			}
		})
	})
}
