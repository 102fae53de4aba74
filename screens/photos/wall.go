package photos

import (
	"context"
	"image"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// wall is the page of all pictures.
type wall struct {
	common
	entry, fish string // what is chosen; empty is all, fishless those that show none
	photos      []keeper.Photo
	picked      []string
	asked       int // counts the questions to the keeper, so that late answers are known

	root    *fyne.Container
	body    *fyne.Container
	row     *parts.Flow // of buttons
	drawing *nav.Drawing
	head    *parts.Column
	wall    *parts.Wall
	empty   *parts.Column
	add     *parts.Button
	open    *parts.Button
	clear   *parts.Button
	every   *parts.Button
	shows   *parts.Choice
	bar     *parts.Row // what is done with those that are picked
	album   *parts.Choice
	all     *parts.Button
	count   *parts.Text
	most    *parts.Text // that no more than Most can be open
}

var (
	_ nav.Page    = (*wall)(nil)
	_ nav.Dropper = (*wall)(nil)
)

func newWall(d nav.Deps, tank, entry, fish string) *wall {
	p := &wall{common: common{d, tank}, entry: entry, fish: fish, drawing: nav.NewDrawing(d, tank), wall: parts.NewWall("wall")}
	p.add = p.deps.Button("add", "page.photo.add", parts.Primary, func() { d.Pictures(tank, p.options(), nil, nil) })
	p.open = parts.NewButton(parts.ButtonSpec{ID: "open"}, p.openPicked)
	p.clear = p.deps.Button("clear", "page.photo.clear", parts.Quiet, func() { p.picked = nil; p.showPicked() })
	p.every = p.deps.Button("pick-all", "page.photo.pick_all", parts.Quiet, p.pickAll)
	p.shows = parts.NewChoice(parts.ChoiceSpec{}, p.setFish)
	p.most = parts.NewText(parts.TextSpec{})
	p.bar = parts.NewRow(p.shows, p.most)
	p.all = p.deps.Button("all", "page.photo.show_all", parts.Quiet, func() { d.Go(nav.Route{Place: nav.Photos, Tank: tank}) })
	p.album = parts.NewChoice(parts.ChoiceSpec{ID: "album"}, p.choose)
	p.count = parts.NewText(parts.TextSpec{})
	p.wall.Image = func(i, w, h int) image.Image { return nav.SmallPicture(d, p.photos[i], w, h, p.wall.Changed) }
	p.wall.Cell = p.cell
	p.wall.OnOpen = p.openOne
	p.wall.OnPick = p.pick
	p.wall.OnPaste = func() { d.Paste(tank, p.options(), nil) }
	p.head = parts.NewColumn(8)
	p.empty = parts.NewColumn(12)
	p.empty.Hide()
	p.row = parts.NewFlow(p.add)
	p.body = container.New(headed{}, p.head, p.wall, p.empty)
	p.root = container.New(nav.Beside{}, p.drawing.FocusView, p.body)
	p.showHead()
	p.Refresh()
	return p
}

// headed lays out a head as high as it needs, and below it the rest.
type headed struct{}

func (headed) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 300) }

func (headed) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const top, gap = 10, 10
	h := o[0].(parts.Tall).HeightAt(s.Width - 20)
	o[0].Move(fyne.NewPos(6, top))
	o[0].Resize(fyne.NewSize(s.Width-20, h))
	for _, x := range o[1:] {
		x.Move(fyne.NewPos(0, top+h+gap))
		x.Resize(fyne.NewSize(s.Width, s.Height-top-h-gap))
	}
}

// Object implements nav.Page.
func (p *wall) Object() fyne.CanvasObject { return p.root }

// Focus implements nav.Page.
func (p *wall) Focus() {
	if len(p.photos) > 0 {
		p.focus(p.wall)
		return
	}
	p.focus(p.add)
}

// Dropped implements nav.Dropper: pictures go where one is.
func (p *wall) Dropped(paths []string) bool {
	p.deps.Pictures(p.tank, p.options(), paths, nil)
	return true
}

// options are where pictures go that are added here.
func (p *wall) options() keeper.AddOptions {
	o := keeper.AddOptions{Entry: p.entry, Fish: p.fish}
	if o.Fish == fishless {
		o.Fish = ""
	}
	return o
}

// filter is what is shown.
func (p *wall) filter() keeper.PhotoFilter {
	if p.fish == fishless {
		return keeper.PhotoFilter{Entry: p.entry, NoFish: true}
	}
	return keeper.PhotoFilter{Entry: p.entry, Fish: p.fish}
}

