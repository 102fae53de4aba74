package main

import (
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
)

// belowMenu keeps the room of the window's menu free until the menu stands. The
// menu is the only thing of a first page in the toolkit's own choice of fonts,
// which looks through those of the system: a window that waited for it would show
// its first picture later by a tenth of a second.
type belowMenu struct {
	box  *fyne.Container
	room float32   // points above the content
	own  fyne.Size // the size that it asks for while it is put into the window
}

func newBelowMenu(content fyne.CanvasObject) *belowMenu {
	b := &belowMenu{}
	if runtime.GOOS != "darwin" { // there the menu is the system's, outside the window
		const word = "Hg"
		size, _ := fyne.CurrentApp().Driver().RenderedTextSize(word, theme.TextSize(), fyne.TextStyle{}, look.SourceFor(fyne.TextStyle{}, word))
		b.room = size.Height + theme.InnerPadding()
	}
	b.box = container.New(b, content)
	return b
}

// into puts it into a window that will have a size. A window lays its content out
// at the least size first, which nobody sees: here that is the size it will have.
func (b *belowMenu) into(w fyne.Window, size fyne.Size) {
	b.own = size
	w.SetContent(b.box)
	b.own = fyne.Size{}
}

// menuStands gives the room away.
func (b *belowMenu) menuStands() {
	b.room = 0
	b.box.Refresh()
}

// Layout implements fyne.Layout.
func (b *belowMenu) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(0, b.room))
		o.Resize(fyne.NewSize(size.Width, size.Height-b.room))
	}
}

// MinSize implements fyne.Layout.
func (b *belowMenu) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if !b.own.IsZero() {
		return b.own
	}
	least := fyne.NewSize(0, b.room)
	for _, o := range objects {
		least = least.Max(o.MinSize().AddWidthHeight(0, b.room))
	}
	return least
}
