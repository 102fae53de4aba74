package paper

import (
	"bytes"
	"context"
	"errors"
	"image/jpeg"
	"io"
	"slices"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// Case names the paper of a fish that looks wrong: who, signs, water, what has
// changed, feeding, what was done, and the pictures with their marks.
const Case Kind = "case"

// Matter is what the paper of a case shows beside the tank.
type Matter struct {
	View     keeper.CaseView
	Judged   map[string]keeper.Judgement
	Pictures []Shot
}

// Shot is a picture of the case, ready to be printed.
type Shot struct {
	keeper.Photo
	JPEG []byte // made anew, so it carries no place; nil where it cannot be shown
}

// Days back that the paper tells of. Judgement: a month of tests shows a trend,
// and feeding is compared over the days in which changes are looked for.
const (
	testDays = 30
	feedDays = sick.Window
)

// shotSide is the longest side of a printed picture in pixels: its frame at 300
// dots an inch.
const shotSide = 1100

// shotQuality of the JPEG. Judgement: no block is seen at print size.
const shotQuality = 88

// WriteCase makes the paper of a case and writes it to out; id empty takes the
// open case that was opened last, or else the last one. Nothing is written before
// it is complete; pictures take up to seconds each, of which progress, which may be
// nil, is told. Errors: a *working.Refusal
// where there is no such case, ctx's own, and those of out.
func WriteCase(ctx context.Context, k *keeper.Keeper, tank, id string, p present.Presenter, size Size, out io.Writer, progress func(done, total int)) error {
	in, err := GatherCase(ctx, k, tank, id, p, size, progress)
	if err != nil {
		return err
	}
	return write(out, Case, in, true)
}

// GatherCase asks the keeper for all that the paper of a case shows.
func GatherCase(ctx context.Context, k *keeper.Keeper, tank, id string, p present.Presenter, size Size, progress func(done, total int)) (Input, error) {
	p.Kit = k.KitOf
	if id == "" {
		cs, err := k.Cases(ctx, tank)
		if err != nil {
			return Input{}, err
		}
		if len(cs) == 0 {
			return Input{}, working.Refuse("case", "refuse.keeper.no_case")
		}
		id = cs[0].ID
	}
	in, err := Gather(ctx, k, tank, p, size)
	if err != nil {
		return Input{}, err
	}
	m := &Matter{}
	if m.View, err = k.Case(ctx, tank, id); err != nil {
		return Input{}, err
	}
	if m.Judged, err = k.Judge(ctx, tank); err != nil {
		return Input{}, err
	}
	photos, err := k.Photos(ctx, tank, keeper.PhotoFilter{Sick: id})
	if err != nil {
		return Input{}, err
	}
	for i, ph := range photos {
		if progress != nil {
			progress(i, len(photos))
		}
		s, err := shoot(ctx, k, ph)
		if err != nil {
			return Input{}, err
		}
		m.Pictures = append(m.Pictures, s)
	}
	in.Case = m
	return in, nil
}

// shoot makes a picture ready for print. One that cannot be shown keeps its
// place.
func shoot(ctx context.Context, k *keeper.Keeper, ph keeper.Photo) (Shot, error) {
	s := Shot{Photo: ph}
	img, err := k.Picture(ctx, ph.ID, shotSide)
	var broken *photo.Problem
	switch {
	case errors.As(err, &broken):
		return s, nil
	case err != nil:
		return s, err
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: shotQuality}); err != nil {
		return s, err
	}
	s.JPEG = b.Bytes()
	return s, nil
}

// sickFish lays the paper of a case out.
func (f *flow) sickFish(in *Input) {
	f.whom(in)
	f.seen(in)
	f.tests(in)
	f.lately(in)
	f.fed(in)
	f.done(in)
	f.shots(in)
	f.add(f.text(in.t("page.sick.no_names"), noteFont, 6)...)
}

// whom is the head of the case: whom it concerns, how many, since when, how soon.
func (f *flow) whom(in *Input) {
	v, p := in.Case.View, in.Presenter
	shown := p.Case(v, in.Case.Judged)
	s := &stack{x: f.left(), w: f.width()}
	s.text(shown.Heading, sectionFont)
	s.gap(1)
	s.text(shown.Beside, bodyFont)
	if v.Case.Many != "" {
		s.text(in.Presenter.W.T("paper.case.many", i18n.Args{"Many": p.ManyName(v.Case.Many)}), bodyFont)
	}
	if v.Case.Note != "" {
		s.text(v.Case.Note, bodyFont)
	}
	f.add(s.block(3))
	if len(v.Urgency.Signs) > 0 && v.Case.Open() {
		u := &stack{x: f.left() + 5, w: f.width() - 5}
		u.text(shown.Urgency.Title, strongFont)
		for _, l := range shown.Urgency.Lines {
			u.text(l, bodyFont)
		}
		b := u.block(3)
		inner := b.draw
		b.draw = func(pg *page, y float64) {
			pg.state(f.left()+1.4, y+strongFont.lead()/2, shown.Urgency.State)
			inner(pg, y)
		}
		f.add(b)
	}
}

