package code

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
)

// sample is a text of n characters of the alphanumeric mode.
func sample(r *rand.Rand, n int) string {
	var b strings.Builder
	for range n {
		b.WriteByte(alphanumeric[r.IntN(len(alphanumeric))])
	}
	return b.String()
}

// paint draws codes in a row on white paper, k pixels a module.
func paint(t *testing.T, k int, texts ...string) *image.Gray {
	t.Helper()
	var ms []Matrix
	w, h := 0, 0
	for _, s := range texts {
		m, err := Encode(s)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
		w += (m.Side + 2*Quiet) * k
		h = max(h, (m.Side+2*Quiet)*k)
	}
	g := image.NewGray(image.Rect(0, 0, w, h))
	for i := range g.Pix {
		g.Pix[i] = 245
	}
	x0 := 0
	for _, m := range ms {
		for y := range m.Side * k {
			for x := range m.Side * k {
				if m.Dark(x/k, y/k) {
					g.SetGray(x0+Quiet*k+x, Quiet*k+y, color.Gray{Y: 40})
				}
			}
		}
		x0 += (m.Side + 2*Quiet) * k
	}
	return g
}

func all(texts []string) func([]string) bool {
	return func(got []string) bool {
		for _, t := range texts {
			if !slices.Contains(got, t) {
				return false
			}
		}
		return true
	}
}

// What is made is read back from a picture as it is, scaled, turned, seen from the
// side, blurred, in uneven light and with noise; one code and several.
func TestThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for name, c := range map[string]struct {
		count int
		shot  drill.Shot
	}{
		"as it is":       {1, drill.Shot{}},
		"two":            {2, drill.Shot{}},
		"three":          {3, drill.Shot{Turn: 1}},
		"smaller":        {1, drill.Shot{Scale: 0.6}},
		"larger":         {1, drill.Shot{Scale: 2.3}},
		"upside down":    {2, drill.Shot{Turn: 180}},
		"on its side":    {2, drill.Shot{Turn: 90}},
		"askew":          {1, drill.Shot{Turn: 17}},
		"two askew":      {2, drill.Shot{Turn: -8}},
		"slanted":        {1, drill.Shot{Turn: 3, Slant: 0.2}},
		"blurred":        {1, drill.Shot{Blur: 2}},
		"lit unevenly":   {2, drill.Shot{Dark: 0.65, Noise: 6}},
		"all of it":      {1, drill.Shot{Turn: 5, Scale: 1.2, Slant: 0.1, Blur: 1, Dark: 0.5, Noise: 5}},
		"two, all of it": {2, drill.Shot{Turn: 5, Scale: 1.2, Slant: 0.08, Blur: 1, Dark: 0.5, Noise: 5}},
	} {
		var texts []string
		for range c.count {
			texts = append(texts, sample(r, 1100))
		}
		got, err := Read(context.Background(), c.shot.Of(paint(t, 5, texts...)), all(texts))
		if err != nil || !all(texts)(got) {
			t.Errorf("%s: %d of %d codes were read, %v", name, len(got), c.count, err)
		}
	}
}

// The capacity is that of the standard. Source: ISO/IEC 18004, table 7: version 25,
// level M, 1451 alphanumeric characters; 117 modules a side.
func TestCapacity(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	m, err := Encode(sample(r, MostText))
	if err != nil || m.Side != 117 {
		t.Errorf("the longest text: %d modules, %v", m.Side, err)
	}
	for _, s := range []string{"", sample(r, MostText+1), "small", "Ä"} {
		if _, err := Encode(s); !errors.Is(err, ErrLong) {
			t.Errorf("%.10q: %v", s, err)
		}
	}
}

// Pictures without a code have none, whatever they hold, and none makes the reader
// fall over.
func TestNothingThere(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 3))
	noise := image.NewGray(image.Rect(0, 0, 300, 200))
	for i := range noise.Pix {
		noise.Pix[i] = uint8(r.IntN(256))
	}
	cut := paint(t, 4, sample(r, 500))
	for name, img := range map[string]image.Image{"white": image.NewGray(image.Rect(0, 0, 400, 400)), "noise": noise, "one pixel": image.NewGray(image.Rect(0, 0, 1, 1)),
		"empty": image.NewGray(image.Rectangle{}), "line": image.NewGray(image.Rect(0, 0, 3000, 2)), "half a code": cut.SubImage(image.Rect(0, 0, cut.Rect.Dx()/2, cut.Rect.Dy()))} {
		got, err := Read(context.Background(), img, nil)
		if err != nil || len(got) != 0 || Found(img, func(string) bool { return true }) {
			t.Errorf("%s: %q %v", name, got, err)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Read(ctx, noise, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("a reading that was called off: %v", err)
	}
}

// Found sees a code that is right and no other.
func TestFound(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 4))
	s := sample(r, 700)
	img := drill.Shot{Turn: 11}.Of(paint(t, 4, s))
	if !Found(img, func(got string) bool { return got == s }) || Found(img, func(string) bool { return false }) {
		t.Error("the code was not found, or found where it is not right")
	}
}
