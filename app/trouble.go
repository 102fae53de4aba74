package main

import (
	"fmt"
	"os"

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

// tellTrouble says why there is no daybook to open: where errors go, and in the
// window until it is closed, for somebody who started the program from a menu
// sees no terminal. end puts away what there is and gives the exit code.
func tellTrouble(c *call, a fyne.App, w fyne.Window, sentence string, end func() int) int {
	fmt.Fprintln(c.stderr, sentence)
	dress(a, look.Options{})
	h := host{a, func() { os.Exit(end()) }}
	sayTrouble(w, c.words, sentence, h.Quit)
	h.leaveBy(w)
	answerMap(c.env, func() nav.Route { return nav.Route{} })
	w.ShowAndRun()
	return end()
}

// sayTrouble fills a window with a sentence and a button for what shuts it;
// Escape and Enter do so too.
func sayTrouble(w fyne.Window, words *i18n.Words, sentence string, shut func()) {
	w.SetPadded(false)
	button := parts.NewButton(parts.ButtonSpec{ID: "close", Label: words.T("label.close", nil), Kind: parts.Primary}, shut)
	page := parts.NewScroller(18, parts.NewText(parts.TextSpec{Text: sentence, Role: parts.Body}), parts.NewFlow(button))
	page.Keys = parts.Keys{CarryOn: shut, Back: shut}
	w.SetContent(container.New(layout.NewCustomPaddedLayout(troubleInset, troubleInset, troubleInset, troubleInset), page))
	w.Resize(fyne.NewSize(troubleWidth, page.Column().HeightAt(troubleWidth-4*troubleInset)+4*troubleInset))
	w.CenterOnScreen()
	w.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) { page.Key(ev) })
	w.Canvas().Focus(button)
}
