package parts

import "fyne.io/fyne/v2"

// KitRowSpec is what a KitRow shows.
type KitRowSpec struct {
	ID     string // for finding it again; not shown
	Name   string
	Size   string // what size of it this tank needs
	Why    string
	Have   bool
	Bare   bool   // nobody is asked whether it is there
	Price  string // as typed
	Unit   string // of the price: the currency's sign
	Refuse string // why the price was refused
	State  State
	Word   string // of the state
}

// KitRow is one thing of the kit list: whether one has it, what size it is to
// be and why, and what it costs.
type KitRow struct {
	part
	OnHave  func(have bool)
	OnPrice func(text string) // at Enter or when the focus goes, if changed

	spec  KitRowSpec
	tick  *Tick
	price *Field
}

// NewKitRow gives a row. Callbacks are set afterwards.
func NewKitRow(s KitRowSpec) *KitRow {
	r := &KitRow{spec: s}
	r.tick = NewTick(r.tickSpec(), func(have bool) {
		r.spec.Have = have
		if r.OnHave != nil {
			r.OnHave(have)
		}
	})
	r.price = NewField(r.priceSpec())
	r.price.bare = true
	r.price.OnCommit = func(t string) {
		if r.OnPrice != nil {
			r.OnPrice(t)
		}
	}
	r.begin(r)
	r.tick.heldBy(r)
	r.price.heldBy(r)
	return r
}

func (r *KitRow) tickSpec() TickSpec {
	return TickSpec{Text: r.spec.Name, Done: r.spec.Have, Strong: true}
}

func (r *KitRow) priceSpec() FieldSpec {
	return FieldSpec{Text: r.spec.Price, Unit: r.spec.Unit, Error: r.spec.Refuse}
}

// Set shows another spec.
func (r *KitRow) Set(s KitRowSpec) {
	if s == r.spec {
		return
	}
	r.spec = s
	r.tick.Set(r.tickSpec())
	r.price.Set(r.priceSpec())
	r.update()
}

// Spec gives what is shown.
func (r *KitRow) Spec() KitRowSpec { return r.spec }

func (r *KitRow) grew() { r.update() }

func (r *KitRow) reveal(o fyne.CanvasObject) {
	if r.holder != nil {
		r.holder.reveal(o)
	}
}

func (r *KitRow) spare(ev *fyne.KeyEvent) bool { return r.holder != nil && r.holder.spare(ev) }

func (r *KitRow) leastWidth() float32 { return 200 }

const (
	kitPrice  = 104
	kitBeside = 220 // judgement: least width of name and size beside the price
)

func (r *KitRow) draw(p *pen, width float32) float32 {
	s := r.spec
	pw := kitPrice * p.k
	left := width - pw - rowGap*p.k
	below := left < kitBeside*p.k
	if below {
		left = width
	}
	in := (tickSize + tickGap) * p.k
	sw := p.widthOf(s.Size, bodyInk)
	// The name takes its own width, so that the size stands beside it.
	nw := min(left, in+p.widthOf(s.Name, bodyBold)+4)
	beside := s.Size != "" && nw+barGap*p.k+sw <= left
	th := r.tick.HeightAt(nw)
	if s.Bare {
		th = p.wrapped(s.Name, in, tickPad, nw-in, bodyBold)
	} else {
		p.put(r.tick, 0, 0, nw, th)
	}
	y := th
	if beside {
		p.text(s.Size, nw+barGap*p.k, tickPad, bodyInk)
	} else {
		y = p.wrapped(s.Size, in, y, left-in, bodyInk)
	}
	y = p.statedWrap(s.State, s.Word, in, y, left-in, bodyBold)
	y = p.wrapped(s.Why, in, y, left-in, bodySoft)
	x, top := width-pw, float32(0)
	if below {
		x, top = in, y+4*p.k
	}
	ph := r.price.HeightAt(pw)
	p.put(r.price, x, top, pw, ph)
	if s.Refuse != "" {
		return p.refusal(s.Refuse, in, max(y, top+ph)+belowGap*p.k, width-in, noteSoft)
	}
	return max(y, top+ph)
}
