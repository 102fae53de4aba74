package parts

import (
	"testing"

	"fyne.io/fyne/v2"
)

// A step's name breaks after its hyphen, not inside a word.
func TestWrapBreaksAfterHyphens(t *testing.T) {
	m := func(s string) float32 { return float32(len([]rune(s))) }
	got := wrap("Home-coming", 8, m)
	if len(got) != 2 || got[0] != "Home-" || got[1] != "coming" {
		t.Errorf("got %q, want Home- and coming", got)
	}
	if got := wrap("about -5 °C", 7, m); got[0] != "about" {
		t.Errorf("got %q: a sign left its number", got)
	}
}

// Times written in one way take one room, so that what follows them stands in a column.
func TestClocksTakeOneRoom(t *testing.T) {
	p := newPen(NewEntryRow(EntryRowSpec{}, nil), nil)
	for _, same := range [][]string{{"1:11 AM", "10:08 PM", "9:47 AM"}, {"1:11 a. m.", "10:08 p. m."}, {"11:11", "08:40", "9:05"}} {
		want := p.clockWidth(same[0], bodySoft)
		for _, s := range same {
			if got := p.clockWidth(s, bodySoft); got != want || got < p.widthOf(s, bodySoft) {
				t.Errorf("%q takes %v, %q takes %v; its text is %v wide", s, got, same[0], want, p.widthOf(s, bodySoft))
			}
		}
	}
}

// The two ends stand on one line wherever their own widths fit.
func TestEndsKeepOneLine(t *testing.T) {
	l, r := NewButton(ButtonSpec{Label: "Back"}, nil), NewButton(ButtonSpec{Label: "Carry on to the next step", Kind: Primary}, nil)
	e := NewEnds(l, r)
	own := ownWidth(l) + flowGap + ownWidth(r)
	if own >= endLeft+flowGap+ownWidth(r) {
		t.Fatalf("Back is %v wide by itself: nothing to give", ownWidth(l))
	}
	one := l.HeightAt(own)
	if got := e.HeightAt(own + 1); got > one+1 {
		t.Errorf("at %v points the ends are %v high, want one line of %v", own+1, got, one)
	}
	if got := e.HeightAt(own - 2); got < 2*one {
		t.Errorf("at %v points the ends are %v high: they overlap", own-2, got)
	}
}

// The volume goes whole where it has no room, never by half.
func TestBarDropsTheVolumeWhole(t *testing.T) {
	n := NewNavBar(NavSpec{Tank: "Kitchen corner, 15.1 US gallons", Brief: "Kitchen corner", More: "More", Places: []Place{{Code: "a", Label: "First fill"}, {Code: "b", Label: "Daybook"}}})
	for _, c := range []struct {
		wide float32
		want string
	}{{1400, "Kitchen corner, 15.1 US gallons"}, {300, "Kitchen corner"}, {1401, "Kitchen corner, 15.1 US gallons"}} {
		n.Resize(fyne.NewSize(c.wide, navHeight))
		n.CreateRenderer().Layout(n.Size())
		n.Refresh()
		if n.tank.label != c.want {
			t.Errorf("at %v points the bar says %q, want %q", c.wide, n.tank.label, c.want)
		}
	}
}

// A row falls to fewer in a line before a choice in it breaks the word that it shows.
func TestRowBreaksNoChosenWord(t *testing.T) {
	shape := NewChoice(ChoiceSpec{Label: "Forme", Chosen: "box", Options: []Option{{"box", "Parallélépipédique biseauté"}, {"bow", "Bombé"}}}, nil)
	r := NewRow(NewChoice(ChoiceSpec{Label: "Matière", Chosen: "glass", Options: []Option{{"glass", "Verre"}}}, nil), shape)
	p := newPen(shape, nil)
	own := p.widthOf("Parallélépipédique", fieldBold) + choiceEdges*p.k
	if own <= rowLeast*p.k {
		t.Fatalf("the word takes %v, less than any column: nothing is shown", own)
	}
	beside := r.HeightAt(2*own + rowGap + 1)
	if got := r.HeightAt(2*own + rowGap - 2); got < beside*1.4 {
		t.Errorf("a little narrower than the word the row is %v high, and %v before: the word broke", got, beside)
	}
	if lines, _ := shape.shown(p, own); len(lines) != 2 || lines[0] != "Parallélépipédique" {
		t.Errorf("at its least width the choice says %q", lines)
	}
}
