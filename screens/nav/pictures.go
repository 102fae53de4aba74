package nav

import (
	"context"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/parts"
)

// Pictured is the pictures of one entry, case or fish as they stand on its page, with
// the button that adds more. Pictures for an entry that is not written yet wait
// for it.
type Pictured struct {
	// OnOpen opens a picture; nil goes to it.
	OnOpen func(p keeper.Photo)
	// OnAdd does what the button does; nil asks for pictures.
	OnAdd func()

	deps    Deps
	tank    string
	of      keeper.AddOptions
	waiting []string
	asked   int
	column  *parts.Column
	add     *parts.Button
}

// NewPictured gives the pictures of an entry, a case or a fish, or with none of
// them those of an entry to come.
func NewPictured(d Deps, tank string, of keeper.AddOptions) *Pictured {
	p := &Pictured{deps: d, tank: tank, of: of, column: parts.NewColumn(6)}
	p.add = parts.NewButton(parts.ButtonSpec{ID: "add_pictures", Label: d.Present.W.T("page.photo.add", nil), Kind: parts.Quiet}, func() {
		if p.OnAdd != nil {
			p.OnAdd()
			return
		}
		p.Add(nil)
	})
	p.Refresh()
	return p
}

// Object is what stands on the page.
func (p *Pictured) Object() fyne.CanvasObject { return p.column }

func (p *Pictured) written() bool { return p.of.Entry != "" || p.of.Sick != "" || p.of.Fish != "" }

// Refresh reads the pictures anew.
func (p *Pictured) Refresh() {
	if !p.written() {
		p.show(nil)
		return
	}
	p.asked++
	asked := p.asked
	var photos []keeper.Photo
	var err error
	p.deps.Aside(func(ctx context.Context) {
		photos, err = p.deps.Keeper.Photos(ctx, p.tank, keeper.PhotoFilter{Entry: p.of.Entry, Sick: p.of.Sick, Fish: p.of.Fish})
	}, func() {
		if asked != p.asked {
			return
		}
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.show(photos)
	})
}

// most is how many pictures stand on a page before the wall is better. Judgement.
const most = 12

func (p *Pictured) show(photos []keeper.Photo) {
	w := p.deps.Present.W
	var out []fyne.CanvasObject
	if len(photos) > 0 {
		out = append(out, Strip(p.deps, photos[max(0, len(photos)-most):], p.OnOpen))
	}
	if len(p.waiting) > 0 {
		names := make([]string, len(p.waiting))
		for i, path := range p.waiting {
			names[i] = filepath.Base(path)
		}
		out = append(out, parts.NewText(parts.TextSpec{Text: w.T("page.photo.waiting", i18n.Args{"Names": strings.Join(names, ", ")}), Role: parts.Note}))
	}
	row := []fyne.CanvasObject{p.add}
	if len(photos) > most {
		row = append(row, parts.NewButton(parts.ButtonSpec{ID: "all_pictures", Label: w.N("n.photos", float64(len(photos)), nil), Kind: parts.Quiet}, func() {
			p.deps.Go(Route{Place: Photos, Tank: p.tank, Entry: p.of.Entry, Fish: p.of.Fish})
		}))
	}
	p.column.Set(append(out, parts.NewFlow(row...))...)
}

// Add takes files and folders in, or with none asks for them. Before the entry is
// written they wait.
func (p *Pictured) Add(paths []string) {
	if !p.written() {
		p.waiting = append(p.waiting, paths...)
		p.show(nil)
		return
	}
	p.deps.Pictures(p.tank, p.of, paths, func(keeper.Added) { p.Refresh() })
}

// Waiting gives the files that wait for an entry to be written.
func (p *Pictured) Waiting() []string { return p.waiting }
