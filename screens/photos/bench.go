package photos

import (
	"context"
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// bench is the page of the pictures that are open.
type bench struct {
	common
	shots []*shot
	at    int // the shot that the panel is about
	group *picture.Group
	sick  string   // the case that one came from, or empty
	order []string // all pictures of the tank, the earliest first

	tool photo.MarkKind // what is to be drawn; "" moves and chooses
	spot bool           // the white patch is to be chosen

	root  *fyne.Container
	area  *fyne.Container
	panel *parts.Scroller
	made  map[string]fyne.CanvasObject // parts of the panel, kept while it is shown anew
	used  map[string]bool
}

var _ nav.Page = (*bench)(nil)

func newBench(d nav.Deps, r nav.Route, ids []string) *bench {
	p := &bench{common: common{d, r.Tank}, sick: r.Case, made: map[string]fyne.CanvasObject{}, panel: parts.NewScroller(10)}
	p.panel.Keys = parts.Keys{Back: p.back}
	var views []*picture.View
	var objects []fyne.CanvasObject
	for i, id := range ids {
		s := newShot(p, id)
		s.view.OnFocus = func() { p.turnTo(i) }
		p.shots = append(p.shots, s)
		views = append(views, s.view)
		objects = append(objects, s.head, s.view)
	}
	p.group = picture.NewGroup(views...)
	p.area = container.New(&beside{}, objects...)
	p.root = container.New(split{}, p.panel, p.area)
	p.Refresh()
	return p
}

// Object implements nav.Page.
func (p *bench) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *bench) Focus() { p.focus(p.shots[p.at].view) }

// shot the panel is about.
func (p *bench) shot() *shot { return p.shots[p.at] }

// back goes to the wall, or to the case that one came from.
func (p *bench) back() {
	if p.sick != "" {
		p.deps.Go(nav.Route{Place: nav.Sick, Tank: p.tank, Case: p.sick})
		return
	}
	p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank})
}

// see shows these pictures in place of those that are open.
func (p *bench) see(ids ...string) {
	p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Case: p.sick, Photos: strings.Join(ids, ",")})
}

// turnTo makes the panel be about a shot.
func (p *bench) turnTo(i int) {
	if i != p.at {
		p.at = i
		p.show()
	}
}

// Refresh implements nav.Page: the record is read again, and what of it changed
// is shown.
func (p *bench) Refresh() {
	left := p.shots[:0:0]
	for _, s := range p.shots {
		x, err := p.deps.Keeper.Photo(context.Background(), p.tank, s.id)
		var none *working.Refusal
		switch {
		case err == nil:
			s.take(x)
			left = append(left, s)
		case !errors.As(err, &none):
			p.deps.Fail(err)
			return
		}
	}
	p.readOrder()
	if len(left) == 0 { // all of them are in the bin
		if len(p.shots) > 0 {
			p.shots[0].gone = true
			p.show()
		}
		return
	}
	if len(left) < len(p.shots) {
		p.keep(left)
		return
	}
	p.rescale()
	p.show()
}

// readOrder reads which pictures there are, beside the window, for there may be
// thousands.
func (p *bench) readOrder() {
	var all []keeper.Photo
	var err error
	p.deps.Aside(func(ctx context.Context) {
		all, err = p.deps.Keeper.Photos(ctx, p.tank, keeper.PhotoFilter{})
	}, func() {
		if err != nil {
			return // earlier and later stay as they were
		}
		order := make([]string, len(all))
		for i, x := range all {
			order[i] = x.ID
		}
		if !slices.Equal(order, p.order) {
			p.order = order
			p.show()
		}
	})
}

// keep goes on with fewer shots.
func (p *bench) keep(left []*shot) {
	var ids []string
	for _, s := range left {
		ids = append(ids, s.id)
	}
	p.see(ids...)
}

// rescale gives the views one scale when what is known of it has changed.
func (p *bench) rescale() {
	var now []float64
	changed := false
	for _, s := range p.shots {
		k := s.perMM()
		changed = changed || k != s.scaled || !s.placed
		s.scaled, s.placed = k, true
		now = append(now, k)
	}
	if changed {
		p.group.SetScales(now)
	}
}

