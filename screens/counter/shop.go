package counter

import (
	"context"
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// shop is the card of who hands out here.
func (p *Page) shop() fyne.CanvasObject {
	s, notes, err := p.deps.Keeper.Shop(context.Background())
	if err != nil {
		p.deps.Fail(err)
	}
	change := parts.NewFlow(p.deps.Button("shop", "page.counter.shop_change", parts.Secondary, func() { p.editShop(s, notes) }))
	if s == (slip.Shop{}) && len(notes) == 0 {
		return parts.NewPanel(p.t("page.counter.shop"), parts.TextOf(p.t("page.counter.shop_empty"), parts.Body), change)
	}
	title := s.Name
	if title == "" {
		title = p.t("page.counter.shop")
	}
	var out []fyne.CanvasObject
	var row []fyne.CanvasObject
	for _, x := range []string{s.Address, s.Hours} {
		if x != "" {
			row = append(row, parts.TextOf(x, parts.Body))
		}
	}
	if len(row) > 0 {
		out = append(out, parts.NewRow(row...))
	}
	if len(notes) > 0 {
		out = append(out, parts.TextOf(p.deps.Present.NoteTongues(notes), parts.Note))
	}
	return parts.NewPanel(title, append(out, change)...)
}

func (p *Page) editShop(s slip.Shop, notes map[string]string) {
	w := p.deps.Present.W
	name := parts.NewField(parts.FieldSpec{ID: "shop-name", Label: p.t("page.counter.shop_name"), Text: s.Name})
	address := parts.NewField(parts.FieldSpec{ID: "shop-address", Label: p.t("page.counter.shop_address"), Text: s.Address, Lines: 3})
	hours := parts.NewField(parts.FieldSpec{ID: "shop-hours", Label: p.t("page.counter.shop_hours"), Text: s.Hours, Lines: 3})
	note := newNotes(p.deps, notes)
	var shut func()
	keep := func() {
		to := slip.Shop{Name: name.Text(), Address: address.Text(), Hours: hours.Text()}
		said := note.read()
		p.deps.Work(func(ctx context.Context) error { return p.deps.Keeper.SetShop(ctx, to, said) }, func(err error) {
			nav.Fault(name, "")
			nav.Fault(address, "")
			nav.Fault(hours, "")
			if words, ok := w.Problem(err); err != nil && ok {
				box := map[string]*parts.Field{"shop.name": name, "shop.address": address, "shop.hours": hours}[fieldOf(err)]
				if box == nil {
					box = note.box
				}
				nav.Fault(box, words)
				nav.ToFault(p.deps, box)
				return
			}
			shut()
			if err != nil {
				p.deps.Fail(err)
				return
			}
			p.Refresh()
			p.Focus()
		})
	}
	name.OnEnter = keep
	shut = p.deps.Dialog(p.t("page.counter.shop"), parts.NewColumn(8, parts.TextOf(p.t("page.counter.shop_why"), parts.SoftBody), name, parts.NewRowOf(2, address, hours), note.column),
		parts.NewFlow(p.deps.Button("keep", "page.day.keep", parts.Primary, keep), p.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	p.deps.Focus(name.Focusable())
}

// notes asks for a note in each language.
type notes struct {
	deps   nav.Deps
	texts  map[string]string
	lang   string
	choice *parts.Choice
	box    *parts.Field
	state  *parts.Text
	column *parts.Column
}

func newNotes(d nav.Deps, by map[string]string) *notes {
	n := &notes{deps: d, texts: maps.Clone(by), lang: d.Present.W.Language()}
	if n.texts == nil {
		n.texts = map[string]string{}
	}
	n.box = parts.NewField(parts.FieldSpec{ID: "note", Label: d.Present.W.T("page.counter.note", nil), Text: n.texts[n.lang], Lines: 5})
	n.box.OnChanged = func(string) { n.tell() }
	n.choice = parts.NewChoice(n.spec(), func(lang string) {
		n.read()
		n.lang = lang
		s := n.box.Spec()
		s.Text, s.Error = n.texts[lang], ""
		n.box.Set(s)
		n.show()
	})
	n.state = parts.NewText(parts.TextSpec{})
	n.column = parts.NewColumn(6, n.choice, n.box, n.state)
	n.show()
	return n
}

// others are languages in which a shop may want to leave a note, beside those of the
// program. Judgement: what customers of a shop speak; a note in any other that came
// with a profile is kept.
var others = []string{"ar", "de", "el", "en", "es", "fa", "fr", "hi", "hu", "it", "ja", "ko", "nl", "pl", "pt", "ro", "ru", "sv", "tl", "tr", "uk", "vi", "zh-Hans", "zh-Hant"}

// languages are those of the program, and any other that has a note.
func (n *notes) languages() []string {
	out := i18n.Languages()
	for _, lang := range others {
		if !slices.Contains(out, lang) {
			out = append(out, lang)
		}
	}
	for _, lang := range slices.Sorted(maps.Keys(n.texts)) {
		if !slices.Contains(out, lang) {
			out = append(out, lang)
		}
	}
	return out
}

func (n *notes) spec() parts.ChoiceSpec {
	w := n.deps.Present.W
	s := parts.ChoiceSpec{ID: "note-language", Label: w.T("page.counter.note_language", nil), Chosen: n.lang, Search: w.T("label.search", nil)}
	for _, lang := range n.languages() {
		s.Options = append(s.Options, parts.Option{Code: lang, Label: w.NameHere(lang)})
	}
	return s
}

func (n *notes) show() {
	n.choice.Set(n.spec())
	n.tell()
}

// tell says in which languages there is a note, what is being typed included.
func (n *notes) tell() {
	n.state.Set(parts.TextSpec{Text: n.deps.Present.NoteTongues(n.read()), Role: parts.Note})
}

// read takes what stands in the box and gives all notes.
func (n *notes) read() map[string]string {
	if t := strings.TrimSpace(n.box.Text()); t != "" {
		n.texts[n.lang] = t
	} else {
		delete(n.texts, n.lang)
	}
	return maps.Clone(n.texts)
}
