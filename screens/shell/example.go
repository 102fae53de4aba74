package shell

import (
	"bytes"
	"context"
	"image"
	"image/draw"
	"image/jpeg"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/elevation"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Example makes the example tank in the person's words.
func (s *Shell) Example(ctx context.Context) (string, error) {
	return MakeExample(ctx, s.o.Keeper, s.present, s.o.Now())
}

// MakeExample makes the example tank with its pictures, unless there is one.
func MakeExample(ctx context.Context, k *keeper.Keeper, p present.Presenter, now time.Time) (string, error) {
	id, err := k.MakeExample(ctx, ExampleWords(p))
	if err != nil {
		return "", err
	}
	there, err := k.Photos(ctx, id, keeper.PhotoFilter{})
	if err != nil || len(there) > 0 {
		return id, err
	}
	return id, addSnapshots(ctx, k, p, id, now)
}

// snapshot is a picture of the example tank that we draw ourselves.
type snapshot struct {
	days    int // before today
	hour    int
	variant fyne.ThemeVariant
	near    float64 // how much of the tank's length it shows
	left    float64 // where that begins
	caption working.Key
}

// at is when it was taken.
func (s snapshot) at(now time.Time) time.Time {
	y, m, d := now.Date()
	return time.Date(y, m, d-s.days, s.hour, 0, 0, 0, now.Location())
}

var snapshots = []snapshot{
	{31, 18, theme.VariantLight, 1.2, -0.1, "example.picture_planted"},
	{9, 17, theme.VariantLight, 0.55, 0.05, "example.picture_plants"},
	{1, 21, theme.VariantDark, 1.2, -0.1, "example.picture_evening"},
}

// The size of the pictures in pixels.
const snapWide, snapTall = 960, 640

// addSnapshots draws pictures of the tank and puts them on days gone by.
func addSnapshots(ctx context.Context, k *keeper.Keeper, p present.Presenter, tank string, now time.Time) error {
	v, _, err := k.FirstFill(ctx, tank, care.HomeComing)
	if err != nil {
		return err
	}
	c := v.Picture
	c.Bag = false
	spec := elevation.From(c, elevation.Words(p.DrawingLabels(c)), p.Mass)
	spec.Compact, spec.Labels = true, elevation.Labels{}
	drawing := elevation.Build(spec)
	var sources []photo.Source
	for _, s := range snapshots {
		var b bytes.Buffer
		if err := jpeg.Encode(&b, s.draw(drawing), nil); err != nil {
			return err
		}
		sources = append(sources, photo.Source{Name: s.at(now).Format("2006-01-02") + photo.JPEG.Extension(), Bytes: b.Bytes()})
	}
	added, err := k.AddPhotos(ctx, tank, sources, keeper.AddOptions{}, nil)
	if err != nil || len(added.Photos) != len(snapshots) {
		return err
	}
	var times []keeper.Taken
	for i, id := range added.Photos {
		times = append(times, keeper.Taken{ID: id, At: journal.CivilOf(snapshots[i].at(now))})
	}
	if err := k.SetPhotoTaken(ctx, tank, times...); err != nil {
		return err
	}
	for i, id := range added.Photos {
		if err := k.CaptionPhoto(ctx, tank, id, p.W.T(snapshots[i].caption, nil)); err != nil {
			return err
		}
	}
	return nil
}

// draw paints the part of the drawing that the snapshot shows.
func (s snapshot) draw(drawing *scene.Scene) image.Image {
	colours := look.PaletteOf(s.variant)
	img := image.NewRGBA(image.Rect(0, 0, snapWide, snapTall))
	draw.Draw(img, img.Rect, image.NewUniform(colours(look.Paper)), image.Point{}, draw.Src)
	glass := drawing.ExtentOf(elevation.PartTank, scene.Transform{Scale: 1, Point: 1}) // y downwards
	scale := snapWide / (glass.W() * s.near)
	const floor = 0.9 // of the height lies at the foot of the glass
	new(scene.Raster).Draw(img, drawing, scene.Transform{Scale: scale, Point: 2,
		X: -(glass.Min.X + glass.W()*s.left) * scale, Y: snapTall*floor - glass.Max.Y*scale}, colours)
	return img
}
