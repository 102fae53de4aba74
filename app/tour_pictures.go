package main

import (
	"context"

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
	s.shell.AddPictures()
	if err := shot("pictures-add"); err != nil {
		return err
	}
	for _, o := range s.window.Canvas().Overlays().List() {
		s.window.Canvas().Overlays().Remove(o)
	}
	return nil
}
