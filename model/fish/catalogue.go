package fish

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

//go:embed catalogue.csv
var file string

// catalogue is read once, on first use: the window starts without it.
type catalogue struct {
	list []*Animal
	by   map[Code]*Animal
}

var load = sync.OnceValue(func() catalogue {
	list, err := read(file)
	if err != nil {
		panic(err) // our own file; a test reads it
	}
	c := catalogue{list, map[Code]*Animal{}}
	for _, a := range list {
		c.by[a.Code] = a
	}
	return c
})

// All lists the catalogue by group and scientific name. The animals are shared:
// they are not to be changed.
func All() []*Animal { return slices.Clone(load().list) }

// Get returns the animal with a code. Errors: *working.Refusal of "code".
func Get(c Code) (*Animal, error) {
	if a := load().by[c]; a != nil {
		return a, nil
	}
	return nil, working.Refuse("code", "refuse.fish.unknown")
}

// columns are the headings of the file, in order.
var columns = strings.Split("id,scientific_name,common_en,group,adult_length_cm,adult_length_source,temp_min_c,temp_max_c,ph_min,ph_max,dgh_min,dgh_max,"+
	"param_source,zone,min_group,temperament,fin_nipper,long_fins,mouth_gape_class,diet,min_tank_l,same_sex_conflict,breeds_readily,hardiness_for_new_tank,"+
	"lw_a,lw_b,lw_source,body_shape,notes_code,synonyms", ",")

// read reads a file of animals and refuses what is out of any animal's range.
func read(text string) ([]*Animal, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', len(columns)
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("fish: catalogue: %w", err)
	}
	if len(rows) == 0 || !slices.Equal(rows[0], columns) {
		return nil, fmt.Errorf("fish: catalogue: other headings than expected")
	}
	var out []*Animal
	seen := map[Code]bool{}
	for i, row := range rows[1:] {
		p := rowReader{row: row}
		a := p.animal()
		if p.err == nil && seen[a.Code] {
			p.fail("id stands twice")
		}
		if p.err != nil {
			return nil, fmt.Errorf("fish: catalogue row %d, %s: %w", i+1, row[0], p.err)
		}
		seen[a.Code] = true
		out = append(out, a)
	}
	return out, nil
}

// rowReader reads the cells of a row and keeps the first fault.
type rowReader struct {
	row []string
	err error
}

func (p *rowReader) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf(format, args...)
	}
}

func (p *rowReader) cell(name string) string { return p.row[slices.Index(columns, name)] }

func (p *rowReader) number(name string, low, high float64) float64 {
	x, err := strconv.ParseFloat(p.cell(name), 64)
	if err != nil || !(x >= low && x <= high) {
		p.fail("%s is %q, want %g to %g", name, p.cell(name), low, high)
	}
	return x
}

func (p *rowReader) whole(name string, low, high float64) int {
	x := p.number(name, low, high)
	if x != math.Trunc(x) {
		p.fail("%s is %q, want a whole number", name, p.cell(name))
	}
	return int(x)
}

func (p *rowReader) span(name, unit string, low, high float64) [2]float64 {
	s := [2]float64{p.number(name+"_min"+unit, low, high), p.number(name+"_max"+unit, low, high)}
	if !(s[0] < s[1]) {
		p.fail("%s runs from %g to %g", name, s[0], s[1])
	}
	return s
}

// oneOf reads a word of ours; the file's own spelling is brought to it.
func oneOf[T ~string](p *rowReader, name string, list ...T) T {
	x := T(strings.ReplaceAll(p.cell(name), "-", "_"))
	if w, ok := respelt[string(x)]; ok {
		x = T(w)
	}
	if !slices.Contains(list, x) {
		p.fail("%s is %q", name, x)
	}
	return x
}

// respelt are the words of the file that have another name here.
var respelt = map[string]string{"mid": "middle", "pleco_oto": "pleco", "shark_cyprinid": "shark_minnow", "amphibian": "frog"}

var (
	codeForm = regexp.MustCompile(`^[a-z]+(-[a-z]+)+$`)
	params   = regexp.MustCompile(`^T:(.*); pH:(.*); dGH:(.*)$`)
	keyForm  = regexp.MustCompile(`FB1[67]-EST|FB18-LW|WIKI-sv|WIKI-derived|[A-Z][A-Z0-9]{1,5}`)
	bracket  = regexp.MustCompile(`\[[^\]]*\]`)
)

