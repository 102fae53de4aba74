package code

import (
	"context"
	"image"
	"slices"
	"testing"
)

// FuzzRead holds any picture to the contract: it is looked through to its end, without
// falling over, and gives no more texts than are asked for, each once.
func FuzzRead(f *testing.F) {
	m, err := Encode("DRIPLOOP1:1/1:00000000:BB8")
	if err != nil {
		f.Fatal(err)
	}
	side := m.Side + 2*Quiet
	pix := make([]byte, side*side)
	for i := range pix {
		if pix[i] = 255; m.Dark(i%side-Quiet, i/side-Quiet) {
			pix[i] = 0
		}
	}
	f.Add(uint8(side), pix)
	f.Add(uint8(1), []byte{0})
	f.Fuzz(func(t *testing.T, width uint8, pix []byte) {
		w := max(1, int(width))
		h := min(len(pix)/w, 200)
		g := &image.Gray{Pix: pix[:w*h], Stride: w, Rect: image.Rect(0, 0, w, h)}
		for _, one := range []*image.Gray{g, straightened(g, 0.1, 0)} {
			if texts := look(one); len(texts) > 0 && !Found(one, func(text string) bool { return text == texts[0] }) {
				t.Fatalf("%q was read, and then not found", texts)
			}
		}
		texts, err := Read(context.Background(), g.SubImage(image.Rect(0, 0, min(w, 60), min(h, 60))), func([]string) bool { return true })
		if err != nil || len(texts) > most || slices.Contains(texts, "") {
			t.Fatalf("%q %v", texts, err)
		}
	})
}

// FuzzEncode: any text has a code that is read back as it was, or is refused.
func FuzzEncode(f *testing.F) {
	f.Add("DRIPLOOP1:1/1:00000000:BB8")
	f.Add("0")
	f.Fuzz(func(t *testing.T, text string) {
		m, err := Encode(text)
		if err != nil {
			return
		}
		const k = 3
		side := (m.Side + 2*Quiet) * k
		g := image.NewGray(image.Rect(0, 0, side, side))
		for i := range g.Pix {
			if g.Pix[i] = 255; m.Dark(i%side/k-Quiet, i/side/k-Quiet) {
				g.Pix[i] = 0
			}
		}
		texts, err := Read(context.Background(), g, nil)
		if err != nil || !slices.Equal(texts, []string{text}) {
			t.Fatalf("%q came back as %q, %v", text, texts, err)
		}
	})
}
