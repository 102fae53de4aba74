package scene

import "fyne.io/fyne/v2"

// Opened lists the spare fonts that are open.
func Opened() []fyne.Resource {
	book.Lock()
	defer book.Unlock()
	var out []fyne.Resource
	for _, s := range book.opened {
		out = append(out, s.source)
	}
	return out
}

// Shut closes the spare fonts, as they are when the program starts.
func Shut() {
	openBook()
	book.Lock()
	defer book.Unlock()
	book.opened, book.spares = nil, [2][]*spare{}
	book.takeSpares("")
	book.edition++
	book.glyphs = map[glyphKey]glyphInfo{}
}
