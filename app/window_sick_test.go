//go:build e2e && linux

package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
)

// seen holds when a part with that ID has the focus.
func seen(id string) func(shown) bool {
	return func(m shown) bool { return m.top().focused().ID == id }
}

// drop drops files on the window.
func (p *program) drop(paths ...string) {
	p.t.Helper()
	if err := os.WriteFile(p.atMap+dropEnding, []byte(strings.Join(paths, "\n")), 0o600); err != nil {
		p.t.Fatal(err)
	}
	p.see()
}

// photographs writes pictures of a fish of sorts, each another.
func photographs(t *testing.T, n int) []string {
	t.Helper()
	dir := openTemp(t)
	var out []string
	for i := range n {
		img := image.NewRGBA(image.Rect(0, 0, 1600, 1200))
		for y := range 1200 {
			for x := range 1600 {
				c := color.RGBA{120, 170, 180, 255}
				if dx, dy := float64(x-800)/500, float64(y-600)/(180+10*float64(i)); dx*dx+dy*dy < 1 {
					c = color.RGBA{220, uint8(170 - 15*i), 60, 255}
				}
				img.Set(x, y, c)
			}
		}
		var b bytes.Buffer
		if err := jpeg.Encode(&b, img, nil); err != nil {
			t.Fatal(err)
		}
		out = append(out, filepath.Join(dir, fmt.Sprintf("fish-%d.jpg", i)))
		if err := os.WriteFile(out[i], b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// A fish looks wrong: from Today to a case with signs, six pictures, one of them
// marked, pictures side by side, and the paper for the vet, in the real window.
func TestWindowSickFish(t *testing.T) {
	folder := os.Getenv(picturesVariable)
	if folder == "" {
		folder = t.TempDir()
	}
	for _, lang := range []string{"en", "es"} {
		t.Run(lang, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			s.must(s.binary, "demo", flagData, dir, flagLang, lang)
			p := s.launch(flagData, dir, flagLang, lang)
			p.until("the page of today", at(nav.Today, ""))
			n := 0
			var img image.Image
			shot := func(name string) {
				n++
				img = p.turned(img)
				lookAt(img).written(t)
				write(t, filepath.Join(folder, fmt.Sprintf("sick-%s-%02d-%s.png", lang, n, name)), img)
			}
			p.to("sick")
			p.keys("Return")
			p.until("the cases", at(nav.Sick, ""))
			p.to("case-about")
			p.write("the grey danio")
			shot("cases")
			p.to("open-case")
			p.keys("Return")
			p.until("the signs", seen("sign-search"))
			shot("signs")
			for _, sign := range []string{"sign-clamped_fins", "sign-cotton_tufts"} {
				p.to(sign)
				p.keys("space")
			}
			p.to("what-to-do")
			p.keys("Return")
			p.until("the case", seen("add-pictures"))
			shot("case")

			p.drop(photographs(t, 6)...)
			p.until("the question when they were taken", seen("as_file"))
			shot("when")
			p.keys("Return")
			pictures := func(m shown) []string {
				var ids []string
				for _, x := range m.top().Parts {
					if strings.HasPrefix(x.ID, "picture_") {
						ids = append(ids, x.ID)
					}
				}
				return ids
			}
			m := p.until("six pictures", func(m shown) bool { return m.Place == string(nav.Sick) && len(pictures(m)) == 6 })
			p.to(pictures(m)[0])
			shot("pictures")
			p.keys("Return")
			p.until("the picture", at(nav.Photos, ""))
			p.to("tool_circle")
			p.keys("Return")
			p.keys("space", "Return", "Right", "Right", "Right", "Right", "Right", "Right", "Return")
			shot("marked")
			p.keys("alt+Left")
			p.until("the case again", at(nav.Sick, ""))
			p.to("side-by-side")
			p.keys("Return")
			p.until("pictures side by side", at(nav.Photos, ""))
			shot("side-by-side")
			p.keys("alt+Left")
			p.until("the case again", at(nav.Sick, ""))
			p.to("print-case")
			p.keys("Return")
			paper := filepath.Join(s.home, "driploop-case.pdf")
			eventually(t, func() string {
				if raw, err := os.ReadFile(paper); err != nil || !bytes.HasPrefix(raw, []byte("%PDF")) || bytes.Count(raw, []byte("/Subtype /Image")) != 6 {
					return "no paper of six pictures at " + paper
				}
				return ""
			})
			shot("printed")
			p.close()

			s.sound(dir)
			k := keep(t, dir)
			defer k.Close()
			tanks, err := k.Tanks(context.Background())
			if err != nil || len(tanks) == 0 {
				t.Fatalf("%d tanks: %v", len(tanks), err)
			}
			cs, err := k.Cases(context.Background(), tanks[0].ID)
			if err != nil || len(cs) != 1 || cs[0].About != "the grey danio" || len(cs[0].Signs) != 2 {
				t.Fatalf("the cases are %+v: %v", cs, err)
			}
			photos, err := k.Photos(context.Background(), tanks[0].ID, keeper.PhotoFilter{Sick: cs[0].ID})
			marks := 0
			for _, x := range photos {
				marks += len(x.Marks)
			}
			if err != nil || len(photos) != 6 || marks != 1 {
				t.Errorf("%d pictures with %d marks: %v", len(photos), marks, err)
			}
		})
	}
}
