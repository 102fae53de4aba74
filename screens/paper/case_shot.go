package paper

import (
	"math"

	"example.org/driploop/model/photo"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// A print is a picture on a page, in millimetres from its top left corner.
type print struct {
	jpeg       []byte
	x, y, w, h float64
}

// Two pictures stand side by side, each in a frame. Judgement: as large as a
// postcard's half, which shows a fin.
const (
	shotGap  = 6.0
	shotTall = 66.0
)

// shots sets the pictures two and two with date and caption; marks lie above
// them as vectors.
func (f *flow) shots(in *Input) {
	f.add(f.heading(in.t("page.sick.pictures")))
	if len(in.Case.Pictures) == 0 {
		f.add(f.text(in.t("paper.case.no_pictures"), bodyFont, 0)...)
		return
	}
	w := (f.width() - shotGap) / 2
	for i := 0; i < len(in.Case.Pictures); i += 2 {
		var stacks []*stack
		for j, s := range in.Case.Pictures[i:min(i+2, len(in.Case.Pictures))] {
			stacks = append(stacks, in.shot(f.left()+float64(j)*(w+shotGap), w, s))
		}
		b := beside(4, stacks...)
		if i == 0 {
			b.before = 0
		}
		f.add(b)
	}
}

// shot is one picture in its frame with its words.
func (in *Input) shot(x, w float64, s Shot) *stack {
	st := &stack{x: x, w: w}
	pw, ph := s.Shown()
	iw, ih := w, shotTall/3
	shown := s.JPEG != nil && pw > 0 && ph > 0
	if shown {
		k := min(w/float64(pw), shotTall/float64(ph)) // millimetres a pixel
		iw, ih = k*float64(pw), k*float64(ph)
	}
	st.put(ih, func(p *page, y float64) {
		if !shown {
			p.rect(x, y, iw, ih, 0, scene.Style{Stroke: look.Rule, Width: 0.8})
			p.text(x+2, y+2, noteFont.short(in.t("page.sick.unreadable"), w-4), noteFont)
			return
		}
		p.prints = append(p.prints, print{s.JPEG, x, y, iw, ih})
		p.rect(x, y, iw, ih, 0, scene.Style{Stroke: look.Rule, Width: 0.8})
		for _, m := range s.Marks {
			in.mark(p, m, s.Marks, x, y, iw, ih, pw, ph)
		}
	})
	st.gap(1)
	when := in.t("page.sick.undated")
	if s.Taken != "" {
		when = in.Presenter.When(s.Taken)
	}
	st.text(when, noteStrong)
	if s.Caption != "" {
		st.text(s.Caption, noteInk)
	}
	return st
}

// The strokes of marks, in points: a rust line with a pale edge shows on light
// and dark parts of a picture alike. Judgement.
const (
	markWide = 1.8
	markEdge = 4.2
)

// mark draws a mark over a picture that lies at x, y and is iw by ih millimetres.
func (in *Input) mark(p *page, m photo.Mark, all []photo.Mark, x, y, iw, ih float64, pw, ph int) {
	place := func(q photo.Point) (float64, float64) { return x + q.X/1000*iw, y + q.Y/1000*ih }
	if len(m.Points) == 0 {
		return
	}
	ax, ay := place(m.Points[0])
	bx, by := ax, ay
	if len(m.Points) > 1 {
		bx, by = place(m.Points[1])
	}
	for _, st := range []scene.Style{{Stroke: look.Sheet, Width: markEdge}, {Stroke: look.Rust, Width: markWide}} {
		switch m.Kind {
		case photo.Circle:
			r := math.Hypot(bx-ax, by-ay)
			r = min(r, ax-x, ay-y, x+iw-ax, y+ih-ay) // what would lie beyond the picture is cut to it
			p.scene.Add(scene.Circle(at(ax, ay), max(r, 0.8), st))
		case photo.Arrow:
			p.scene.Add(scene.Arrow{From: at(ax, ay), To: at(bx, by), Head: 9, Style: st})
		case photo.Known, photo.Length:
			p.scene.Add(scene.Line{From: at(ax, ay), To: at(bx, by), Style: st})
			for _, e := range [][2]float64{{ax, ay}, {bx, by}} {
				p.scene.Add(scene.Marker{At: at(e[0], e[1]), Shape: scene.Square, Size: 5, Style: st})
			}
		}
	}
	words := in.markWords(m, all, pw, ph)
	if words == "" {
		return
	}
	words = noteStrong.short(words, iw-4)
	tw := noteStrong.width(words)
	tx := min(max((ax+bx)/2+1.5, x+1), x+iw-tw-2.5)
	ty := min(max((ay+by)/2+1, y+0.8), y+ih-noteStrong.lead()-0.8)
	p.rect(tx-0.8, ty-0.2, tw+1.6, noteStrong.lead()+0.4, 0.6, scene.Style{Fill: look.Sheet})
	p.text(tx, ty, words, noteStrong)
}

// markWords are a mark's own words, or its length where one can be told.
func (in *Input) markWords(m photo.Mark, all []photo.Mark, pw, ph int) string {
	words := m.Words
	value := ""
	switch m.Kind {
	case photo.Known:
		value = in.Presenter.W.Typed(m.Measure)
	case photo.Length:
		for _, k := range all {
			if k.Kind != photo.Known {
				continue
			}
			if l, trail, err := photo.MeasureLength(k, m, pw, ph); err == nil {
				value = in.Presenter.W.Quantity(l.Value())
				if b := trail.Spread; b != nil { // two clicks tell no more than that
					value = in.Presenter.W.Range(b.Low, b.High)
				}
			}
		}
	}
	if words != "" && value != "" {
		return words + " · " + value
	}
	return words + value
}
