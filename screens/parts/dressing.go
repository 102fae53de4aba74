package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// A box has a theme of its own. The toolkit's ThemeOverride gives it to a widget and to
// all that is in it, and keeps each canvas object that it gave a theme until the program
// ends, with the theme and so with the page, and with fonts read anew for every override:
// some 10 MB a box. So the override is not shown, and what it finds in a box is no more
// than the toolkit forgets by itself once it is out of sight: the box and the widgets of
// its text, without the texts, which have the fonts of the program.

// CreateRenderer implements fyne.Widget. The toolkit asks anew for a box that was out
// of sight for a while, whose theme it has forgotten then.
func (b *boxed) CreateRenderer() fyne.WidgetRenderer {
	if b.coming != nil { // the override asks, having given the box its theme
		b.coming.undress(b.Entry.CreateRenderer())
		return b.coming
	}
	r := &boxedRenderer{}
	b.coming = r
	container.NewThemeOverride(b, fieldTheme{b})
	b.coming = nil
	if r.WidgetRenderer == nil { // the box is in sight, and has its theme
		r.WidgetRenderer = b.Entry.CreateRenderer()
	}
	return r
}

// boxedRenderer draws a box.
type boxedRenderer struct {
	fyne.WidgetRenderer
	bare []bareText // while the box is dressed
}

// bareText is a widget of text while it has none.
type bareText struct {
	*widget.RichText
	segments []widget.RichTextSegment
}

// undress takes the texts out of their widgets until the box is next refreshed, which
// is once it has its theme.
func (r *boxedRenderer) undress(entry fyne.WidgetRenderer) {
	r.WidgetRenderer = entry
	for _, o := range entry.Objects() {
		scroll, ok := o.(*container.Scroll)
		if !ok {
			continue
		}
		for _, o := range scroll.Content.(fyne.Widget).CreateRenderer().Objects() {
			if t, ok := o.(*widget.RichText); ok {
				r.bare = append(r.bare, bareText{t, t.Segments})
				t.Segments = nil
				t.Refresh()
			}
		}
	}
}

// Objects implements fyne.WidgetRenderer.
func (r *boxedRenderer) Objects() []fyne.CanvasObject {
	if r.bare == nil {
		return r.WidgetRenderer.Objects()
	}
	var out []fyne.CanvasObject
	for _, t := range r.bare {
		out = append(out, t.RichText)
	}
	return out
}

// Refresh implements fyne.WidgetRenderer.
func (r *boxedRenderer) Refresh() {
	for _, t := range r.bare {
		t.Segments = t.segments
	}
	r.bare = nil
	r.WidgetRenderer.Refresh()
}