// step shows the picture before or after in place of the shot.
func (p *bench) step(way int) {
	s := p.shot()
	i := slices.Index(p.order, s.id) + way
	for i >= 0 && i < len(p.order) && p.open(p.order[i]) {
		i += way
	}
	if i < 0 || i >= len(p.order) {
		return
	}
	x, err := p.deps.Keeper.Photo(context.Background(), p.tank, p.order[i])
	if err != nil {
		p.deps.Fail(err)
		return
	}
	s.id = x.ID
	s.take(x)
	p.rescale()
	p.show()
}

func (p *bench) open(id string) bool {
	return slices.ContainsFunc(p.shots, func(s *shot) bool { return s.id == id })
}

// change makes one change of the record, and shows it.
func (p *bench) change(do func(context.Context) error, then func()) {
	p.deps.Work(do, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			p.Refresh()
			return
		}
		p.deps.Changed()
		p.Refresh()
		if then != nil {
			then()
		}
	})
}

// remove puts the picture into the bin.
func (p *bench) remove() {
	s := p.shot()
	id := s.id
	next := slices.Index(p.order, id)
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.DeletePhoto(ctx, p.tank, id) }, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
		if len(p.shots) == 1 && len(p.order) > 1 { // the neighbour takes its place
			if next+1 < len(p.order) {
				next++
			} else {
				next--
			}
			p.see(p.order[next])
		} else if len(p.shots) == 1 {
			p.back()
		} else {
			p.Refresh()
		}
		p.deps.Say(p.t("page.photo.deleted"), p.t("label.undo"), func() { p.takeBack(id) })
	})
}

// takeBack brings a deleted picture back and shows it.
func (p *bench) takeBack(id string) {
	p.deps.Work(func(ctx context.Context) error {
		_, _, err := p.deps.Keeper.Undo(ctx, p.tank)
		return err
	}, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Changed()
		p.see(id)
	})
}

// key acts on keys that a view has no use for.
func (p *bench) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyPageUp:
		p.step(-1)
	case fyne.KeyPageDown:
		p.step(1)
	case fyne.KeyEscape:
		if p.tool != "" || p.spot {
			p.take("", false)
			return true
		}
		p.back()
	default:
		return false
	}
	return true
}

// rune acts on characters that a view has no use for.
func (p *bench) rune(r rune) {
	switch r {
	case '[':
		p.turn(-1)
	case ']':
		p.turn(1)
	}
}

func (p *bench) turn(quarters int) {
	id := p.shot().id
	p.change(func(ctx context.Context) error { return p.deps.Keeper.TurnPhoto(ctx, p.tank, id, quarters) }, nil)
}

// refused says at once what the keeper did not take.
func (p *bench) refused(err error) bool {
	words, ok := p.deps.Present.W.Problem(err)
	if ok {
		p.deps.Say(words, "", nil)
	}
	return ok
}

// split lays out the panel, and beside it the pictures.
type split struct{}

func (split) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(800, 500) }

func (split) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const edge, gap = 16, 16
	w := float32(380) // judgement: as wide as the words of its buttons in two to a row
	if s.Width < 1180 {
		w = 320
	}
	o[0].Move(fyne.NewPos(edge, 0))
	o[0].Resize(fyne.NewSize(w, s.Height))
	o[1].Move(fyne.NewPos(edge+w+gap, 0))
	o[1].Resize(fyne.NewSize(s.Width-w-2*edge-gap, s.Height))
}

// beside lays out heads and views in turn: one to three in a row, four by two.
type beside struct{}

func (beside) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 200) }

func (beside) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const gap, top, foot = 10, 12, 12
	n := len(o) / 2
	cols, rows := n, 1
	if n == 4 {
		cols, rows = 2, 2
	}
	w := (s.Width - gap*float32(cols-1)) / float32(cols)
	h := (s.Height - top - foot - gap*float32(rows-1)) / float32(rows)
	heads := make([]float32, rows) // of a row, so that its pictures begin at one height
	for i := range n {
		if t, ok := o[2*i].(parts.Tall); ok {
			heads[i/cols] = max(heads[i/cols], t.HeightAt(w))
		}
	}
	for i := range n {
		x, y, head := float32(i%cols)*(w+gap), top+float32(i/cols)*(h+gap), heads[i/cols]
		o[2*i].Move(fyne.NewPos(x, y))
		o[2*i].Resize(fyne.NewSize(w, head))
		o[2*i+1].Move(fyne.NewPos(x, y+head+4))
		o[2*i+1].Resize(fyne.NewSize(w, h-head-4))
	}
}
