package fauna

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/look"
)

// Row is how one animal is coloured: its form, pigments and marks.
type Row struct {
	Code  fish.Code
	Form  string
	Depth float64 // of the body in total lengths; 0 as the form has it

	Body, Back, Belly look.Name // "" as the body
	Fin, Dorsal, Tail look.Name
	Eye               look.Name
	Alpha             float64 // of a body that is seen through; 0 is opaque
	Marks             []mark
}

func (r Row) alpha() float64 {
	if r.Alpha == 0 {
		return 1
	}
	return r.Alpha
}

// finAlpha gives the opacity of a fin: what has no colour is clear.
func (r Row) finAlpha(c look.Name) float64 {
	if c == look.PigmentSilver {
		return .55
	}
	return .88
}

// threads is the colour of thread-like fins, which are too thin for a pale one.
func (r Row) threads() look.Name { return look.Ink }

//go:embed fauna.csv
var file string

var headings = strings.Split("code,form,depth,body,back,belly,fin,dorsal,tail,eye,clear,marks", ",")

// others are the animals that are no fish, with what draws each and the marks
// that it takes.
var others = map[string]func(Row) *sketch{"shrimp": sketchShrimp, "crayfish": sketchCrayfish, "frog": sketchFrog, "globe": sketchGlobe, "coil": sketchCoil, "cone": sketchCone}

var otherMarks = []string{"dots", "bands", "zigzag"}

type table struct {
	rows     []Row
	sketches map[fish.Code]func() *sketch // each made when it is first asked for
}

var load = sync.OnceValue(func() table {
	rows, err := read(file)
	if err != nil {
		panic(err) // our own file; a test reads it
	}
	t := table{rows, map[fish.Code]func() *sketch{}}
	for _, r := range rows {
		t.sketches[r.Code] = sync.OnceValue(r.sketch)
	}
	t.sketches[""] = sync.OnceValue(plain.sketch)
	return t
})

// plain draws an animal of which only the size is known.
var plain = Row{Form: "rasbora", Depth: .27, Body: look.FishWarm, Fin: look.FishWarm, Tail: look.FishWarm, Eye: look.Sheet, Belly: look.PigmentWhite}

func (r Row) sketch() *sketch {
	if draw, ok := others[r.Form]; ok {
		return draw(r).fit()
	}
	return sketchFish(forms[r.Form], r)
}

// read reads a table and refuses what cannot be drawn.
func read(text string) ([]Row, error) {
	c := csv.NewReader(strings.NewReader(text))
	c.Comment, c.FieldsPerRecord = '#', len(headings)
	lines, err := c.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("fauna: %w", err)
	}
	if len(lines) == 0 || !slices.Equal(lines[0], headings) {
		return nil, fmt.Errorf("fauna: other headings than expected")
	}
	var out []Row
	seen := map[string]bool{}
	for i, l := range lines[1:] {
		r, err := readRow(l)
		if err == nil && seen[l[0]] {
			err = fmt.Errorf("code stands twice")
		}
		if err == nil {
			_, err = fish.Get(r.Code)
		}
		if err != nil {
			return nil, fmt.Errorf("fauna: row %d, %s: %w", i+1, l[0], err)
		}
		seen[l[0]] = true
		out = append(out, r)
	}
	return out, nil
}

func readRow(l []string) (Row, error) {
	r := Row{Code: fish.Code(l[0]), Form: l[1]}
	_, isFish := forms[r.Form]
	if _, other := others[r.Form]; !isFish && !other {
		return r, fmt.Errorf("form is %q, which is not known", r.Form)
	}
	for _, n := range []struct {
		at  int
		to  *float64
		low float64
	}{{2, &r.Depth, .05}, {10, &r.Alpha, .1}} {
		if l[n.at] == "" {
			continue
		}
		v, err := strconv.ParseFloat(l[n.at], 64)
		if err != nil || !(v >= n.low && v <= 1) {
			return r, fmt.Errorf("%s is %q, want %g to 1", headings[n.at], l[n.at], n.low)
		}
		*n.to = v
	}
	for i, to := range map[int]*look.Name{3: &r.Body, 4: &r.Back, 5: &r.Belly, 6: &r.Fin, 7: &r.Dorsal, 8: &r.Tail, 9: &r.Eye} {
		c, ok := pigments[l[i]]
		if !ok && (l[i] != "" || i == 3 || i == 6 || i == 8 && isFish) {
			return r, fmt.Errorf("%s is %q, which is no pigment", headings[i], l[i])
		}
		*to = c
	}
	for _, word := range strings.Fields(l[11]) {
		m, err := readMark(word, isFish)
		if err != nil {
			return r, err
		}
		r.Marks = append(r.Marks, m)
	}
	return r, nil
}

func readMark(word string, isFish bool) (mark, error) {
	parts := strings.Split(word, ":")
	m := mark{kind: parts[0]}
	most, ok := markKinds[m.kind]
	if !isFish {
		most, ok = 0, slices.Contains(otherMarks, m.kind)
	}
	if !ok || len(parts) < 2 || len(parts)-2 > most {
		return m, fmt.Errorf("mark %q is not known, or takes fewer numbers", word)
	}
	if m.colour, ok = pigments[parts[1]]; !ok {
		return m, fmt.Errorf("mark %q has no known pigment", word)
	}
	for _, p := range parts[2:] {
		v, err := strconv.ParseFloat(p, 64)
		if err != nil || !(v >= -1.5 && v <= 60) {
			return m, fmt.Errorf("mark %q: %q is no number of -1.5 to 60", word, p)
		}
		m.args = append(m.args, v)
	}
	return m, nil
}
