//go:build e2e && linux

package main

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/screens/nav"
)

// picturesVariable names a folder that keeps the pictures for somebody to look
// at; without it they go with the test.
const picturesVariable = "DRIPLOOP_PICTURES"

// The real window at both sizes the pages are made for, light and dark, with the
// largest text: each page is written, in the right tone, under its title.
func TestWindowPictures(t *testing.T) {
	folder := os.Getenv(picturesVariable)
	if folder == "" {
		folder = t.TempDir()
	}
	for _, c := range []struct {
		theme, lang string
		w, h        int
	}{{"light", "en", 1280, 800}, {"dark", "es", 1280, 800}, {"light", "es", 1024, 700}, {"dark", "en", 1024, 700}} {
		t.Run(fmt.Sprintf("%s %s %dx%d", c.theme, c.lang, c.w, c.h), func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			s.must(s.binary, "demo", flagData, dir, flagLang, c.lang)
			k := keep(t, dir)
			for name, value := range map[string]string{"theme": c.theme, "text": "150", "language": c.lang} {
				if err := k.SetSetting(context.Background(), name, value); err != nil {
					t.Fatal(err)
				}
			}
			if err := k.Close(); err != nil {
				t.Fatal(err)
			}
			p := s.launch(flagData, dir)
			p.until("the page of today", at(nav.Today, ""))
			p.resize(c.w, c.h)
			if got := p.must("xdotool", "getwindowname", p.window); got != appName {
				t.Errorf("the title is %q", got)
			}
			n := 0
			var img image.Image
			shot := func(name string) {
				n++
				img = p.turned(img)
				if got := img.Bounds().Size(); got != image.Pt(c.w, c.h) {
					t.Errorf("%s: the window is %v, want %d by %d", name, got, c.w, c.h)
				}
				l := lookAt(img)
				l.written(t)
				if dark := l.bright < 0.4; dark != (c.theme == "dark") {
					t.Errorf("%s: brightness %.2f is not %s", name, l.bright, c.theme)
				}
				write(t, filepath.Join(folder, fmt.Sprintf("%s-%s-%d-%02d-%s.png", c.theme, c.lang, c.w, n, name)), img)
			}
			shot("today")
			p.keys("ctrl+3")
			p.until("the daybook", at(nav.Daybook, ""))
			shot("daybook")
			p.keys("ctrl+1")
			m := p.until("first fill", at(nav.FirstFill, ""))
			shot("first-fill-" + m.Step)
			p.keys("ctrl+n")
			p.until("the first page", at(nav.Start, ""))
			shot("start")
			p.begin()
			shot("first-fill-tank_place")
			p.keys("ctrl+comma")
			p.until("the settings", func(m shown) bool { return m.top().focused().ID == "language" })
			shot("settings")
			p.keys("Escape")
			p.keys("ctrl+h")
			p.until("the safety notes", func(m shown) bool { return m.top().focused().ID == "close" })
			shot("safety")
			p.titled(c.h)
			p.keys("Escape")
			p.close()
		})
	}
}

// resize gives the window a size in pixels and waits until it has it.
func (p *program) resize(w, h int) {
	p.t.Helper()
	eventually(p.t, func() string {
		// Asked again each time: the toolkit sets the window's first size of its own
		// accord shortly after it shows it, and that may come after ours.
		p.must("xdotool", "windowsize", p.window, strconv.Itoa(w), strconv.Itoa(h))
		if got := p.picture(p.window).Bounds().Size(); got != image.Pt(w, h) {
			return fmt.Sprintf("the window is %v, want %d by %d", got, w, h)
		}
		return ""
	})
}

// titled wants letters in the bar that the window manager puts above the window.
func (p *program) titled(h int) {
	p.t.Helper()
	img, err := png.Decode(strings.NewReader(p.must("import", "-frame", "-window", p.window, "png:-")))
	if err != nil {
		p.t.Fatal(err)
	}
	frame, ok := img.(interface {
		SubImage(image.Rectangle) image.Image
	})
	size := img.Bounds().Size()
	const bar = 16 // pixels, less than the window manager's bar is high
	if !ok || size.Y < h+bar {
		p.t.Fatalf("the window is %d high with its frame, %d without: it has no title bar", size.Y, h)
	}
	middle := lookAt(frame.SubImage(image.Rect(size.X/2-60, 2, size.X/2+60, bar)))
	beside := lookAt(frame.SubImage(image.Rect(size.X/4-60, 2, size.X/4+60, bar)))
	if middle.colours < 2*beside.colours {
		p.t.Errorf("the title bar has %d colours in its middle and %d beside it: no title", middle.colours, beside.colours)
	}
}

func write(t *testing.T, path string, img image.Image) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(f, img); err != nil {
		t.Error(err)
	}
	if err := f.Close(); err != nil {
		t.Error(err)
	}
}
