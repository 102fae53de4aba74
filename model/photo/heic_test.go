package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"testing"

	"github.com/gen2brain/heic"

	"example.org/driploop/model/working"
)

func box(name string, parts ...[]byte) []byte {
	body := bytes.Join(parts, nil)
	return append(append(binary.BigEndian.AppendUint32(nil, uint32(len(body)+8)), name...), body...)
}

// codedIn gives the properties of a HEIC's one picture, as they lie in its ipco,
// and its coded data.
func codedIn(t *testing.T, data []byte, item uint32) (properties, coded []byte) {
	t.Helper()
	var extents []extent
	err := eachBox(data, 0, len(data), func(name string, s span) error {
		if name != "meta" {
			return nil
		}
		return eachBox(data, s.from+4, s.to, func(name string, s span) error {
			switch name {
			case "iloc":
				return readLocations(&fields{b: data[s.from:s.to]}, &extents)
			case "iprp":
				return eachBox(data, s.from, s.to, func(name string, s span) error {
					if name == "ipco" {
						properties = data[s.from:s.to]
					}
					return nil
				})
			}
			return nil
		})
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range extents {
		if e.item == item {
			coded = data[e.from:e.to]
		}
	}
	return properties, coded
}

// gridOfTiles writes a HEIC of two rows of two tiles of 640 x 480, hidden, as a
// telephone writes it: the picture shows width by height of them, turned by
// quarters anticlockwise.
func gridOfTiles(t *testing.T, width, height uint16, quarters byte) []byte {
	t.Helper()
	be := binary.BigEndian
	properties, first := codedIn(t, held(t, "fish-plain.heic"), 1)
	_, second := codedIn(t, held(t, "fish-turned.heic"), 1)
	n := byte(0)
	if err := eachBox(properties, 0, len(properties), func(string, span) error { n++; return nil }); err != nil {
		t.Fatal(err)
	}
	ipco := append(bytes.Clone(properties), box("ispe", make([]byte, 4), be.AppendUint32(be.AppendUint32(nil, uint32(width)), uint32(height)))...)
	ipco = append(ipco, box("irot", []byte{quarters})...)
	ipma := be.AppendUint32(make([]byte, 4), 5)
	infe := func(id uint16, flags byte, kind string) []byte {
		return box("infe", []byte{2, 0, 0, flags}, be.AppendUint16(nil, id), []byte{0, 0}, []byte(kind), []byte{0})
	}
	iinf := [][]byte{{0, 0, 0, 0, 0, 5}, infe(5, 0, "grid")}
	for id := uint16(1); id <= 4; id++ {
		iinf = append(iinf, infe(id, 1, "hvc1"))
		ipma = append(be.AppendUint16(ipma, id), n)
		for i := byte(1); i <= n; i++ {
			ipma = append(ipma, i|0x80)
		}
	}
	ipma = append(be.AppendUint16(ipma, 5), 2, n+1, 0x80|(n+2))
	description := append([]byte{0, 0, 1, 1}, be.AppendUint16(be.AppendUint16(nil, width), height)...)
	meta := func(at uint32) []byte {
		iloc := []byte{1, 0, 0, 0, 0x44, 0, 0, 5}
		for id, tile := range [][]byte{first, second, second, first} {
			from := at
			if id == 1 || id == 2 {
				from += uint32(len(first))
			}
			iloc = append(be.AppendUint16(iloc, uint16(id+1)), 0, 0, 0, 0, 0, 1)
			iloc = be.AppendUint32(be.AppendUint32(iloc, from), uint32(len(tile)))
		}
		iloc = append(be.AppendUint16(iloc, 5), 0, 1, 0, 0, 0, 1)
		iloc = be.AppendUint32(be.AppendUint32(iloc, 0), uint32(len(description)))
		return box("meta", make([]byte, 4), box("hdlr", make([]byte, 8), []byte("pict"), make([]byte, 13)), box("pitm", make([]byte, 4), []byte{0, 5}),
			box("iinf", iinf...), box("iref", make([]byte, 4), box("dimg", []byte{0, 5, 0, 4, 0, 1, 0, 2, 0, 3, 0, 4})),
			box("iprp", box("ipco", ipco), box("ipma", ipma)), box("idat", description), box("iloc", iloc))
	}
	ftyp := box("ftyp", []byte("heic\x00\x00\x00\x00mif1heic"))
	at := uint32(len(ftyp) + len(meta(0)) + 8)
	return bytes.Join([][]byte{ftyp, meta(at), box("mdat", first, second)}, nil)
}

// A grid put together from its tiles is what the engine makes of the whole.
func TestTilesMakeThePicture(t *testing.T) {
	for _, c := range []struct {
		w, h     uint16
		quarters byte
	}{{1200, 902, 0}, {1201, 901, 3}, {1280, 960, 1}} {
		data := gridOfTiles(t, c.w, c.h, c.quarters)
		g, err := gridOf(data)
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if len(g.tiles) != 4 || g.width != int(c.w) || g.height != int(c.h) || g.quarters != int(c.quarters) {
			t.Errorf("%+v", g)
		}
		whole, err := heic.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("%+v: the engine: %v", c, err)
		}
		got, info := decoded(t, data, 0)
		if w, h := info.Upright(); whole.Bounds().Dx() != w || whole.Bounds().Dy() != h {
			t.Errorf("%+v: %d x %d told, %v decoded", c, w, h, whole.Bounds())
		}
		if db := psnr(t, got, whole); db < 35 { // halved colour is turned before or after it is enlarged
			t.Errorf("%+v: %.1f dB from the engine's", c, db)
		}
		if c.quarters != 3 {
			continue
		}
		if out, err := WithoutPlace(data); err != nil {
			t.Errorf("%+v: without place: %v", c, err)
		} else {
			samePixels(t, "grid without place", data, out)
		}
	}
}

// A grid that is not what it says falls back on the engine or is damaged; the
// person's own end of waiting ends it between two tiles.
func TestTilesThatAreNoGrid(t *testing.T) {
	data := gridOfTiles(t, 1280, 960, 0)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	g, err := gridOf(data)
	if err != nil {
		t.Fatal(err)
	}
	if img, err := g.decode(ctx, data); !errors.Is(err, context.Canceled) || img != nil {
		t.Errorf("cancelled: %v", err)
	}
	g.width = 5000
	if _, err := g.decode(context.Background(), data); !errors.Is(err, errNoGrid) {
		t.Errorf("tiles that do not cover it: %v", err)
	}
	if _, err := gridOf(held(t, "fish-plain.heic")); !errors.Is(err, errNoGrid) {
		t.Errorf("one picture: %v", err)
	}
	for i := range bytes.Index(data, []byte("mdat")) { // the description, byte by byte
		bent := bytes.Clone(data)
		bent[i] ^= 0x55
		if g, err := gridOf(bent); err == nil && (len(g.tiles) != g.rows*g.columns || g.width < 1 || g.height < 1) {
			t.Fatalf("byte %d: %+v", i, g)
		}
	}
}

// claiming is a HEIC whose header says that its picture has other sides.
func claiming(t *testing.T, data []byte, width, height uint32) []byte {
	t.Helper()
	out := bytes.Clone(data)
	at := bytes.Index(out, []byte("ispe"))
	if at < 0 {
		t.Fatal("no size in the header")
	}
	binary.BigEndian.PutUint32(out[at+8:], width)
	binary.BigEndian.PutUint32(out[at+12:], height)
	return out
}

// A picture of 48 megapixels in one piece, or in one tile, would take more than a
// gigabyte: it is refused by its header, and so is one that only says it is a grid.
// One of 12 in a piece is not.
func TestLargePieces(t *testing.T) {
	whole := held(t, "fish-plain.heic")
	for _, c := range []struct {
		name string
		data []byte
		want working.Key
	}{
		{"48 megapixels whole", claiming(t, whole, 8000, 6000), OnePiece},
		{"13 megapixels whole", claiming(t, whole, 4000, 3250), OnePiece},
		{"12 megapixels whole", claiming(t, whole, 4000, 3000), ""},
		{"a grid of four tiles of 16 megapixels", gridOfTiles(t, 8000, 8000, 0), OnePiece},
		{"a grid of four tiles of 4 megapixels", gridOfTiles(t, 4000, 4000, 0), ""},
		{"a grid", gridOfTiles(t, 1200, 902, 0), ""},
	} {
		info, err := Inspect(c.data, Usual())
		code := working.Key("")
		if p := ProblemOf(err); p != nil {
			code = p.Code
		}
		if code != c.want || info.Format != HEIC || info.Width == 0 {
			t.Errorf("%s: %q, want %q: %+v", c.name, code, c.want, info)
		}
	}
	// A grid of 16 megapixels by its header whose tiles do not make one.
	_, _, err := NewDecoder(Usual()).Decode(context.Background(), gridOfTiles(t, 4000, 4000, 0), 512)
	if p := ProblemOf(err); p == nil || p.Code != OnePiece || !p.Kept() {
		t.Errorf("got %v, want %s", err, OnePiece)
	}
}

// A HEIC without colour shows the same greys as the same picture by another encoder,
// a WebP (testdata/photos/README.txt), and no colour.
func TestHEICWithoutColour(t *testing.T) {
	data := held(t, "sheet-grey.heic")
	if bytes.Equal(coloured(data), data) {
		t.Fatal("it says that it has colour")
	}
	if in := held(t, "sheet.heic"); !bytes.Equal(coloured(in), in) {
		t.Error("one with colour was changed")
	}
	got, _ := decoded(t, data, MostSide)
	want, _ := decoded(t, held(t, "sheet.webp"), MostSide)
	if got.Bounds() != want.Bounds() {
		t.Fatalf("%v, want %v", got.Bounds(), want.Bounds())
	}
	sum, n := 0, 0
	for y := 0; y < got.Bounds().Dy(); y += 3 {
		for x := 0; x < got.Bounds().Dx(); x += 3 {
			r, g, b, _ := got.At(x, y).RGBA()
			if max(r, g, b)-min(r, g, b) > 2<<8 {
				t.Fatalf("at %d, %d it has the colour %d %d %d", x, y, r>>8, g>>8, b>>8)
			}
			w, _, _, _ := want.At(x, y).RGBA()
			d := int(g>>8) - int(w>>8)
			sum, n = sum+max(d, -d), n+1
		}
	}
	if mean := float64(sum) / float64(n); mean > 6 { // both lose some of the noise
		t.Errorf("the greys differ by %.1f of 255", mean)
	}
}
