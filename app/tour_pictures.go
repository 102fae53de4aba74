package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
)

// pictures shows the wall, two pictures side by side, and one with marks.
func (t *tour) pictures(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	photos, err := s.keeper.Photos(ctx, tank, keeper.PhotoFilter{})
	if err != nil || len(photos) < 2 {
		return err
	}
	first, last := photos[0].ID, photos[len(photos)-1].ID
	for _, m := range []photo.Mark{
		{Kind: photo.Known, Points: []photo.Point{{X: 83, Y: 905}, {X: 917, Y: 905}}, Measure: quantity.Measure{Number: "20", Unit: "in"}},
		{Kind: photo.Length, Points: []photo.Point{{X: 300, Y: 480}, {X: 300, Y: 800}}},
		{Kind: photo.Circle, Points: []photo.Point{{X: 560, Y: 740}, {X: 640, Y: 740}}},
	} {
		if _, err := s.keeper.AddMark(ctx, tank, last, m); err != nil {
			return err
		}
	}
	for _, c := range []struct{ name, open string }{{"pictures", ""}, {"pictures-two", first + "," + last}, {"picture-marked", last}} {
		s.shell.Go(nav.Route{Place: nav.Photos, Tank: tank, Photos: c.open})
		if err := shot(c.name); err != nil {
			return err
		}
	}
	if err := t.ofFish(s, tank, photos, shot); err != nil {
		return err
	}
	s.shell.AddPictures()
	if err := shot("pictures-add"); err != nil {
		return err
	}
	folder, err := t.folder(s)
	if err != nil {
		return err
	}
	if err := s.keeper.SetSetting(ctx, "chooser_folder", folder); err != nil {
		return err
	}
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	if err := w.press("choose_file", fyne.KeyReturn); err != nil {
		return err
	}
	for range 2 {
		w.key(fyne.KeyDown)
		w.key(fyne.KeySpace)
	}
	if err := shot("pictures-choose"); err != nil {
		return err
	}
	for _, o := range s.window.Canvas().Overlays().List() {
		s.window.Canvas().Overlays().Remove(o)
	}
	return nil
}

// ofFish shows what is done with pictures that are picked, and the wall of one fish.
func (t *tour) ofFish(s *stage, tank string, photos []keeper.Photo, shot func(string) error) error {
	ctx := context.Background()
	fish, err := s.keeper.FishOf(ctx, tank)
	if err != nil || len(fish) == 0 {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Photos, Tank: tank})
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	if err := w.press("pick-all", fyne.KeyReturn); err != nil {
		return err
	}
	if err := shot("pictures-picked"); err != nil {
		return err
	}
	if err := s.keeper.PhotosFish(ctx, tank, []string{photos[0].ID, photos[1].ID}, fish[0].ID); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Photos, Tank: tank, Fish: fish[0].ID})
	if err := shot("pictures-of-fish"); err != nil {
		return err
	}
	_, _, err = s.keeper.Undo(ctx, tank)
	return err
}

// folder is a folder with pictures to choose among.
func (t *tour) folder(s *stage) (string, error) {
	dir := filepath.Join(s.dir, "tank")
	if err := os.MkdirAll(filepath.Join(dir, "2025"), 0o755); err != nil {
		return "", err
	}
	for i := range 9 {
		img := image.NewRGBA(image.Rect(0, 0, 160, 120))
		for y := range 120 {
			for x := range 160 {
				img.Set(x, y, color.RGBA{uint8(40 + 12*i), uint8(90 + y/2), uint8(120 + x/2 - 6*i), 255})
			}
		}
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			return "", err
		}
		path := filepath.Join(dir, fmt.Sprintf("IMG_%04d.png", 412+3*i))
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			return "", err
		}
		at := s.clock.t.AddDate(0, 0, -2*i)
		if err := os.Chtimes(path, at, at); err != nil {
			return "", err
		}
	}
	return dir, nil
}
