package nav

import (
	"image"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// SmallPicture gives a picture in a box of device pixels, nil while it is being
// made; ready is called once it is there.
func SmallPicture(d Deps, p keeper.Photo, w, h int, ready func()) image.Image {
	if d.Thumbs == nil || p.Problem != "" {
		return nil
	}
	img, _ := d.Thumbs.Get(picture.Key{Hash: p.Hash, Turned: p.Turned, W: w, H: h}, ready)
	return img
}

// PictureBroken are the words in the place of a picture that cannot be shown, ""
// where it can.
func PictureBroken(d Deps, p keeper.Photo) string {
	if p.Problem == "" {
		return ""
	}
	return d.Present.W.T("page.photo.broken", nil)
}

// Strip is a row of small pictures, as they stand with an entry or a case. One
// that is opened is shown with all its marks; open may be nil for that.
func Strip(d Deps, photos []keeper.Photo, open func(p keeper.Photo)) fyne.CanvasObject {
	var row []fyne.CanvasObject
	for _, p := range photos {
		t := parts.NewThumb(parts.ThumbSpec{ID: "picture_" + p.ID, Label: p.Caption, Broken: PictureBroken(d, p)}, nil, func() {
			if open != nil {
				open(p)
				return
			}
			d.Go(Route{Place: Photos, Tank: p.Tank, Photos: p.ID})
		})
		t.Image = func(w, h int) image.Image { return SmallPicture(d, p, w, h, t.Refresh) }
		row = append(row, t)
	}
	return parts.NewFlow(row...)
}
