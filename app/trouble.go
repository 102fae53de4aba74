package main

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// troubleWidth is how wide the window is that tells of a trouble, points, and
// troubleInset its margin. Judgement: about 70 letters a line.
const (
	troubleWidth = 560
	troubleInset = 16
)

// tellTrouble says why there is no daybook to open: where errors go, and in a
// window until it is closed, for somebody who started the program from a menu
// sees no terminal.
func tellTrouble(c *call, sentence string) {
	fmt.Fprintln(c.stderr, sentence)
	a := newApp(look.Options{})
	w := troubleWindow(a, c.words, sentence)
	answerMap(c.env, func() nav.Route { return nav.Route{} })
	w.ShowAndRun()
}

// troubleWindow is a sentence with a button that closes it; Escape and Enter do
// so too. It is not shown yet.
func troubleWindow(a fyne.App, words *i18n.Words, sentence string) fyne.Window {
	w := a.NewWindow(appName)
	w.SetPadded(false)
	shut := parts.NewButton(parts.ButtonSpec{ID: "close", Label: words.T("label.close", nil), Kind: parts.Primary}, w.Close)
	page := parts.NewScroller(18, parts.NewText(parts.TextSpec{Text: sentence, Role: parts.Body}), parts.NewFlow(shut))
	page.Keys = parts.Keys{CarryOn: w.Close, Back: w.Close}
	w.SetContent(container.New(layout.NewCustomPaddedLayout(troubleInset, troubleInset, troubleInset, troubleInset), page))
	w.Resize(fyne.NewSize(troubleWidth, page.Column().HeightAt(troubleWidth-4*troubleInset)+4*troubleInset))
	w.CenterOnScreen()
	w.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) { page.Key(ev) })
	w.Canvas().Focus(shut)
	return w
}