// animal reads the row. The limits are those of any animal of the trade.
func (p *rowReader) animal() *Animal {
	a := &Animal{Code: Code(p.cell("id")), Scientific: p.cell("scientific_name"), Common: p.cell("common_en")}
	if !codeForm.MatchString(string(a.Code)) || a.Scientific == "" || a.Common == "" {
		p.fail("no code or name")
	}
	for _, s := range strings.Split(p.cell("synonyms"), ";") {
		if s = strings.TrimSpace(s); s != "" {
			a.Also = append(a.Also, s)
		}
	}
	a.Group = oneOf(p, "group", Groups()...)
	a.cm = p.number("adult_length_cm", 1, 150)
	a.temp, a.ph, a.dgh = p.span("temp", "_c", 0, 35), p.span("ph", "", 4, 9.5), p.span("dgh", "", 0, 40)
	a.Zone = oneOf(p, "zone", Zones()...)
	a.MinGroup = p.whole("min_group", 1, 20)
	a.Temper = oneOf(p, "temperament", Tempers()...)
	a.NipsFins, a.LongFins, a.Breeds = p.whole("fin_nipper", 0, 1) == 1, p.whole("long_fins", 0, 1) == 1, p.whole("breeds_readily", 0, 1) == 1
	a.Mouth = oneOf(p, "mouth_gape_class", TinyMouth, SmallMouth, MediumMouth, LargeMouth)
	a.Diet = oneOf(p, "diet", Omnivore, Carnivore, Herbivore, Micro)
	a.LeastTank = quantity.Litres(p.number("min_tank_l", 5, 20_000))
	a.Rivalry = oneOf(p, "same_sex_conflict", NoRivals, MaleRivals, AllRivals)
	a.Hardiness = p.whole("hardiness_for_new_tank", 1, 5)
	a.Build = oneOf(p, "body_shape", Fusiform, Deep, Elongate, FlatBed, EelLike)
	for _, n := range strings.Split(p.cell("notes_code"), ",") {
		if n == "" {
			continue
		}
		bit, ok := traitBits[Trait(n)]
		if !ok {
			p.fail("the trait %q is none of ours", n)
		}
		a.Traits, a.traits = append(a.Traits, Trait(n)), a.traits|bit
	}
	p.mass(a)
	p.sources(a)
	a.name, a.Length = a.Code.Name(), quantity.Length(a.cm/100)
	a.TempLow, a.TempHigh = quantity.Temperature(a.temp[0]), quantity.Temperature(a.temp[1])
	a.PHLow, a.PHHigh = quantity.PH(a.ph[0]), quantity.PH(a.ph[1])
	a.GHLow, a.GHHigh = quantity.Hardness(a.dgh[0]*degree), quantity.Hardness(a.dgh[1]*degree)
	return a
}

var degree = quantity.MustUnit("dgh").Factor // mg/L CaCO3

// Mass of animals that have no published relation: W[g] = a·L[cm]^3, soft body
// alone. // judgement: a cherry shrimp of 3 cm 0.3 g, a snail of 2 cm 0.4 g
// without its shell, a dwarf frog of 4 cm 2.6 g, a crayfish of 10 cm 25 g
var massOfGroup = map[Group]float64{Shrimp: 0.01, Snail: 0.05, Frog: 0.04, Crayfish: 0.025}

// mass reads the length-weight relation.
func (p *rowReader) mass(a *Animal) {
	if f, ok := massOfGroup[a.Group]; ok && p.cell("lw_a") == "" {
		a.MassFactor, a.MassPower = f, 3
		a.MassFrom = From{[]working.SourceID{working.Ours}, SurePractice}
	} else {
		a.MassFactor, a.MassPower = p.number("lw_a", 0.001, 0.1), p.number("lw_b", 2.5, 3.5)
		a.MassFrom = fromOf(p.cell("lw_source"))
		if strings.Contains(p.cell("lw_source"), "class") && a.MassFrom.Sure == SurePublished {
			a.MassFrom.Sure = SureAdjusted // an average of a body shape
		}
		if len(a.MassFrom.Sources) == 0 {
			p.fail("lw_source names no source")
		}
	}
	a.grams = a.MassFactor * math.Pow(a.cm, a.MassPower)
}

// sources reads where length and ranges come from.
func (p *rowReader) sources(a *Animal) {
	m := params.FindStringSubmatch(p.cell("param_source"))
	if m == nil {
		p.fail("param_source is %q", p.cell("param_source"))
		return
	}
	a.TempFrom, a.PHFrom, a.GHFrom = fromOf(m[1]), fromOf(m[2]), fromOf(m[3])
	a.LengthFrom = fromOf(bracket.ReplaceAllString(p.cell("adult_length_source"), ""))
	for _, f := range []From{a.LengthFrom, a.TempFrom, a.PHFrom, a.GHFrom} {
		if len(f.Sources) == 0 {
			p.fail("a figure names no source")
		}
	}
}

// hedges are words that say that a published figure is not used as it stands.
var hedges = []string{"proxy", "congener", "not followed", "narrowed", "genus", "family", "midpoint", "converted", " of "}

// fromOf finds the source keys in a cell and how sure the figure is.
func fromOf(cell string) From {
	f := From{Sure: SurePublished}
	published, loose := false, false
	for _, k := range keyForm.FindAllString(cell, -1) {
		id, ok := keyed[k]
		if !ok {
			continue
		}
		if id == working.Trade || id == srcWeb {
			loose = true
		} else {
			published = true
		}
		if !slices.Contains(f.Sources, id) {
			f.Sources = append(f.Sources, id)
		}
	}
	switch {
	case !published:
		f.Sure = SurePractice
	case loose, slices.ContainsFunc(hedges, func(h string) bool { return strings.Contains(cell, h) }):
		f.Sure = SureAdjusted
	}
	return f
}
