package quantity

import (
	"bufio"
	"errors"
	"os"
	"strconv"
	"strings"
	"testing"
)

const tables = "../../testdata/quantity/"

// rows reads a table of testdata without its comment lines.
func rows(t *testing.T, name string) []string {
	t.Helper()
	f, err := os.Open(tables + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []string
	s := bufio.NewScanner(f)
	for s.Scan() {
		if !strings.HasPrefix(s.Text(), "#") {
			out = append(out, s.Text())
		}
	}
	if err := s.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// unescape turns \u1234 into its character.
func unescape(t *testing.T, s string) string {
	t.Helper()
	for {
		i := strings.Index(s, `\u`)
		if i < 0 {
			return s
		}
		n, err := strconv.ParseUint(s[i+2:i+6], 16, 32)
		if err != nil {
			t.Fatalf("bad escape in %q", s)
		}
		s = s[:i] + string(rune(n)) + s[i+6:]
	}
}

func TestParseTable(t *testing.T) {
	read := 0
	for _, line := range rows(t, "parse.csv") {
		c := strings.Split(line, "|")
		if len(c) != 6 && len(c) != 7 {
			t.Fatalf("row %q has %d columns", line, len(c))
		}
		read++
		text := unescape(t, c[0])
		k, ok := KindOf(c[1])
		if !ok {
			t.Fatalf("row %q: no kind %q", line, c[1])
		}
		r := Reading{Unit: UnitCode(c[2]), System: System(c[3]), Decimal: []rune(c[4])[0]}
		m, err := Parse(text, k, r)
		if code, refused := strings.CutPrefix(c[5], "!"); refused {
			var p *ParseError
			if !errors.As(err, &p) {
				t.Errorf("parse.csv %q: want refusal %s, got %+v, %v", line, code, m, err)
				continue
			}
			if string(p.Code) != code || p.Text != text || p.Kind != k {
				t.Errorf("parse.csv %q: want refusal %s, got %+v", line, code, *p)
			}
			if !m.IsZero() {
				t.Errorf("parse.csv %q: a refusal came with %+v", line, m)
			}
			continue
		}
		if err != nil || m.Number != c[5] || string(m.Unit) != c[6] {
			t.Errorf("parse.csv %q: want %s %s, got %+v, %v", line, c[5], c[6], m, err)
		}
	}
	if read < 135 {
		t.Fatalf("only %d rows of parse.csv were read, want at least 135", read)
	}
}

func TestParseRefusesAMegabyte(t *testing.T) {
	for _, text := range []string{strings.Repeat("9", 1<<20), strings.Repeat(" ", 1<<20), strings.Repeat("\u202e", 1<<20), strings.Repeat("\xff", 1<<20)} {
		m, err := Parse(text, KindVolume, Reading{Unit: "l", Decimal: '.'})
		var p *ParseError
		if !errors.As(err, &p) || p.Code != CodeTooLong || !m.IsZero() {
			t.Errorf("a megabyte of %q: got %+v, %v", text[:1], m, p.Code)
		}
	}
}

// Every spelling in the table of units is read as its unit: no two units of a
// kind share one.
func TestEveryNameOfAUnitIsRead(t *testing.T) {
	read := 0
	for _, u := range units {
		for _, n := range u.Names {
			if n == "" {
				continue
			}
			read++
			if n != strings.ToLower(n) {
				t.Errorf("unit %s: the spelling %q is not in lower case", u.Code, n)
			}
			m, err := Parse("3 "+n, u.Kind, Reading{Unit: u.Code, System: US, Decimal: '.'})
			if err != nil || m.Unit != u.Code {
				t.Errorf("unit %s: %q is read as %q, %v", u.Code, n, m.Unit, err)
			}
		}
	}
	if read < 180 {
		t.Fatalf("only %d spellings were read, want at least 180", read)
	}
}

// FuzzParse: a quantity that is read is canonical, so reading it again changes
// nothing; one that is refused leaves nothing but the error.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"57 l", "1,234", "20 1/2 in", "-0/5", "12,5,6", "１２．５", "\u202e12", "NaN", "1e308", "4'6\"", "1'234", ".5", "½", "\xff1"} {
		f.Add(s, uint8(KindVolume), true, uint8(0))
		f.Add(s, uint8(KindLength), false, uint8(1))
	}
	f.Fuzz(func(t *testing.T, text string, kind uint8, comma bool, sys uint8) {
		k := Kind(kind)
		base, _ := k.Base()
		r := Reading{Unit: base.Code, System: Systems()[int(sys)%3], Decimal: '.'}
		if comma {
			r.Decimal = ','
		}
		m, err := Parse(text, k, r)
		if err != nil {
			var p *ParseError
			if !m.IsZero() || !errors.As(err, &p) || p.Text != text {
				t.Fatalf("%q: refused with %+v and %v", text, m, err)
			}
			return
		}
		v, err := m.Value()
		if err != nil || v.Kind != k || !Finite(v.X) {
			t.Fatalf("%q: read as %+v, whose value is %+v, %v", text, m, v, err)
		}
		again, err := Parse(m.Number, k, Reading{Unit: m.Unit, System: r.System, Decimal: '.'})
		if err != nil || again != m {
			t.Fatalf("%q: read as %+v, and that as %+v, %v", text, m, again, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	r := Reading{Unit: "l", System: US, Decimal: '.'}
	for b.Loop() {
		if _, err := Parse("20 1/2 gal", KindVolume, r); err != nil {
			b.Fatal(err)
		}
	}
}
