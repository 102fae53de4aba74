package photos

import (
	"context"
	"image"
	"math"
	"strings"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// shot is one picture on the bench.
type shot struct {
	bench   *bench
	id      string
	photo   keeper.Photo
	gone    bool // it is in the bin
	view    *picture.View
	head    *parts.Text
	levels  picture.Levels
	shown   string // what is loaded: the original and its turns
	loads   int    // counts what is asked for, so that late answers are known
	plain   bool   // the colours are shown as they are, though a white patch is set
	wrong   error  // why the picture or its balance cannot be shown
	copying bool   // a copy is being made
	scaled  float64
	placed  bool
}

func newShot(p *bench, id string) *shot {
	s := &shot{bench: p, id: id, view: picture.NewView(), head: parts.NewText(parts.TextSpec{Role: parts.StrongBody})}
	s.view.OnWant = s.want
	s.view.OnDrawn = p.drawn
	s.view.OnMoved = func(mark string, points []picture.Point) { p.moved(s, mark, points) }
	s.view.OnDelete = func(mark string) { p.unmark(s, mark) }
	s.view.OnChosen = func(string) { p.show() }
	s.view.OnKey = p.key
	s.view.OnRune = p.rune
	return s
}

// mostPixels bounds what is decoded of all open pictures together. Judgement:
// with their smaller levels some 130 MB.
const mostPixels = 24e6

// most gives the longer side that may be loaded.
func (s *shot) most() int {
	w, h := s.photo.Shown()
	long := float64(max(w, h))
	k := math.Sqrt(mostPixels / float64(len(s.bench.shots)) / math.Max(1, float64(w)*float64(h)))
	return int(long * math.Min(1, k))
}

// take shows the picture as the record now has it.
func (s *shot) take(x keeper.Photo) {
	s.photo, s.gone = x, false
	w, h := x.Shown()
	if now := x.Hash + strings.Repeat("+", x.Turned); now != s.shown {
		s.shown, s.levels, s.placed, s.wrong = now, nil, false, nil
		s.view.SetPicture(picture.Size{W: float64(w), H: float64(h)}, nil)
		s.loadFirst()
	}
	s.view.SetMarks(s.marks())
	s.balance()
}

// loadFirst shows the small picture at once and then as much as the view shows.
func (s *shot) loadFirst() {
	k := s.bench.deps.Keeper
	x := s.photo
	if x.Problem != "" {
		s.wrong = &photo.Problem{Code: x.Problem}
		return
	}
	s.loads++
	load := s.loads
	const first = 1400 // judgement: fills the view of a usual window
	var small, large picture.Levels
	var err error
	s.bench.deps.Aside(func(ctx context.Context) {
		img, e := k.ThumbOf(ctx, x, photo.ThumbSide)
		if err = e; err == nil {
			small = picture.NewLevels(img)
		}
	}, func() {
		if load != s.loads {
			return
		}
		s.loaded(small, err)
		s.bench.deps.Aside(func(ctx context.Context) {
			var m *image.RGBA
			if m, err = k.Picture(ctx, x.ID, min(first, max(s.most(), photo.LeastSide))); err == nil {
				large = picture.NewLevels(m)
			}
		}, func() {
			if load == s.loads {
				s.loaded(large, err)
			}
		})
	})
}

// want loads more of the picture, for it is shown larger.
func (s *shot) want(long int) {
	const spare = 1.3 // judgement: the next click of the wheel needs no more
	w, h := s.photo.Shown()
	side := min(int(float64(long)*spare), s.most())
	if side <= s.levels.Long() || s.photo.Problem != "" {
		return
	}
	if side >= max(w, h) {
		side = 0 // as large as it is
	}
	s.loads++
	load, id := s.loads, s.photo.ID
	var levels picture.Levels
	var err error
	s.bench.deps.Aside(func(ctx context.Context) {
		m, e := s.bench.deps.Keeper.Picture(ctx, id, side)
		if err = e; err == nil {
			levels = picture.NewLevels(m)
		}
	}, func() {
		if load == s.loads {
			s.loaded(levels, err)
		}
	})
}

// loaded shows what has been loaded. What was there stays where nothing came.
func (s *shot) loaded(levels picture.Levels, err error) {
	s.wrong = err
	if levels != nil {
		s.levels = levels
		s.view.Load(levels)
	}
	s.balance()
	s.bench.show()
}

// balance shows the colours through the white patch, where there is one.
func (s *shot) balance() {
	if s.photo.White == nil || s.plain || len(s.levels) == 0 {
		s.view.SetBalance(nil)
		return
	}
	gains, err := photo.Balance(s.levels[0], *s.photo.White)
	if err != nil {
		s.view.SetBalance(nil)
		return
	}
	s.view.SetBalance(tables(gains))
}

// tables are the gains for each value of each channel.
func tables(g photo.Gains) picture.Balance {
	var t [3][256]uint8
	for c, gain := range []float64{g.R, g.G, g.B} {
		for v := range t[c] {
			t[c][v] = uint8(math.Round(photo.Encoded(math.Min(photo.Linear(float64(v)/255)*gain, 1)) * 255))
		}
	}
	return &t
}

// perMM gives the pixels of the picture to a millimetre; 0 where no known thing
// is marked.
func (s *shot) perMM() float64 {
	m := s.known()
	if m == nil {
		return 0
	}
	v, err := m.Measure.Value()
	if err != nil || v.X <= 0 {
		return 0
	}
	w, h := s.photo.Shown()
	x0, y0 := m.Points[0].On(w, h)
	x1, y1 := m.Points[1].On(w, h)
	const mm = 1000 // to a metre
	return math.Hypot(x1-x0, y1-y0) / (v.X * mm)
}

// known is the mark that the picture is measured by: the latest of its kind.
func (s *shot) known() *photo.Mark {
	for i := len(s.photo.Marks) - 1; i >= 0; i-- {
		if s.photo.Marks[i].Kind == photo.Known {
			return &s.photo.Marks[i]
		}
	}
	return nil
}
