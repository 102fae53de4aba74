package picture

import (
	"bytes"
	"container/list"
	"context"
	"image"
	"image/jpeg"

	"golang.org/x/image/draw"
)

// Key names a small picture: the original's hash, the person's quarter turns, and
// the box in device pixels that it is to fill.
type Key struct {
	Hash   string
	Turned int
	W, H   int
}

// Thumbs is a store of small pictures ready to be shown, made off the user
// interface's goroutine as they are asked for, the latest asked first, and let go
// when there are too many. Its methods belong to the user interface's goroutine.
type Thumbs struct {
	load    func(ctx context.Context, hash string, side int) ([]byte, error)
	run     func(func()) // beside the user interface
	post    func(func()) // back on it
	most    int          // bytes kept
	kept    map[Key]*list.Element
	order   *list.List // newest use first
	bytes   int
	wanted  []wanted
	asked   map[Key]bool
	busy    int
	getting Key // being asked for: made at once, nobody needs to be called
}

// small is one picture that is kept; nil where it could not be made.
type small struct {
	key Key
	img image.Image
}

type wanted struct {
	key   Key
	ready func()
}

// The bounds. Judgement: some ten windows full of pictures; two may decode at once.
const (
	mostBytes   = 48 << 20
	mostWorkers = 2
	mostWanted  = 160
)

// NewThumbs gives an empty store. load gives a JPEG no smaller than side pixels
// where the original is not; run begins work beside the user interface and post
// brings its end back.
func NewThumbs(load func(ctx context.Context, hash string, side int) ([]byte, error), run, post func(func())) *Thumbs {
	return &Thumbs{load: load, run: run, post: post, most: mostBytes, kept: map[Key]*list.Element{}, order: list.New(), asked: map[Key]bool{}}
}

// Get gives a small picture, or nil and calls ready once it has been made. made
// is true too for one that cannot be shown.
func (t *Thumbs) Get(k Key, ready func()) (img image.Image, made bool) {
	if e, ok := t.kept[k]; ok {
		t.order.MoveToFront(e)
		s := e.Value.(*small)
		return s.img, true
	}
	if k.Hash == "" || k.W <= 0 || k.H <= 0 {
		return nil, true
	}
	if !t.asked[k] {
		t.asked[k] = true
		t.wanted = append(t.wanted, wanted{k, ready})
		if n := len(t.wanted) - mostWanted; n > 0 { // scrolled past long ago
			for _, w := range t.wanted[:n] {
				delete(t.asked, w.key)
			}
			t.wanted = append([]wanted(nil), t.wanted[n:]...)
		}
		t.getting = k
		t.next()
		t.getting = Key{}
	}
	if e, ok := t.kept[k]; ok { // made at once
		return e.Value.(*small).img, true
	}
	return nil, false
}

// next begins the latest that was asked for.
func (t *Thumbs) next() {
	for t.busy < mostWorkers && len(t.wanted) > 0 {
		w := t.wanted[len(t.wanted)-1]
		t.wanted = t.wanted[:len(t.wanted)-1]
		t.busy++
		t.run(func() {
			img := t.make(w.key)
			t.post(func() {
				t.busy--
				delete(t.asked, w.key)
				t.keep(&small{w.key, img})
				if w.ready != nil && w.key != t.getting {
					w.ready()
				}
				t.next()
			})
		})
	}
}

// Held tells how many pictures and bytes are kept.
func (t *Thumbs) Held() (pictures, bytes int) { return t.order.Len(), t.bytes }

func (t *Thumbs) keep(s *small) {
	if _, ok := t.kept[s.key]; ok {
		return
	}
	t.kept[s.key] = t.order.PushFront(s)
	t.bytes += s.size()
	for t.bytes > t.most && t.order.Len() > 1 {
		last := t.order.Back()
		old := t.order.Remove(last).(*small)
		delete(t.kept, old.key)
		t.bytes -= old.size()
	}
}

func (s *small) size() int {
	const row = 200 // judgement: what a kept entry costs beside its pixels
	if s.img == nil {
		return row
	}
	return row + 4*s.img.Bounds().Dx()*s.img.Bounds().Dy()
}

// make decodes a small picture and cuts it to its box.
func (t *Thumbs) make(k Key) image.Image {
	raw, err := t.load(context.Background(), k.Hash, max(k.W, k.H))
	if err != nil {
		return nil
	}
	m, err := jpeg.Decode(bytes.NewReader(raw))
	if err != nil {
		return nil
	}
	return Filled(Turned(m, k.Turned), k.W, k.H)
}

// Filled gives a picture that fills a box, what goes beyond its proportions cut
// off on both sides alike.
func Filled(m image.Image, w, h int) image.Image {
	b := m.Bounds()
	if b.Empty() {
		return nil
	}
	cut := b
	if wide := b.Dy() * w / h; wide < b.Dx() {
		cut.Min.X = b.Min.X + (b.Dx()-wide)/2
		cut.Max.X = cut.Min.X + max(wide, 1)
	} else if high := b.Dx() * h / w; high < b.Dy() {
		cut.Min.Y = b.Min.Y + (b.Dy()-high)/2
		cut.Max.Y = cut.Min.Y + max(high, 1)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.ApproxBiLinear.Scale(out, out.Rect, m, cut, draw.Src, nil)
	return out
}
