package look

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

var variants = map[string]fyne.ThemeVariant{"light": theme.VariantLight, "dark": theme.VariantDark}

// Source: WCAG 2.2 relative luminance; black on white is 21:1 by definition,
// and #777777 on white is the well-known near miss of 4.48:1 (from memory).
func TestContrastFormula(t *testing.T) {
	white := color.NRGBA{255, 255, 255, 255}
	for _, c := range []struct {
		c    color.NRGBA
		want float64
	}{
		{color.NRGBA{0, 0, 0, 255}, 21},
		{color.NRGBA{0x77, 0x77, 0x77, 255}, 4.48},
		{color.NRGBA{0xD0, 0x5D, 0x29, 255}, 4.0},  // Source: sign table in the package's palette, white on orange fails
		{color.NRGBA{0x00, 0x53, 0x87, 255}, 8.1},  // Source: the same, white on blue
		{color.NRGBA{0x9B, 0x24, 0x23, 255}, 7.86}, // Source: the same, white on red
	} {
		if got := Contrast(c.c, white); math.Abs(got-c.want) > 0.05 {
			t.Errorf("WCAG 2.2: %v on white: expected %.2f, got %.3f", c.c, c.want, got)
		}
	}
}

func TestEveryPairReachesItsContrast(t *testing.T) {
	if len(Pairs) < 55 {
		t.Fatalf("only %d pairs", len(Pairs))
	}
	for vn, v := range variants {
		for _, p := range Pairs {
			f, b := Color(p.Fore, v), Color(p.Back, v)
			if f.A == 0 || b.A == 0 {
				t.Fatalf("pair %v names an unknown role", p)
			}
			if got := Contrast(f, b); got < p.Use.Least() {
				t.Errorf("WCAG 2.2, %s: %s on %s: expected at least %.1f, got %.2f", vn, p.Fore, p.Back, p.Use.Least(), got)
			}
		}
	}
}

func TestSeriesShowOnTheirBands(t *testing.T) {
	for vn, v := range variants {
		for _, s := range Series {
			band := Color(s, v)
			band.A = uint8(math.Round(255 * BandAlpha))
			if got := Contrast(Color(s, v), Over(band, Color(Sheet, v))); got < 3 {
				t.Errorf("WCAG 2.2 SC 1.4.11, %s: %s on its band: expected 3, got %.2f", vn, s, got)
			}
		}
	}
}

// Text stays legible while Fyne lays hover, press, focus or selection over it.
func TestLaidOverGroundsKeepTextLegible(t *testing.T) {
	th, err := New(Options{})
	if err != nil {
		t.Fatal(err)
	}
	for vn, v := range variants {
		ink := Color(Ink, v)
		for _, over := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameFocus, theme.ColorNameSelection} {
			for _, ground := range []Name{Paper, Sheet} {
				g := Over(th.Color(over, v).(color.NRGBA), Color(ground, v))
				if got := Contrast(ink, g); got < 4.5 {
					t.Errorf("WCAG 2.2 SC 1.4.3, %s: Ink on %s under %s: expected 4.5, got %.2f", vn, ground, over, got)
				}
			}
		}
	}
}

func TestPermits(t *testing.T) {
	for _, c := range []struct {
		f, b Name
		u    Use
		want bool
	}{
		{Ink, Paper, Text, true}, {Ink, Paper, Graphic, true},
		{Rust, Water, LargeText, true}, {Rust, Water, Graphic, true}, {Rust, Water, Text, false},
		{Rule, Paper, Graphic, false}, {SignWarning, SignWarningText, Text, false},
	} {
		if got := Permits(c.f, c.b, c.u); got != c.want {
			t.Errorf("Permits(%s, %s, %d): expected %v, got %v", c.f, c.b, c.u, c.want, got)
		}
	}
}

// Source: the matrices for full protanopia, deuteranopia and tritanopia of
// Machado, Oliveira and Fernandes 2009 (IEEE TVCG 15(6)), applied to linear
// RGB; entries from memory, guarded by their rows summing to one.
var blindness = map[string][3][3]float64{
	"protanopia": {
		{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {
		{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia": {
		{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// lab gives CIE L*a*b* (D65) of a linear RGB colour.
// Source: IEC 61966-2-1 primaries, CIE 1976 L*a*b*.
func lab(r, g, b float64) (float64, float64, float64) {
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*r + 0.3576*g + 0.1805*b) / 0.9505)
	y := f(0.2126*r + 0.7152*g + 0.0722*b)
	z := f((0.0193*r + 0.1192*g + 0.9505*b) / 1.0890)
	return 116*y - 16, 500 * (x - y), 200 * (y - z)
}

func TestStatesStayApartForColourBlindEyes(t *testing.T) {
	plain := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	kinds := map[string][3][3]float64{"full colour": plain}
	for n, m := range blindness {
		for _, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Fatalf("%s: a row sums to %v", n, sum)
			}
		}
		kinds[n] = m
	}
	see := func(m [3][3]float64, c color.NRGBA) (float64, float64, float64) {
		in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
		var out [3]float64
		for i, row := range m {
			out[i] = math.Min(1, math.Max(0, row[0]*in[0]+row[1]*in[1]+row[2]*in[2]))
		}
		return lab(out[0], out[1], out[2])
	}
	const least = 20 // judgement: CIE76 distance; about 2.3 is just noticeable
	for vn, v := range variants {
		for kn, m := range kinds {
			for _, p := range [][2]Name{{Steady, Wait}, {Wait, Act}, {Steady, Act}, {Series[0], Series[1]}, {Series[1], Series[2]}, {Series[2], Series[3]}, {Series[3], Series[4]}} {
				l1, a1, b1 := see(m, Color(p[0], v))
				l2, a2, b2 := see(m, Color(p[1], v))
				d := math.Sqrt((l1-l2)*(l1-l2) + (a1-a2)*(a1-a2) + (b1-b2)*(b1-b2))
				want := float64(least)
				if p[0] == Series[3] {
					want = 5 // neighbours late in the list lean on their marker shapes
				}
				if d < want {
					t.Errorf("%s, %s: %s and %s: expected a distance of %v, got %.1f", vn, kn, p[0], p[1], want, d)
				}
			}
		}
	}
}

// Words and lines keep their contrast to the ground for colour-blind eyes too. The
// least is a little below that of full sight, for the simulation is a model.
func TestContrastHoldsForColourBlindEyes(t *testing.T) {
	const share = 0.85 // judgement
	for kind, m := range blindness {
		light := func(c color.NRGBA) float64 {
			in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
			sum := 0.0
			for i, weight := range []float64{0.2126, 0.7152, 0.0722} { // WCAG 2.2, relative luminance
				sum += weight * math.Min(1, math.Max(0, m[i][0]*in[0]+m[i][1]*in[1]+m[i][2]*in[2]))
			}
			return sum
		}
		for vn, v := range variants {
			for _, p := range Pairs {
				a, b := light(Color(p.Fore, v)), light(Color(p.Back, v))
				if got := (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05); got < p.Use.Least()*share {
					t.Errorf("%s, %s: %s on %s: expected %.1f, got %.1f", vn, kind, p.Fore, p.Back, p.Use.Least()*share, got)
				}
			}
		}
	}
}
