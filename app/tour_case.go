package main

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	model "example.org/driploop/model/sick"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// sick shows the cases: opening one, ticking signs, and a case of two days with
// pictures, whose paper is kept as well.
func (t *tour) sick(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	s.shell.Go(nav.Route{Place: nav.Sick, Tank: tank})
	if err := shot("cases"); err != nil {
		return err
	}
	id, err := s.keeper.OpenCase(ctx, tank, keeper.Who{}, model.One)
	if err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Sick, Tank: tank, Case: id})
	if err := shot("signs"); err != nil {
		return err
	}
	for _, sign := range []model.SignID{"clamped_fins", "cotton_tufts"} {
		if err := s.keeper.TickSign(ctx, tank, id, sign); err != nil {
			return err
		}
	}
	var from []photo.Source
	for i := range 3 {
		drawn, err := portrait(i)
		if err != nil {
			return err
		}
		from = append(from, photo.Source{Name: fmt.Sprintf("%d.png", i+1), Bytes: drawn})
	}
	added, err := s.keeper.AddPhotos(ctx, tank, from, keeper.AddOptions{Sick: id}, nil)
	if err != nil {
		return err
	}
	var taken []keeper.Taken
	for i, p := range added.Photos {
		taken = append(taken, keeper.Taken{ID: p, At: journal.CivilOf(s.clock.now().Add(time.Duration(i-6) * time.Hour)), From: keeper.TakenByPerson})
	}
	if err := s.keeper.SetPhotoTaken(ctx, tank, taken...); err != nil {
		return err
	}
	if _, err := s.keeper.AddMark(ctx, tank, added.Photos[2], photo.Mark{Kind: photo.Circle, Points: []photo.Point{{X: 560, Y: 450}, {X: 620, Y: 450}}}); err != nil {
		return err
	}
	s.clock.t = s.clock.t.Add(24 * time.Hour)
	s.shell.Go(nav.Route{Place: nav.Sick, Tank: tank, Case: id})
	if err := shot("case"); err != nil {
		return err
	}
	s.window.Resize(fyne.NewSize(t.size.Width, caseTall)) // the whole of it in one picture
	s.shell.Page().Refresh()
	if err := shot("case-whole"); err != nil {
		return err
	}
	s.window.Resize(t.size)
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	s.shell.Go(nav.Route{Place: nav.Sick, Tank: tank, Case: id})
	for _, press := range []string{"close-case", "outcome-died"} {
		if err := w.press(press, fyne.KeyReturn); err != nil {
			return err
		}
		if err := shot("form-" + press); err != nil {
			return err
		}
	}
	s.shut()
	s.shell.Go(nav.Route{Place: nav.Today, Tank: tank})
	if err := shot("today-case"); err != nil {
		return err
	}
	prefs := s.shell.Prefs()
	var b bytes.Buffer
	speaker := present.Presenter{W: i18n.Speak(prefs.Lang, prefs.Region, prefs.Units), Region: care.Region{Code: prefs.Region}}
	if err := paper.WriteCase(ctx, s.keeper, tank, id, speaker, paper.SizeFor(prefs.Region), &b, nil); err != nil {
		return err
	}
	return t.keep(fmt.Sprintf("case-%s.pdf", prefs.Lang), b.Bytes())
}

// caseTall is how high a window shows the whole page of a case. Judgement.
const caseTall = 2600

// portrait draws a fish as a picture, from one day to the next a little duller.
func portrait(day int) ([]byte, error) {
	s := scene.New()
	pale := 1 - 0.25*float64(day)
	s.Add(scene.Rect{Min: scene.Pt(0, 0), Max: scene.Pt(160, 120), Style: scene.Style{Fill: look.Water}},
		scene.Rect{Min: scene.Pt(0, 0), Max: scene.Pt(160, 22), Style: scene.Style{Fill: look.Gravel}},
		scene.Polyline{Points: []scene.Point{scene.Pt(50, 66), scene.Pt(22, 84), scene.Pt(22, 48)}, Closed: true, Style: scene.Style{Fill: look.Ochre, Stroke: look.Ink, Alpha: pale}},
		scene.Ellipse{Centre: scene.Pt(85, 66), RX: 42, RY: 18, Style: scene.Style{Fill: look.Ochre, Stroke: look.Ink, Alpha: pale}},
		scene.Circle(scene.Pt(114, 70), 2.4, scene.Style{Fill: look.Ink}))
	if day == 2 {
		s.Add(scene.Circle(scene.Pt(90, 66), 5, scene.Style{Fill: look.Sheet}))
	}
	return scene.PNG(s, 800, 600, theme.VariantLight)
}