// Refresh implements nav.Page.
func (p *wall) Refresh() {
	_ = p.drawing.ShowTank() // what fails, fails below too, and is told there
	p.asked++
	asked := p.asked
	var photos []keeper.Photo
	var err error
	p.deps.Aside(func(ctx context.Context) {
		photos, err = p.deps.Keeper.Photos(ctx, p.tank, p.filter())
	}, func() {
		if asked != p.asked {
			return
		}
		if err != nil {
			p.deps.Fail(err)
			return
		}
		first := len(p.photos) == 0
		p.photos = newestFirst(photos)
		p.picked = slices.DeleteFunc(p.picked, func(id string) bool { return p.index(id) < 0 })
		p.show()
		if c := p.deps.Canvas(); first && len(photos) > 0 && c != nil && c.Focused() == fyne.Focusable(p.add) {
			c.Focus(p.wall)
		}
	})
}

// newestFirst turns the keeper's order about; pictures without a time stay last.
func newestFirst(photos []keeper.Photo) []keeper.Photo {
	n := 0
	for n < len(photos) && photos[n].Taken != "" {
		n++
	}
	slices.Reverse(photos[:n])
	return photos
}

func (p *wall) index(id string) int {
	return slices.IndexFunc(p.photos, func(x keeper.Photo) bool { return x.ID == id })
}

// groups are the pictures by month.
func (p *wall) groups() []parts.WallGroup {
	w := p.deps.Present.W
	var out []parts.WallGroup
	for _, x := range p.photos {
		title := p.t("page.photo.undated")
		if t, err := x.Taken.Parse(); err == nil {
			title = w.MonthHeading(t)
		}
		if n := len(out); n == 0 || out[n-1].Title != title {
			out = append(out, parts.WallGroup{Title: title})
		}
		out[len(out)-1].Count++
	}
	return out
}

func (p *wall) cell(i int) parts.WallCell {
	x, w := p.photos[i], p.deps.Present.W
	c := parts.WallCell{Broken: nav.PictureBroken(p.deps, x), Picked: slices.Index(p.picked, x.ID) + 1, Marked: len(x.Marks) > 0}
	label := []string{x.Name}
	if t, err := x.Taken.Parse(); err == nil {
		label[0] = w.T("page.photo.day", i18n.Args{"Weekday": w.ShortWeekday(t.Weekday()), "Day": strconv.Itoa(t.Day())})
	}
	if x.Caption != "" {
		label = append(label, x.Caption)
	}
	c.Label = strings.Join(label, " · ")
	return c
}

// show puts what was read on the page.
func (p *wall) show() {
	p.count.Set(parts.TextSpec{Text: p.deps.Present.W.N("n.photos", float64(len(p.photos)), nil), Role: parts.Note})
	p.showHead()
	p.wall.Set(p.groups())
	if len(p.photos) == 0 {
		p.empty.Set(parts.NewText(parts.TextSpec{Text: p.emptyWords(), Role: parts.SoftBody}))
		p.empty.Show()
		p.wall.Hide()
	} else {
		p.empty.Hide()
		p.wall.Show()
	}
	p.showPicked()
}

// showHead shows what stands above the wall, which does not wait for the pictures.
func (p *wall) showHead() {
	options, err := p.fishOptions(p.t("page.photo.all_fish"))
	if err != nil {
		p.deps.Fail(err)
	}
	options = slices.Insert(options, 1, parts.Option{Code: fishless, Label: p.t("page.photo.fishless")})
	p.album.Set(parts.ChoiceSpec{ID: "album", Label: p.t("page.photo.album"), Chosen: p.fish, Options: options, Search: p.t("label.search"), Empty: p.t("page.photo.none_found")})
	head := []fyne.CanvasObject{parts.NewText(parts.TextSpec{Text: p.t("nav.view.photos"), Role: parts.Heading})}
	if len(nav.Views(nav.Daybook)) > 1 {
		head = append(head, nav.ViewRow(p.deps, p.tank, nav.Photos))
	}
	head = append(head, p.row, p.bar)
	if p.entry != "" {
		head = append(head, parts.NewText(parts.TextSpec{Text: p.entryTitle(), Role: parts.StrongBody}), p.all)
	} else {
		head = append(head, parts.NewRow(p.album, parts.NewColumn(0, parts.NewSpace(34), p.count)))
	}
	p.head.Set(head...)
}