// seen lists the signs with their dates.
func (f *flow) seen(in *Input) {
	f.add(f.heading(in.t("page.sick.seen")))
	if len(in.Case.View.Case.Signs) == 0 {
		f.add(f.text(in.t("paper.case.no_signs"), bodyFont, 0)...)
		return
	}
	const gone, seen = 34.0, 34.0
	head := f.tableHead(0, cell{in.t("paper.case.sign"), 0, false}, cell{in.t("paper.case.first"), seen, true}, cell{in.t("paper.case.gone"), gone, true})
	f.add(head)
	for _, s := range in.Case.View.Case.Signs {
		sign, ok := sick.SignOf(s.Sign)
		if !ok {
			continue
		}
		left := in.t("paper.case.still")
		if s.Gone != "" {
			left = in.Presenter.CivilDay(s.Gone)
		}
		f.add(f.line(&head, []column{{f.left(), f.width() - gone - seen, in.t(sign.Message()), bodyFont}},
			[]ending{{f.right() - gone, in.Presenter.CivilDay(s.Seen)}, {f.right(), left}}))
	}
}

// A column is a text of a line in its place.
type column struct {
	x, w float64
	text string
	font font
}

// An ending is a short text that ends at x.
type ending struct {
	x    float64
	text string
}

// line is a line of a table: columns that wrap, and short texts that end where
// the head's end.
func (f *flow) line(head *block, cs []column, es []ending) block {
	var stacks []*stack
	for _, c := range cs {
		s := &stack{x: c.x, w: c.w}
		s.gap(0.7)
		s.text(c.text, c.font)
		s.gap(0.7)
		stacks = append(stacks, s)
	}
	b := beside(0, stacks...)
	inner := b.draw
	b.again = head
	b.draw = func(p *page, y float64) {
		inner(p, y)
		for _, e := range es {
			p.right(e.x, y+0.7, e.text, bodyFont)
		}
		p.rule(f.left(), y+b.height, f.width(), 0.8, look.Rule)
	}
	return b
}

// lately lists what has changed, and what is due.
func (f *flow) lately(in *Input) {
	shown := in.Presenter.Case(in.Case.View, in.Case.Judged)
	f.add(f.heading(in.Presenter.W.N("n.changed_days", sick.Window, nil)))
	for _, c := range shown.Changes {
		f.add(f.line(nil, []column{{f.left(), whenWide, c.When, bodyFont}, {f.left() + whenWide, f.width() - whenWide, c.Text, bodyFont}}, nil))
	}
	if len(shown.Changes) == 0 {
		f.add(f.text(in.t("page.sick.nothing_changed"), bodyFont, 0)...)
	}
}

// whenWide is the room of a date at the left of a line, in millimetres.
const whenWide = 30.0

// within gives the entries of the last days, the newest first.
func (in *Input) within(days int, takes func(journal.Entry) bool) []journal.Entry {
	var out []journal.Entry
	now := journal.CivilOf(in.made())
	for _, e := range slices.Backward(in.Record.Entries) {
		if d, err := journal.DaysBetween(e.At, now); err == nil && d >= 0 && d <= days && takes(e) {
			out = append(out, e)
		}
	}
	return out
}

// done lists what was noticed and done, the case's own entries among it.
func (f *flow) done(in *Input) {
	id := in.Case.View.Case.ID
	es := in.within(testDays, func(e journal.Entry) bool {
		switch e.Kind {
		case journal.Fed, journal.Tested, journal.Temperature, journal.Photo, journal.StepDone:
			return false
		case journal.Note, journal.Noticed:
			return e.Sick == id || e.Sick == ""
		}
		return true
	})
	f.add(f.heading(in.Presenter.W.N("n.done_days", testDays, nil)))
	if len(es) == 0 {
		f.add(f.text(in.t("paper.case.nothing"), bodyFont, 0)...)
	}
	const kind = 34.0
	own := false
	for _, e := range es {
		row := in.Presenter.Entry(e)
		name := strongFont
		if e.Sick == id {
			own = true
			row.Kind = in.Presenter.W.T("paper.case.own", i18n.Args{"Kind": row.Kind})
		}
		f.add(f.line(nil, []column{{f.left(), whenWide, in.Presenter.CivilDay(e.At), bodyFont}, {f.left() + whenWide, kind - 2, row.Kind, name},
			{f.left() + whenWide + kind, f.width() - whenWide - kind, row.Text, bodyFont}}, nil))
	}
	if own {
		f.add(f.text(in.t("paper.case.own_note"), noteFont, 1)...)
	}
}
