package slips

import (
	"context"
	"image"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"golang.org/x/image/draw"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// decoder reads the pictures of slips, under the limits of any picture.
var decoder = photo.NewDecoder(photo.Usual())

// strip is the pictures of a slip in a row; one that is opened is shown with its
// marks, to be zoomed.
func strip(d nav.Deps, v slip.Visit) fyne.CanvasObject {
	shown := d.Present.Visit(v).Pictures
	var row []fyne.CanvasObject
	for i, x := range v.Pictures {
		label := shown[i].Text
		if label == "" {
			label = shown[i].When
		}
		var img image.Image
		var broken, asked bool
		t := parts.NewThumb(parts.ThumbSpec{ID: "slip_picture_" + strconv.Itoa(i), Label: label}, nil, nil)
		t.Image = func(w, h int) image.Image {
			if img == nil && !asked && !broken {
				asked = true
				var made image.Image
				d.Aside(func(ctx context.Context) { made, _, _ = decoder.Decode(ctx, x.JPEG, 2*max(w, h)) }, func() {
					if made == nil {
						broken = true
						t.Set(parts.ThumbSpec{ID: "slip_picture_" + strconv.Itoa(i), Label: label, Broken: d.Present.W.T("page.photo.broken", nil)})
						return
					}
					img = filling(made, w, h)
					t.Refresh()
				})
			}
			return img
		}
		t.OnOpen = func() { open(d, x, label) }
		row = append(row, t)
	}
	return parts.NewFlow(row...)
}

// filling fills a box of w by h pixels with the middle of a picture.
func filling(m image.Image, w, h int) image.Image {
	b := m.Bounds()
	k := max(float64(w)/float64(b.Dx()), float64(h)/float64(b.Dy()))
	cw, ch := min(b.Dx(), int(float64(w)/k+0.5)), min(b.Dy(), int(float64(h)/k+0.5))
	from := image.Rect(0, 0, max(1, cw), max(1, ch)).Add(b.Min).Add(image.Pt((b.Dx()-cw)/2, (b.Dy()-ch)/2))
	out := image.NewRGBA(image.Rect(0, 0, max(1, w), max(1, h)))
	draw.ApproxBiLinear.Scale(out, out.Rect, m, from, draw.Src, nil)
	return out
}

// open shows one picture with its marks.
func open(d nav.Deps, x slip.VisitPicture, title string) {
	var img image.Image
	var err error
	d.Aside(func(ctx context.Context) { img, _, err = decoder.Decode(ctx, x.JPEG, 0) }, func() {
		if err != nil {
			d.Fail(err)
			return
		}
		b := img.Bounds()
		view := picture.NewView()
		view.SetPicture(picture.Size{W: float64(b.Dx()), H: float64(b.Dy())}, picture.NewLevels(img))
		view.SetMarks(nav.Marks(d, x.Marks, b.Dx(), b.Dy()))
		var shut func()
		shut = d.Dialog(title, container.New(tall{}, view), parts.NewFlow(parts.NewButton(parts.ButtonSpec{ID: "close", Label: d.Present.W.T("label.close", nil)}, func() { shut() })))
	})
}

// pictureTall is the height of an opened picture, in points. Judgement: it leaves
// room for title and button in the smallest window.
const pictureTall = 440

// tall gives its child all the width and a set height.
type tall struct{}

// MinSize implements fyne.Layout.
func (tall) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(240, pictureTall) }

// Layout implements fyne.Layout.
func (tall) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
}
