package paper

import (
	"context"
	"io"
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/code"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Profile is the sheet of a starter profile: what a shop hands a family, with the
// whole profile in codes that a camera reads.
const Profile Kind = "profile-sheet"

// handed is what the sheet of a starter profile shows beside the tank.
type handed struct {
	profile slip.Profile
	work    present.ProfileWork
	codes   []code.Matrix
	label   string // of the family; empty leaves a line for it
}

// WriteProfile makes the sheets of a starter profile, one for each label, and
// writes them to out as one document. Errors: as Write's; a *slip.Error where the
// profile is too long for the codes of a sheet.
func WriteProfile(ctx context.Context, k *keeper.Keeper, profile string, r keeper.Ready, labels []string, p present.Presenter, size Size, out io.Writer) error {
	in, err := Gather(ctx, k, profile, p, size)
	if err != nil {
		return err
	}
	if in.Handed, err = handedOf(ctx, k, profile, r, in.Presenter); err != nil {
		return err
	}
	all, sheet := in.sheets(labels)
	return in.bind(out, Profile, all, sheet, true)
}

// handedOf gathers what the sheet shows beside the tank.
func handedOf(ctx context.Context, k *keeper.Keeper, profile string, r keeper.Ready, p present.Presenter) (*handed, error) {
	codes, err := codesOf(r.File)
	if err != nil {
		return nil, err
	}
	h := &handed{profile: r.Profile, codes: codes}
	w, err := k.ProfileInWork(ctx, profile)
	h.work = p.ProfileWork(w)
	return h, err
}

// sheets lays out one sheet for each label.
func (in *Input) sheets(labels []string) ([]*page, Size) {
	var all []*page
	var size Size
	for _, l := range labels {
		in.Handed.label = slip.OneLine(l)
		var ps []*page
		ps, size = pages(Profile, in)
		all = append(all, ps...)
	}
	return all, size
}

// profileSheet sets the sheet: for whom and from whom, the tank and its doses, the
// codes, what to mind; then the kit, what recurs and the notes.
func (f *flow) profileSheet(in *Input) {
	f.add(f.family(in), f.profileFront(in))
	f.codes(in, in.Handed.codes, "paper.profile.read")
	f.marks(in)
	f.add(f.always(in))
	f.parcel(in)
	f.saidList(in, "page.counter.plan", in.Handed.work.Plan)
	f.saidList(in, "nav.view.feeding", in.Handed.work.Feeding)
	f.leaflet(in)
	f.cautions(in)
}

// family is the line for the name, with the edition at its right.
func (f *flow) family(in *Input) block {
	w := in.Presenter.W
	of := w.T("page.start.profile_edition", i18n.Args{"Edition": w.Number(float64(in.Handed.profile.Edition), 7)})
	lead := w.T("paper.profile.family", nil)
	return block{height: strongFont.lead() + 3, before: 3, draw: func(p *page, y float64) {
		p.text(f.left(), y+1, lead, bodyFont)
		p.right(f.right(), y+1, of, softFont)
		x, end := f.left()+bodyFont.width(lead)+3, f.right()-softFont.width(of)-8
		if in.Handed.label != "" {
			p.text(x, y+1, strongFont.short(in.Handed.label, end-x), strongFont)
		}
		p.rule(x, y+1+strongFont.lead(), end-x, 0.8, look.Ink)
	}}
}

// profileFront is the drawing at the left; the shop, the facts and the doses at the
// right.
func (f *flow) profileFront(in *Input) block {
	const between, tall = 8.0, 66.0
	left := f.width()*0.4 - between/2
	right := &stack{x: f.left() + left + between, w: f.width() - left - between}
	shop := in.Handed.profile.Shop
	if shop.Name != "" {
		right.text(shop.Name, font{15.5, scene.Bold, look.Ink})
	}
	for _, block := range []string{shop.Address, shop.Hours} {
		for _, line := range strings.Split(block, "\n") {
			if line != "" {
				right.text(line, bodyFont)
			}
		}
		right.gap(0.8)
	}
	in.doses(right)
	h := max(tall, right.height)
	return block{height: h, before: 3, draw: func(p *page, y float64) {
		p.figures = append(p.figures, in.sketch(f.left(), y, left, h))
		right.draw(p, y)
	}}
}

// marks say which checks failed.
func (f *flow) marks(in *Input) {
	for _, step := range in.Handed.profile.Marks {
		s := &stack{x: f.left() + 5, w: f.width() - 5}
		s.text(in.Presenter.W.T("find.slip.mark", i18n.Args{"Step": in.Presenter.StepName(step)}), strongFont)
		b := s.block(3)
		inner := b.draw
		b.draw = func(p *page, y float64) {
			p.state(f.left()+1.4, y+strongFont.lead()/2, working.Act)
			inner(p, y)
		}
		f.add(b)
	}
}

// parcel is the kit list in two columns, with boxes.
func (f *flow) parcel(in *Input) {
	shown := in.page(care.KitList)
	if len(shown.Kit) == 0 {
		return
	}
	f.add(f.heading(in.t("paper.kit")))
	const gap, side, indent = 8.0, 3.9, 6.6
	w := (f.width() - gap) / 2
	half := (len(shown.Kit) + 1) / 2
	for i := range half {
		var row []*stack
		for j, n := range []int{i, i + half} {
			if n >= len(shown.Kit) {
				continue
			}
			k := shown.Kit[n]
			s := &stack{x: f.left() + float64(j)*(w+gap) + indent, w: w - indent}
			s.gap(0.8)
			s.text(k.Name, strongFont)
			s.text(strings.TrimSpace(k.Size+" "+in.price(k)), noteInk)
			s.gap(0.8)
			row = append(row, s)
		}
		b := beside(0, row...)
		inner := b.draw
		b.draw = func(p *page, y float64) {
			for _, s := range row {
				p.box(s.x-indent, y+0.8+(strongFont.lead()-side)/2, side, false)
			}
			inner(p, y)
		}
		f.add(b)
	}
}

// saidList is lines under a heading, where there are any.
func (f *flow) saidList(in *Input, title working.Key, lines []string) {
	if len(lines) == 0 {
		return
	}
	f.add(f.heading(in.t(title)))
	if f.setting > usual && len(lines) > 1 {
		const gap = 8.0
		w := (f.width() - gap) / 2
		var columns []*stack
		for i, half := range [][]string{lines[:(len(lines)+1)/2], lines[(len(lines)+1)/2:]} {
			s := &stack{x: f.left() + float64(i)*(w+gap), w: w}
			for _, l := range half {
				s.text(l, noteInk)
				s.gap(0.8)
			}
			columns = append(columns, s)
		}
		f.add(beside(0, columns...))
		return
	}
	for _, l := range lines {
		f.add(f.text(l, bodyFont, 0.8)...)
	}
}

// leaflet is the notes of the shop in every language that there is one.
func (f *flow) leaflet(in *Input) {
	notes := in.Presenter.NotesByTongue(in.Handed.profile.Notes)
	if len(notes) == 0 {
		return
	}
	f.add(f.heading(in.t("page.counter.notes")))
	for _, n := range notes {
		s := &stack{x: f.left(), w: f.width()}
		s.text(n.Name, noteFont)
		b := s.block(1.5)
		b.with = true
		f.add(b)
		for _, line := range strings.Split(n.Value, "\n") {
			f.add(f.text(line, bodyFont, 0)...)
		}
	}
}

// cautions are the safety notes of the counter and of the steps that a family
// begins with.
func (f *flow) cautions(in *Input) {
	var notes []care.Note
	for _, sev := range []care.Severity{care.Danger, care.Warning} {
		for _, n := range care.Notes() {
			if n.Severity == sev && n.ID != onFront && slices.Contains(n.Places, care.AtCounter) {
				notes = append(notes, n)
			}
		}
	}
	if len(notes) == 0 {
		return
	}
	f.add(f.heading(in.t("paper.safety")))
	f.panels(in, notes, 3)
	f.add(f.text(in.t("find.care.defer"), noteFont, 3)...)
}
