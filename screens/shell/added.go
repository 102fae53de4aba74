package shell

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

// tellAdded says what became of the pictures given: in the line below when there
// is nothing more to say, else in a panel.
func (s *Shell) tellAdded(tank string, a keeper.Added) {
	w := s.present.W
	head := w.N("n.photos_added", float64(len(a.Photos)), nil)
	if len(a.Photos) == 0 {
		head = s.t("page.photo.none_added")
	}
	if a.Cancelled {
		head = i18n.Sentences(s.t("page.photo.stopped"), head)
	}
	if len(a.Undated)+len(a.Twice)+len(a.Refused)+len(a.Broken)+a.Passed == 0 && !a.Cut {
		if len(a.Photos) == 0 {
			s.say(head, "", nil)
			return
		}
		s.say(head, s.t("label.undo"), s.Undo)
		return
	}
	out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: head, Role: parts.StrongBody})}
	say := func(text string, role parts.Role) {
		out = append(out, parts.NewText(parts.TextSpec{Text: text, Role: role}))
	}
	if n := len(a.Twice); n > 0 {
		var names []string
		for _, t := range a.Twice {
			names = append(names, t.Name)
		}
		say(w.N("n.photos_twice", float64(n), nil), parts.StrongBody)
		say(s.some(names), parts.SoftBody)
	}
	if n := len(a.Refused); n > 0 {
		say(w.N("n.photos_refused", float64(n), nil), parts.StrongBody)
		by := map[string][]string{}
		var order []string
		for _, r := range a.Refused {
			why, _ := w.Problem(r.Problem)
			if by[why] == nil {
				order = append(order, why)
			}
			by[why] = append(by[why], r.Name)
		}
		for _, why := range order {
			say(w.Colon(s.some(by[why]), why), parts.SoftBody)
		}
	}
	if n := len(a.Broken); n > 0 {
		say(w.N("n.photos_broken", float64(n), nil), parts.SoftBody)
	}
	if a.Passed > 0 {
		say(w.N("n.photos_passed", float64(a.Passed), nil), parts.SoftBody)
	}
	if a.Cut {
		say(s.t("page.photo.cut"), parts.SoftBody)
	}
	var shut func()
	done := parts.NewButton(parts.ButtonSpec{ID: "done", Label: s.t("label.done"), Kind: parts.Primary}, func() { shut() })
	first, foot := fyne.Focusable(done), fyne.CanvasObject(parts.NewFlow(done))
	if len(a.Undated) > 0 {
		box, rest, buttons := s.askTimes(tank, a.Undated, func() { shut() })
		out, foot, first = append(out, rest...), buttons, box
	}
	shut = s.dialog(s.t("page.photo.added"), parts.NewColumn(10, out...), foot)
	if c := s.canvas(); c != nil {
		c.Focus(first)
	}
}

// some lists names, the first few and how many more.
func (s *Shell) some(names []string) string {
	const most = 6 // judgement: a line or two
	if len(names) <= most {
		return s.present.W.Comma(names...)
	}
	return s.present.W.N("n.photos_more", float64(len(names)-most), i18n.Args{"Names": s.present.W.Comma(names[:most]...)})
}

// askTimes asks when pictures were taken that do not tell: as their files say, or
// all at a time that is typed, or left without: what takes the focus, what asks,
// and the buttons.
func (s *Shell) askTimes(tank string, undated []keeper.UndatedPhoto, shut func()) (fyne.Focusable, []fyne.CanvasObject, fyne.CanvasObject) {
	w := s.present.W
	names := make([]string, len(undated))
	var byFile []keeper.Taken
	for i, u := range undated {
		names[i] = u.Name
		if u.File != "" {
			byFile = append(byFile, keeper.Taken{ID: u.Photo, At: u.File, Zone: u.Zone, From: keeper.TakenByFile})
		}
	}
	set := func(times []keeper.Taken, refuse func(error) bool) {
		s.work(func(ctx context.Context) error { return s.o.Keeper.SetPhotoTaken(ctx, tank, times...) }, func(err error) {
			if err != nil && refuse != nil && refuse(err) {
				return
			}
			shut()
			if err != nil {
				s.fail(err)
				return
			}
			s.changed()
			s.page.Refresh()
			s.say(w.N("n.photos_dated", float64(len(times)), nil), s.t("label.undo"), s.Undo)
		})
	}
	spec := parts.FieldSpec{ID: "taken", Label: s.t("page.photo.taken_all"), Text: s.o.Now().Format(i18n.WhenLayout), Hint: s.t("page.photo.taken_form")}
	if len(byFile) > 0 {
		if t, err := byFile[0].At.Parse(); err == nil {
			spec.Text, spec.Proposed = t.Format(i18n.WhenLayout), true
		}
	}
	box := parts.NewField(spec)
	refuse := func(err error) bool {
		words, ok := w.Problem(err)
		if ok {
			f := box.Spec()
			f.Error = words
			box.Set(f)
		}
		return ok
	}
	use := func() {
		t, err := time.Parse(i18n.WhenLayout, strings.TrimSpace(strings.Replace(box.Text(), "T", " ", 1)))
		if err != nil {
			refuse(working.Refuse("at", "refuse.journal.time"))
			return
		}
		var times []keeper.Taken
		for _, u := range undated {
			times = append(times, keeper.Taken{ID: u.Photo, At: journal.CivilOf(t), From: keeper.TakenByPerson})
		}
		set(times, refuse)
	}
	box.OnEnter = use
	var row []fyne.CanvasObject
	first := box.Focusable()
	if len(byFile) > 0 {
		b := parts.NewButton(parts.ButtonSpec{ID: "as_file", Label: s.t("page.photo.as_file"), Kind: parts.Primary}, func() { set(byFile, nil) })
		row, first = append(row, b), b
	}
	row = append(row, parts.NewButton(parts.ButtonSpec{ID: "use_time", Label: s.t("page.photo.use_time")}, use),
		parts.NewButton(parts.ButtonSpec{ID: "no_time", Label: s.t("page.photo.no_time")}, shut))
	out := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: w.N("n.photos_undated", float64(len(undated)), nil), Role: parts.StrongBody}),
		parts.NewText(parts.TextSpec{Text: s.some(names), Role: parts.SoftBody})}
	if len(byFile) > 0 {
		if t, err := byFile[0].At.Parse(); err == nil {
			out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.photo.file_says", i18n.Args{"Name": byFileName(undated), "When": w.DateTime(t)}), Role: parts.SoftBody}))
		}
	}
	return first, append(out, box), parts.NewFlow(row...)
}

// byFileName is the first whose file tells a time.
func byFileName(undated []keeper.UndatedPhoto) string {
	for _, u := range undated {
		if u.File != "" {
			return u.Name
		}
	}
	return ""
}
