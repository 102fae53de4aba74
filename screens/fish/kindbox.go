package fish

import (
	"strings"

	"fyne.io/fyne/v2"

	model "example.org/driploop/model/fish"
	"example.org/driploop/screens/parts"
)

// mostFound is how many kinds are offered below the box. Judgement.
const mostFound = 5

// kindBox asks which animal it is: what is typed looks through the catalogue in the
// person's language, and what the catalogue does not have goes by the words.
type kindBox struct {
	page   *Page
	field  *parts.Field
	found  *parts.Flow
	column *parts.Column
	code   model.Code // chosen; empty goes by the words
	chosen func()
}

// newKindBox makes the box in a form; chosen is called as the kind changes.
func (f *form) newKindBox(text string, chosen func()) *kindBox {
	b := &kindBox{page: f.page, chosen: chosen, found: parts.NewFlow()}
	b.field = f.box("species", "page.stock.kind", text)
	b.field.OnChanged = func(string) { b.look() }
	b.column = parts.NewColumn(2, b.field, b.found)
	b.look()
	return b
}

// look offers what the words lead to.
func (b *kindBox) look() {
	pr, words := b.page.deps.Present, strings.TrimSpace(b.field.Text())
	b.code = ""
	if code, ok := b.page.deps.Keeper.KindTold(words); ok {
		b.code = code
	}
	var row []fyne.CanvasObject
	if words != "" {
		for _, a := range model.Find(model.Filter{Text: words}, pr.KindNames) {
			if len(row) == mostFound {
				break
			}
			if a.Code == b.code && pr.KindName(a.Code) == words {
				continue
			}
			row = append(row, parts.NewButton(parts.ButtonSpec{ID: "kind-" + string(a.Code), Label: pr.KindName(a.Code), Kind: parts.Quiet}, func() { b.take(pr.KindName(a.Code)) }))
		}
	}
	b.found.Set(row...)
	s := b.field.Spec()
	s.Text, s.Error = b.field.Text(), ""
	switch a, err := model.Get(b.code); {
	case err == nil:
		s.Hint = a.Scientific
	case words != "" && len(row) == 0:
		s.Hint = b.page.t("page.stock.not_in_catalogue")
	default:
		s.Hint = b.page.t("page.stock.kind_hint")
	}
	b.field.Set(s)
	if b.chosen != nil {
		b.chosen()
	}
}

// take types a name that was offered into the box.
func (b *kindBox) take(name string) {
	b.field.Type(name)
	b.look()
	if c := b.page.deps.Canvas(); c != nil { // what was pressed is there no more
		c.Focus(b.field.Focusable())
	}
}