func (p *wall) emptyWords() string {
	switch {
	case p.entry != "":
		return p.t("page.photo.empty_entry")
	case p.fish == fishless:
		return p.t("page.photo.empty_fishless")
	case p.fish != "":
		return p.t("page.photo.empty_fish")
	}
	return p.t("page.photo.empty")
}

// entryTitle says whose pictures are shown.
func (p *wall) entryTitle() string {
	w := p.deps.Present.W
	e, err := p.deps.Keeper.Entry(context.Background(), p.tank, p.entry)
	if err != nil {
		return ""
	}
	when := ""
	if t, err := e.At.Parse(); err == nil {
		when = w.DateTime(t)
	}
	return w.T("page.photo.of_entry", i18n.Args{"When": when})
}

// choose shows the album of a fish, or names one.
func (p *wall) choose(code string) {
	if code == newFishCode {
		p.nameFish(func(id string) {
			p.fish = id
			p.Refresh()
		})
		return
	}
	p.fish = code
	p.Refresh()
}

// pick picks a picture or lets go of it.
func (p *wall) pick(i int) {
	id := p.photos[i].ID
	switch at := slices.Index(p.picked, id); {
	case at >= 0:
		p.picked = slices.Delete(p.picked, at, at+1)
	default:
		p.picked = append(p.picked, id)
	}
	p.showPicked()
}

// showPicked shows the buttons for what is picked.
func (p *wall) showPicked() {
	row := []fyne.CanvasObject{p.add}
	if n := len(p.picked); n > 0 {
		if n <= Most {
			p.open.Set(parts.ButtonSpec{ID: "open", Label: p.deps.Present.W.N("n.photos_open", float64(n), nil)})
			row = append(row, p.open)
		}
		row = append(row, p.clear)
	}
	if len(p.photos) > 1 {
		row = append(row, p.every)
	}
	p.row.Set(row...)
	p.showBar()
	p.wall.Changed()
	p.lay()
}

// showBar shows the choice of the fish for those that are picked.
func (p *wall) showBar() {
	n := len(p.picked)
	if n == 0 {
		p.bar.Hide()
		p.head.Reflow()
		return
	}
	options, err := p.fishOptions("")
	if err != nil {
		p.deps.Fail(err)
	}
	options[0] = parts.Option{Code: fishless, Label: p.t("page.photo.no_fish")}
	p.shows.Set(parts.ChoiceSpec{ID: "set-fish", Label: p.deps.Present.W.N("n.photos_picked", float64(n), nil), Placeholder: p.t("page.photo.set_fish"), Options: options, Search: p.t("label.search"), Empty: p.t("page.photo.none_found")})
	most := parts.TextSpec{Role: parts.SoftBody}
	if n > Most {
		most.Text = p.deps.Present.W.N("n.photos_most", Most, nil)
	}
	p.most.Set(most)
	p.bar.Show()
	p.head.Reflow()
}

// lay places head and wall anew, for the head has another height.
func (p *wall) lay() { p.body.Layout.Layout(p.body.Objects, p.body.Size()) }

// openOne opens a picture, with those that are picked.
func (p *wall) openOne(i int) {
	ids := slices.Clone(p.picked)
	if id := p.photos[i].ID; !slices.Contains(ids, id) {
		if len(ids) >= Most {
			ids = nil
		}
		ids = append(ids, id)
	}
	if len(ids) > Most {
		ids = []string{p.photos[i].ID}
	}
	p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Photos: strings.Join(ids, ",")})
}

// pickAll picks all that are shown, or lets go of them when all are picked.
func (p *wall) pickAll() {
	if len(p.picked) == len(p.photos) {
		p.picked = nil
	} else {
		for _, x := range p.photos {
			if !slices.Contains(p.picked, x.ID) {
				p.picked = append(p.picked, x.ID)
			}
		}
	}
	p.showPicked()
}

// setFish says which fish those that are picked show.
func (p *wall) setFish(code string) {
	if code == newFishCode {
		p.nameFish(func(id string) { p.setFish(id) })
		return
	}
	if code == fishless {
		code = ""
	}
	ids := slices.Clone(p.picked)
	p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.PhotosFish(ctx, p.tank, ids, code) }, func(err error) {
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.picked = nil
		nav.Did(p.deps, p.tank, "page.photo.fish_set", p.Refresh)
		p.focus(p.wall)
	})
}

func (p *wall) openPicked() {
	if len(p.picked) > 0 {
		p.deps.Go(nav.Route{Place: nav.Photos, Tank: p.tank, Photos: strings.Join(p.picked, ",")})
	}
}
