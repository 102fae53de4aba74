package shell

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/screens/parts"
)

// dialog shows a panel over the page, with what ends it in a foot that does not
// scroll; Escape or the function returned closes it.
func (s *Shell) dialog(title string, content fyne.CanvasObject, foot ...fyne.CanvasObject) func() {
	return s.dialogOf(dialogWidth, title, content, nil, foot...)
}

// dialogBack is dialog with what Escape does; nil closes it.
func (s *Shell) dialogBack(title string, content fyne.CanvasObject, back func(), foot ...fyne.CanvasObject) func() {
	return s.dialogOf(dialogWidth, title, content, back, foot...)
}

func (s *Shell) dialogOf(width float32, title string, content fyne.CanvasObject, back func(), foot ...fyne.CanvasObject) func() {
	scroll := parts.NewScroller(12, parts.NewText(parts.TextSpec{Text: title, Role: parts.Heading}), content)
	return s.panel(content, parts.NewFooted(scroll, foot...), width, func(shut func()) {
		scroll.Keys.Back = shut
		if back != nil {
			scroll.Keys.Back = back
		}
	}, func(fit func()) { scroll.OnGrew = fit })
}

// panel lays a sheet over the page, as wide as asked and as high as it needs where
// the window has the room. content tells it apart from others; keys is given what
// closes it, and grew, which may be nil, what is to be called when it needs more
// room.
func (s *Shell) panel(content fyne.CanvasObject, sheet interface {
	fyne.CanvasObject
	parts.Tall
}, width float32, keys, grew func(func())) func() {
	c := s.canvas()
	if c == nil {
		return func() {}
	}
	var pop *widget.PopUp
	from, had := s.page, c.Focused() // the keyboard goes back to where the panel was called from
	shut := func() {
		pop.Hide()
		s.panels = slices.DeleteFunc(s.panels, func(o fyne.CanvasObject) bool { return o == content })
		if len(s.panels) > 0 { // the focus is that of the panel below
			return
		}
		if back := parts.Again(s.page.Object(), had); back != nil && s.page == from {
			c.Focus(back)
		} else {
			s.page.Focus()
		}
	}
	s.panels = append(s.panels, content)
	keys(shut)
	pop = widget.NewModalPopUp(container.New(layout.NewCustomPaddedLayout(dialogPad, dialogPad, dialogPad, dialogPad), sheet), c)
	size := c.Size()
	w := fyne.Min(width*float32(max(100, s.prefs.Text))/100, size.Width-60)
	tall := float32(0)
	fit := func() { // a panel that grows takes the room there is
		room := 2*dialogPad + 2*pop.Theme().Size(theme.SizeNameInnerPadding)
		h := fyne.Min(sheet.HeightAt(w-room)+room, size.Height-60)
		if h <= tall {
			return
		}
		tall = h
		pop.Resize(fyne.NewSize(w, h))
		pop.Move(fyne.NewPos((size.Width-w)/2, (size.Height-h)/2))
	}
	fit()
	pop.Show()
	pop.Move(fyne.NewPos((size.Width-w)/2, (size.Height-tall)/2))
	if grew != nil {
		grew(fit)
	}
	return shut
}

// dialogWidth reads well. Judgement.
const dialogWidth = 620

// besideWidth has two things beside each other. Judgement.
const besideWidth = 1180

// dialogPad is the room about what a panel holds.
const dialogPad = 10
