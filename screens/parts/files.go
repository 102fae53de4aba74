package parts

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// FileRow is what one row of a list of files shows.
type FileRow struct {
	Name   string
	Beside string // at the right, such as its size and its day
	Folder bool
	Picked bool
}

// Files is a list of files and folders, as many as there may be: only the rows in
// view are asked for. It takes the focus as one. The arrows go from row to row, with
// Shift they choose on the way; Page Up, Page Down, Home and End as everywhere;
// letters go to the name that begins with them; Space chooses, the shortcut of
// selecting all chooses all; Enter opens a folder and takes files; Backspace goes
// up. A tap chooses a file or opens a folder, with Shift it chooses all from the one
// before.
type Files struct {
	part
	Keys Keys
	// Row gives row i; Image a small picture of it in a box of w by h device pixels,
	// nil where there is none or none yet; Changed is called once it is there.
	Row    func(i int) FileRow
	Image  func(i, w, h int) image.Image
	OnPick func(i int)        // turns the choice of a file over
	OnRun  func(from, to int) // chooses the files between two rows, both included
	OnAll  func()             // chooses all
	OnOpen func(i int)        // Enter, or a tap on a folder
	OnUp   func()             // to the folder above
	id     string
	count  int
	at     int  // the row that the keys are at
	from   int  // where a run begins
	shift  bool // Shift is held
	sheet  *filesSheet
	scroll *container.Scroll
	typed
}

// NewFiles gives an empty list.
func NewFiles(id string) *Files {
	f := &Files{id: id}
	f.sheet = &filesSheet{list: f, images: map[int]*canvas.Image{}}
	f.sheet.begin(f.sheet)
	f.scroll = container.NewVScroll(f.sheet)
	f.scroll.OnScrolled = func(fyne.Position) { f.sheet.Refresh() }
	f.begin(f)
	return f
}

// Set shows another number of rows, from the first one.
func (f *Files) Set(count int) {
	f.count, f.at, f.from = count, 0, 0
	for _, img := range f.sheet.images {
		f.sheet.spare = append(f.sheet.spare, img)
	}
	clear(f.sheet.images)
	f.scroll.ScrollToTop()
	f.sheet.Refresh()
	f.scroll.Refresh()
}

// Changed shows anew what is in view.
func (f *Files) Changed() { f.sheet.Refresh() }

// Count gives how many rows there are.
func (f *Files) Count() int { return f.count }

// At gives the row that the keys are at.
func (f *Files) At() int { return f.at }

// GoTo puts the keys at a row and brings it into view.
func (f *Files) GoTo(i int) {
	if f.count == 0 {
		return
	}
	f.at = max(0, min(i, f.count-1))
	row := f.sheet.row(newPen(f.sheet, nil))
	top := scrollInset + float32(f.at)*row
	off, view := f.scroll.Offset, f.scroll.Size().Height
	switch {
	case top-scrollInset < off.Y:
		off.Y = top - scrollInset
	case top+row+scrollInset > off.Y+view:
		off.Y = top + row + scrollInset - view
	}
	if off != f.scroll.Offset {
		f.scroll.ScrollToOffset(off)
	}
	f.sheet.Refresh()
}

func (f *Files) leastWidth() float32 { return 160 }

// HeightAt gives the least height, for the list shows what room it has.
func (f *Files) HeightAt(float32) float32 { return 120 }

func (f *Files) draw(p *pen, width float32) float32 {
	f.sheet.assumed = width
	p.put(f.scroll, 0, 0, width, p.height)
	return p.height
}

func (f *Files) ident() string { return f.id }

// FocusGained implements fyne.Focusable.
func (f *Files) FocusGained() {
	f.focus(true)
	f.GoTo(f.at)
}

// FocusLost implements fyne.Focusable.
func (f *Files) FocusLost() {
	f.shift = false
	f.focus(false)
	f.sheet.Refresh()
}

// KeyDown and KeyUp implement desktop.Keyable: whether Shift is held.
func (f *Files) KeyDown(ev *fyne.KeyEvent) { f.held(ev.Name, true) }

// KeyUp implements desktop.Keyable.
func (f *Files) KeyUp(ev *fyne.KeyEvent) { f.held(ev.Name, false) }

func (f *Files) held(name fyne.KeyName, down bool) {
	if name == desktop.KeyShiftLeft || name == desktop.KeyShiftRight {
		f.shift = down
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (f *Files) TypedShortcut(s fyne.Shortcut) {
	if _, ok := s.(*fyne.ShortcutSelectAll); ok {
		call(f.OnAll)
	}
}

// TypedRune implements fyne.Focusable: letters seek a name.
func (f *Files) TypedRune(r rune) {
	if r == ' ' || f.count == 0 || f.Row == nil {
		return
	}
	if i := f.seekIn(r, f.count, f.at, func(i int) string { return f.Row(i).Name }); i >= 0 {
		f.from = i
		f.GoTo(i)
	}
}

// TypedKey implements fyne.Focusable.
func (f *Files) TypedKey(ev *fyne.KeyEvent) {
	to, moved := f.at, true
	page := max(1, int(f.scroll.Size().Height/f.sheet.row(newPen(f.sheet, nil)))-1)
	switch ev.Name {
	case fyne.KeyUp:
		to--
	case fyne.KeyDown:
		to++
	case fyne.KeyPageUp:
		to -= page
	case fyne.KeyPageDown:
		to += page
	case fyne.KeyHome:
		to = 0
	case fyne.KeyEnd:
		to = f.count - 1
	default:
		moved = false
	}
	switch {
	case moved && f.count > 0:
		f.goOn(to)
	case ev.Name == fyne.KeySpace && f.count > 0:
		f.from = f.at
		f.pick(f.at)
	case isEnter(ev.Name) && f.count > 0:
		f.open(f.at)
	case ev.Name == fyne.KeyBackspace:
		call(f.OnUp)
	default:
		if !f.Keys.take(ev.Name) {
			f.spareKey(ev)
		}
	}
}

// goOn moves the keys; with Shift the rows on the way are chosen.
func (f *Files) goOn(to int) {
	f.GoTo(to)
	if !f.shift {
		f.from = f.at
		return
	}
	f.run()
}

// run chooses from where a run began to where the keys are.
func (f *Files) run() {
	if f.OnRun != nil {
		f.OnRun(min(f.from, f.at), max(f.from, f.at))
	}
	f.sheet.Refresh()
}

func (f *Files) pick(i int) {
	if f.Row(i).Folder {
		return
	}
	if f.OnPick != nil {
		f.OnPick(i)
	}
	f.sheet.Refresh()
}

func (f *Files) open(i int) {
	if f.OnOpen != nil {
		f.OnOpen(i)
	}
}
