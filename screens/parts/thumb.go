package parts

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"example.org/driploop/screens/look"
)

// ThumbSpec is what a Thumb shows.
type ThumbSpec struct {
	ID     string // for finding it again; not shown
	Label  string // below the picture
	Broken string // in the place of one that cannot be shown
}

// Thumb is one small picture in a row of them. Tap, Enter or Space open it.
type Thumb struct {
	actor
	// Image gives the picture in a box of w by h device pixels, nil while it is
	// being made; Refresh shows it then.
	Image  func(w, h int) image.Image
	OnOpen func()

	spec ThumbSpec
	img  *canvas.Image
}

// NewThumb gives a small picture. image and open may be nil.
func NewThumb(s ThumbSpec, image func(w, h int) image.Image, open func()) *Thumb {
	t := &Thumb{spec: s, Image: image, OnOpen: open}
	t.img = &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleFastest}
	t.begin(t)
	return t
}

// Set shows another spec.
func (t *Thumb) Set(s ThumbSpec) {
	if s != t.spec {
		t.spec = s
		t.update()
	}
}

// Spec gives what is shown.
func (t *Thumb) Spec() ThumbSpec { return t.spec }

// Tapped implements fyne.Tappable.
func (t *Thumb) Tapped(*fyne.PointEvent) {
	t.take()
	call(t.OnOpen)
}

// TypedKey implements fyne.Focusable.
func (t *Thumb) TypedKey(ev *fyne.KeyEvent) {
	if isEnter(ev.Name) || ev.Name == fyne.KeySpace {
		call(t.OnOpen)
		return
	}
	t.spareKey(ev)
}

func (t *Thumb) ident() string { return t.spec.ID }

const (
	thumbWide = 112 // judgement: six side by side on a page
	thumbTall = 84
)

func (t *Thumb) leastWidth() float32   { return leastTarget }
func (t *Thumb) naturalWidth() float32 { return thumbWide }

func (t *Thumb) draw(p *pen, width float32) float32 {
	w := min(width, thumbWide)
	h := w * thumbTall / thumbWide
	p.rect(0, 0, w, h, box{fill: look.Track})
	if p.pool != nil {
		k := float32(1)
		if cv := fyne.CurrentApp().Driver().CanvasForObject(t); cv != nil {
			k = cv.Scale()
		}
		if t.Image != nil && t.spec.Broken == "" {
			if m := t.Image(int(w*k+0.5), int(h*k+0.5)); m != nil {
				if t.img.Image != m {
					t.img.Image = m
					t.img.Refresh()
				}
				p.put(t.img, 0, 0, w, h)
			}
		}
		if t.spec.Broken != "" {
			c := noteSoft.in(look.Ink)
			p.text(ellipsis(t.spec.Broken, w-8, p.measurer(c)), 4, (h-p.line(c))/2, c)
		}
	}
	if t.hovered {
		p.rect(0, 0, w, h, box{fill: look.Ink, alpha: hoverAlpha})
	}
	if t.focused {
		p.ring(0, 0, w, h)
	}
	if t.spec.Label == "" {
		return h
	}
	y := h + 2*p.k
	for _, l := range shortened(t.spec.Label, 3, w, p.measurer(noteSoft)) {
		p.text(l, 0, y, noteSoft)
		y += p.line(noteSoft)
	}
	return y
}
