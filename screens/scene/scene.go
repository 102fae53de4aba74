package scene

import "fmt"

// ID names a part of a drawing for hit testing; "" is no part. IDs are not
// shown to people.
type ID string

// Item is one thing drawn. The types of this package that end in a draw method
// are all the items there are.
type Item interface {
	draw(d *drawing) // emits outlines, lines and text in device units
	ok() bool        // all numbers finite and in range
}

type entry struct {
	item Item
	id   ID
}

// Scene is a drawing: items in drawing order. Build it in one goroutine; once
// built it may be read from several.
type Scene struct {
	entries []entry
	group   ID
	err     error
}

// New gives an empty scene.
func New() *Scene { return &Scene{} }

// Add appends items, later ones over earlier ones. An item whose numbers are
// not finite is left out and reported by Err.
func (s *Scene) Add(items ...Item) {
	for _, it := range items {
		if it == nil || !it.ok() {
			if s.err == nil {
				s.err = &ItemError{Index: len(s.entries), Item: it}
			}
			continue
		}
		s.entries = append(s.entries, entry{it, s.group})
	}
}

// Group runs build; what is added meanwhile belongs to the part id. In a group
// within a group the inner one names the part.
func (s *Scene) Group(id ID, build func()) {
	outer := s.group
	s.group = id
	defer func() { s.group = outer }()
	build()
}

// Area adds a rectangle that paints nothing: it counts for the bounds (so that
// the scale stays steady while parts come and go) and, inside a group, for
// hitting (so that an unfilled outline can be hit anywhere within).
func (s *Scene) Area(b Box) { s.Add(area{b}) }

// Append adds all items of the other scene, their IDs kept.
func (s *Scene) Append(other *Scene) {
	if other == nil {
		return
	}
	s.entries = append(s.entries, other.entries...)
	if s.err == nil {
		s.err = other.err
	}
}

// Len gives the number of items.
func (s *Scene) Len() int { return len(s.entries) }

// Err gives the first item that was left out, as an *ItemError, or nil.
func (s *Scene) Err() error { return s.err }

// ItemError tells that an item was left out of a scene because one of its
// numbers was NaN, infinite or out of range.
type ItemError struct {
	Index int  // the place it would have had
	Item  Item // as given
}

func (e *ItemError) Error() string {
	return fmt.Sprintf("scene: item %d (%T) has a number that is not finite or out of range", e.Index, e.Item)
}

// Bounds gives the box of everything measured in millimetres, in millimetres.
// What is measured in points counts as its anchor alone. Empty for an empty
// scene.
func (s *Scene) Bounds() Box {
	e := s.Extent(Transform{Scale: 1, Point: 0})
	if e.Empty() {
		return e
	}
	return Box{Point{e.Min.X, -e.Max.Y}, Point{e.Max.X, -e.Min.Y}} // device y runs down
}

// Extent gives the box of everything, text and strokes included, in device
// units under t.
func (s *Scene) Extent(t Transform) Box {
	m := measurer{box: EmptyBox()}
	d := drawing{t: t, out: &m}
	for _, e := range s.entries {
		e.item.draw(&d)
	}
	return m.box
}

// Written is a line of text with the room that it takes in device units.
type Written struct {
	S   string
	Box Box
}

// Texts gives every line of text under t, in drawing order.
func (s *Scene) Texts(t Transform) []Written {
	var r reader
	d := drawing{t: t, out: &r}
	for _, e := range s.entries {
		e.item.draw(&d)
	}
	return r.lines
}

// IDs gives the parts in drawing order, each once.
func (s *Scene) IDs() []ID {
	var ids []ID
	seen := map[ID]bool{"": true}
	for _, e := range s.entries {
		if !seen[e.id] {
			seen[e.id] = true
			ids = append(ids, e.id)
		}
	}
	return ids
}

// ExtentOf gives the box of one part in device units under t; empty when the
// scene has no such part.
func (s *Scene) ExtentOf(id ID, t Transform) Box {
	m := measurer{box: EmptyBox()}
	d := drawing{t: t, out: &m}
	for _, e := range s.entries {
		if e.id == id {
			e.item.draw(&d)
		}
	}
	return m.box
}
