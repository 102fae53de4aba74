package slip

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"math/rand/v2"
	"sync"
	"testing"

	"example.org/driploop/model/code"
	"example.org/driploop/model/drill"
)

// A page as screens/paper prints it: the sides of a code and the gaps between codes,
// in millimetres, at the resolution of an office printer.
const (
	pageWide, pageHigh = 210.0, 297.0
	sideOne, sideMany  = 104.0, 84.0
	between            = 8.0
	topOfCodes         = 12.0
	dots               = 150 / 25.4 // a millimetre
)

// onPaper is a page with the codes of some texts, two in a row.
func onPaper(t testing.TB, texts []string) *image.Gray {
	t.Helper()
	wide, high := pageWide*dots, pageHigh*dots
	w, h := int(wide), int(high)
	g := image.NewGray(image.Rect(0, 0, w, h))
	for i := range g.Pix {
		g.Pix[i] = 250
	}
	side := sideMany
	if len(texts) == 1 {
		side = sideOne
	}
	for i, text := range texts {
		m, err := code.Encode(text)
		if err != nil {
			t.Fatal(err)
		}
		row := min(2, len(texts)-i/2*2)
		left := (pageWide-float64(row)*side-float64(row-1)*between)/2 + float64(i%2)*(side+between)
		printCode(g, m, left*dots, (topOfCodes+float64(i/2)*(side+between))*dots, side*dots)
	}
	return g
}

// printCode prints a code into a square of side dots, each dot as dark as the share of
// it that a dark module covers.
func printCode(g *image.Gray, m code.Matrix, left, top, side float64) {
	const fine = 4 // places looked at along a dot
	k := side / float64(m.Side+2*code.Quiet)
	for y := int(top); y < int(top+side); y++ {
		for x := int(left); x < int(left+side); x++ {
			dark := 0
			for i := range fine * fine {
				u, v := float64(x)+(float64(i%fine)+0.5)/fine-left, float64(y)+(float64(i/fine)+0.5)/fine-top
				if u >= 0 && v >= 0 && m.Dark(int(u/k)-code.Quiet, int(v/k)-code.Quiet) {
					dark++
				}
			}
			g.Pix[y*g.Stride+x] = uint8(250 - 220*dark/(fine*fine))
		}
	}
}

// mostPictures is how many pictures of a sheet a person takes before giving up; the
// window asks for another while a code is missing. // judgement
const mostPictures = 3

// readPhotographed gives the file of a page from as many pictures of it as that takes, and how
// many it took; no file where that was not enough.
func readPhotographed(t testing.TB, texts []string, r *rand.Rand) (file []byte, pictures int) {
	t.Helper()
	page := onPaper(t, texts)
	var s Sheet
	for pictures < mostPictures && !s.Whole() {
		pictures++
		_, err := code.Read(context.Background(), drill.AnyShot(r).Of(page), func(all []string) bool {
			for _, text := range all {
				if err := s.Add(text); err != nil {
					t.Errorf("read what was not printed: %v", err)
				}
			}
			return s.Whole()
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if !s.Whole() {
		return nil, pictures
	}
	file, err := s.File()
	if err != nil {
		t.Errorf("the codes do not make a file: %v", err)
	}
	return file, pictures
}

// Slips of each kind, each the one of its seed, printed at 150 dpi and photographed,
// come back as the same file bit for bit, and so as the same slip.
func TestPhotographedSheets(t *testing.T) {
	for _, k := range sheetKinds() {
		count := drill.Count(3, 500)
		var mu sync.Mutex
		first, lost, codes, long := 0, 0, 0, 0
		t.Run(k.what, func(t *testing.T) {
			for seed := range count {
				want, same, texts := k.codesOf(t, seed)
				if texts == nil {
					long++
					continue
				}
				t.Run(fmt.Sprint(seed), func(t *testing.T) {
					t.Parallel()
					file, pictures := readPhotographed(t, texts, rand.New(rand.NewPCG(uint64(seed), 6)))
					mu.Lock()
					defer mu.Unlock()
					codes += len(texts)
					if pictures == 1 && file != nil {
						first++
					}
					switch {
					case file == nil:
						lost++
						t.Errorf("%d codes were not read from %d pictures", len(texts), pictures)
					case !bytes.Equal(file, want):
						lost++
						t.Errorf("%d bytes came back of %d", len(file), len(want))
					default:
						if err := same(file); err != nil {
							lost++
							t.Error(err)
						}
					}
				})
			}
		})
		t.Logf("%d %s in %d codes, %d from the first picture, %d too long for a sheet", count, k.what, codes, first, long)
		drill.Tally(t, "D2-50", k.what+" printed at 150 dpi, photographed and read back", count-long, lost)
	}
}
