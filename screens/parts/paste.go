package parts

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Most is how many characters a box takes at once from the clipboard, with those that
// stand in it. The toolkit lays out the whole text of a box at each key: a megabyte
// takes it a minute and some gigabytes. Judgement: longer than any note.
const Most = 20_000

var tooLong = func(most int) string { return "" }

// SayTooLong sets the words that stand below a box where more was to be pasted than it
// takes. It must run on the toolkit's goroutine.
func SayTooLong(words func(most int) string) { tooLong = words }

// TypedShortcut implements fyne.Shortcutable: what is too long to be pasted is left on
// the clipboard, and the text stays as it is.
func (b *boxed) TypedShortcut(s fyne.Shortcut) {
	if p, ok := s.(*fyne.ShortcutPaste); ok && p.Clipboard != nil {
		rest := utf8.RuneCountInString(b.Text) - utf8.RuneCountInString(b.SelectedText())
		if more := utf8.RuneCountInString(p.Clipboard.Content()); rest+more > Most {
			b.fill(true)
			return
		}
		b.fill(false)
	}
	b.Entry.TypedShortcut(s)
}

// fill notes whether something was too long to be pasted.
func (b *boxed) fill(full bool) {
	if b.full == full {
		return
	}
	b.full = full
	if b.filled != nil {
		b.filled()
	}
}

// KeyDown implements desktop.Keyable.
func (b *boxed) KeyDown(ev *fyne.KeyEvent) {
	b.shift = b.shift || isShift(ev.Name)
	b.Entry.KeyDown(ev)
}

// KeyUp implements desktop.Keyable.
func (b *boxed) KeyUp(ev *fyne.KeyEvent) {
	b.shift = b.shift && !isShift(ev.Name)
	b.Entry.KeyUp(ev)
}

func isShift(name fyne.KeyName) bool {
	return name == desktop.KeyShiftLeft || name == desktop.KeyShiftRight
}
