package sick

import (
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// together is how many pictures are set side by side at once: the first, which
// shows how it began, and the latest ones. Judgement: two by two on a screen.
const together = 4

// gallery is the pictures of the case, in order of time.
func (p *Page) gallery() []fyne.CanvasObject {
	out := []fyne.CanvasObject{parts.TextOf(p.t("page.sick.pictures"), parts.Section)}
	if len(p.photos) == 0 {
		return append(out, parts.TextOf(p.t("page.sick.no_pictures"), parts.SoftBody))
	}
	dated := make([]keeper.Photo, len(p.photos))
	for i, ph := range p.photos {
		dated[i] = ph
		dated[i].Caption = p.caption(ph)
	}
	out = append(out, nav.Strip(p.deps, dated, func(ph keeper.Photo) { p.show(ph.ID) }))
	if len(p.photos) > 1 {
		out = append(out, parts.NewFlow(p.button("side-by-side", p.t("page.sick.side_by_side"), parts.Secondary, func() {
			ids := []string{p.photos[0].ID}
			for _, ph := range p.photos[max(1, len(p.photos)-together+1):] {
				ids = append(ids, ph.ID)
			}
			p.show(ids...)
		})))
	}
	return out
}

// show opens pictures; the way back from them leads to the case.
func (p *Page) show(ids ...string) {
	p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Case: p.id, Photos: strings.Join(ids, ",")})
}

// caption is when a picture was taken, and its words.
func (p *Page) caption(ph keeper.Photo) string {
	when := p.t("page.sick.undated")
	if ph.Taken != "" {
		when = p.deps.Present.CivilDay(ph.Taken)
	}
	if ph.Caption == "" {
		return when
	}
	return when + " · " + ph.Caption
}

// add takes pictures into the case: the files given, or those that are chosen.
func (p *Page) add(paths []string) {
	p.deps.Pictures(p.tank, keeper.AddOptions{Sick: p.id, Fish: p.view.Case.Fish}, paths, nil)
}

// Dropped implements nav.Dropper: files dropped on an open case become its
// pictures.
func (p *Page) Dropped(paths []string) bool {
	if p.id == "" || !p.shown.Open || len(paths) == 0 {
		return false
	}
	p.add(paths)
	return true
}
