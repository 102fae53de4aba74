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
func tellTrouble(c *call, a fyne.App, w fyne.Window, sentence string, way *rescue, end func() int) int {
	fmt.Fprintln(c.stderr, sentence)
	if way != nil {
		fmt.Fprintln(c.stderr, way.sentence)
	}
	dress(a, look.Options{})
	h := host{a, func() { os.Exit(end()) }}
	sayTrouble(w, c.words, sentence, way, h.Quit)
	h.leaveBy(w)
	answerMap(c.env, func() nav.Route { return nav.Route{} }, func([]string) {})
	w.ShowAndRun()
	return end()
}

// sayTrouble fills a window with a sentence and a button for what shuts it;
// Escape and Enter do so too. Where there is a way out of the trouble, it is
// offered with a button of its own.
func sayTrouble(w fyne.Window, words *i18n.Words, sentence string, way *rescue, shut func()) {
	w.SetPadded(false)
	text := func(s string) fyne.CanvasObject { return parts.NewText(parts.TextSpec{Text: s, Role: parts.Body}) }
	button := parts.NewButton(parts.ButtonSpec{ID: "close", Label: words.T("label.close", nil), Kind: parts.Primary}, shut)
	body, row := []fyne.CanvasObject{text(sentence)}, []fyne.CanvasObject{button}
	if way != nil {
		body = append(body, text(way.sentence))
	}
	if way != nil && way.do != nil {
		row = append(row, parts.NewButton(parts.ButtonSpec{ID: "rescue", Label: words.T("page.copies.back", nil)}, func() {
			said, again := way.do()
			sayTrouble(w, words, said, again, shut)
		}))
	}
	if way != nil && way.again != nil {
		row = append(row, parts.NewButton(parts.ButtonSpec{ID: "again", Label: words.T("page.copies.open_again", nil)}, func() {
			way.again()
			shut()
		}))
	}
	page := parts.NewScroller(18, append(body, parts.NewFlow(row...))...)
	page.Keys = parts.Keys{CarryOn: shut, Back: shut}
	w.SetContent(container.New(layout.NewCustomPaddedLayout(troubleInset, troubleInset, troubleInset, troubleInset), page))
	w.Resize(fyne.NewSize(troubleWidth, page.Column().HeightAt(troubleWidth-4*troubleInset)+4*troubleInset))
	w.CenterOnScreen()
	w.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) { page.Key(ev) })
	w.Canvas().Focus(button)
}
