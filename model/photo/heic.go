package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"slices"
	"sync"

	"github.com/gen2brain/heic"
)

// Telephones write a HEIC as a grid of tiles, each coded by itself. Its engine
// would hold the whole of it in memory several times and cannot be stopped, so
// the tiles are decoded one by one: each is made the picture of a copy of the
// file (its primary item) and put where it belongs. Source: ISO/IEC 23008-12,
// 6.6.2.3 (grid), 6.5.10 (irot); ISO/IEC 14496-12, 8.11 (pitm, iinf, iref, ipma).

// errNoGrid says that a HEIC is laid out in another way; the engine then takes
// the whole of it.
var errNoGrid = errors.New("photo: no grid")

// grid is where the tiles of a HEIC are told.
type grid struct {
	rows, columns int
	width, height int      // of the picture, before its turn
	quarters      int      // anticlockwise
	tiles         []uint16 // items, row by row
	primary       int      // place of the number of the primary item
	hidden        map[uint16]int
}

// heicPiece is how many pixels the engine holds at once at the least: all of a
// picture in one piece, or the tiles under way of a grid.
func heicPiece(data []byte, info Info) int64 {
	w, h, n := info.Width, info.Height, 1
	if g, err := gridOf(data); err == nil {
		w, h, n = (g.width+g.columns-1)/g.columns, (g.height+g.rows-1)/g.rows, min(tilesAtOnce, len(g.tiles))
	}
	return int64(w) * int64(h) * int64(n)
}

// decodeHEIC decodes a HEIC and tells how what it gives is to be turned, as an
// orientation of EXIF: the engine turns a whole picture, but not a tile. Errors:
// *Problem with OnePiece; the engine's.
func decodeHEIC(ctx context.Context, data []byte, info Info, l Limits) (image.Image, int, error) {
	g, err := gridOf(data)
	if err == nil {
		img, err := g.decode(ctx, data)
		if !errors.Is(err, errNoGrid) {
			return img, [4]int{1, 8, 3, 6}[g.quarters], err
		}
	}
	if int64(info.Width)*int64(info.Height) > l.Budget/heicWeight {
		return nil, 0, onePiece(l) // what said that it was a grid is none
	}
	img, err := engine(data)
	return img, 1, err
}

// engine decodes one coded picture and mends what its engine leaves wrong, as
// another decoder shows: the first bytes of luma, which lie in memory that is
// freed before they are read, and the first row of colour. // measured, v0.4.5
func engine(data []byte) (image.Image, error) {
	img, err := heic.Decode(bytes.NewReader(coloured(data)))
	if err != nil {
		return nil, err
	}
	switch m := img.(type) {
	case *image.YCbCr:
		mendStart(m.Y, m.YStride, min(freed, m.Rect.Dx()))
		c := chromaSize(m)
		mendStart(m.Cb, m.CStride, c.X)
		mendStart(m.Cr, m.CStride, c.X)
	case *image.Gray:
		mendStart(m.Pix, m.Stride, min(freed, m.Rect.Dx()))
	}
	return img, nil
}

// formatAt is where the record of a coded picture tells in its two lowest bits how
// colour is stored: 0 for none, 1 for halved both ways. Source: ISO/IEC 14496-15,
// 8.3.2.1.2, chroma_format_idc.
const formatAt = 16

// coloured is a copy of a HEIC none of whose pictures has colour in which they say that
// they have some: the engine gives no plane for such a picture, and fills in grey where
// it expects colour. // measured, v0.4.5. Any other file is given as it is; in those of
// telephones, maps of depth and light alone have no colour.
func coloured(data []byte) []byte {
	var without []int
	all := true
	_ = eachBox(data, 0, len(data), func(name string, s span) error { // a box that cannot be is the engine's to refuse
		if name != "meta" || s.to-s.from < 4 {
			return nil
		}
		return eachBox(data, s.from+4, s.to, within(data, "iprp", within(data, "ipco", func(name string, s span) error {
			switch at := s.from + formatAt; {
			case name != "hvcC" || at >= s.to:
			case data[at]&3 == 0:
				without = append(without, at)
			default:
				all = false
			}
			return nil
		})))
	})
	if !all || len(without) == 0 {
		return data
	}
	out := bytes.Clone(data)
	for _, at := range without {
		out[at] |= 1
	}
	return out
}

// within calls do for each box inside a box of the name.
func within(data []byte, name string, do func(string, span) error) func(string, span) error {
	return func(got string, s span) error {
		if got != name {
			return nil
		}
		return eachBox(data, s.from, s.to, do)
	}
}

// freed is how many bytes at the start of freed memory are written to.
const freed = 32

// mendStart takes the first n samples from the row below.
func mendStart(pix []byte, stride, n int) {
	if len(pix) >= stride+n {
		copy(pix[:n], pix[stride:])
	}
}

// tilesAtOnce is how many tiles are decoded at once. // judgement
const tilesAtOnce = 2

// decode puts the tiles together. Colour has to be halved both ways, as every
// telephone writes it; errNoGrid otherwise.
func (g *grid) decode(ctx context.Context, data []byte) (*image.YCbCr, error) {
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	var (
		mu   sync.Mutex
		out  *image.YCbCr
		side image.Point // of a tile
		wait sync.WaitGroup
		next int
	)
	put := func(i int, tile image.Image) error {
		m, ok := tile.(*image.YCbCr)
		if !ok || m.SubsampleRatio != image.YCbCrSubsampleRatio420 || m.Rect.Dx()%2+m.Rect.Dy()%2 != 0 {
			return errNoGrid
		}
		mu.Lock()
		defer mu.Unlock()
		if out == nil {
			side = m.Rect.Size()
			if side.X*g.columns < g.width || side.Y*g.rows < g.height || side.X*(g.columns-1) >= g.width || side.Y*(g.rows-1) >= g.height {
				return errNoGrid
			}
			out = image.NewYCbCr(image.Rect(0, 0, g.width, g.height), image.YCbCrSubsampleRatio420)
		}
		if m.Rect.Size() != side {
			return errNoGrid
		}
		x, y := i%g.columns*side.X, i/g.columns*side.Y
		copyPlane(out.Y[y*out.YStride+x:], out.YStride, m.Y, m.YStride, min(side.X, g.width-x), min(side.Y, g.height-y))
		w, h := (min(side.X, g.width-x)+1)/2, (min(side.Y, g.height-y)+1)/2
		copyPlane(out.Cb[y/2*out.CStride+x/2:], out.CStride, m.Cb, m.CStride, w, h)
		copyPlane(out.Cr[y/2*out.CStride+x/2:], out.CStride, m.Cr, m.CStride, w, h)
		return nil
	}
	for range tilesAtOnce {
		wait.Go(func() {
			defer func() {
				if r := recover(); r != nil {
					stop(panicked(r))
				}
			}()
			for ctx.Err() == nil {
				mu.Lock()
				i := next
				next++
				mu.Unlock()
				if i >= len(g.tiles) {
					return
				}
				tile, err := engine(g.only(data, g.tiles[i]))
				if err == nil {
					err = put(i, tile)
				}
				if err != nil {
					stop(err)
				}
			}
		})
	}
	wait.Wait()
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	return out, nil
}

func copyPlane(to []byte, toStride int, from []byte, fromStride, w, h int) {
	for y := range h {
		copy(to[y*toStride:][:w], from[y*fromStride:][:w])
	}
}

// only is a copy of the file in which the tile is the picture.
func (g *grid) only(data []byte, tile uint16) []byte {
	out := bytes.Clone(data)
	binary.BigEndian.PutUint16(out[g.primary:], tile)
	out[g.hidden[tile]] &^= 1
	return out
}

// gridOf reads where the tiles are. Anything that is not as telephones write it
// is errNoGrid.
func gridOf(data []byte) (*grid, error) {
	boxes := map[string]span{}
	err := eachBox(data, 0, len(data), func(name string, s span) error {
		if name != "meta" || s.to-s.from < 4 {
			return nil
		}
		return eachBox(data, s.from+4, s.to, func(name string, s span) error {
			boxes[name] = s
			return nil
		})
	})
	body := func(name string) *fields { return &fields{b: data[boxes[name].from:boxes[name].to]} }
	pitm := body("pitm")
	if err != nil || pitm.number(4)>>24 != 0 {
		return nil, errNoGrid
	}
	g := &grid{primary: boxes["pitm"].from + 4, hidden: map[uint16]int{}}
	primary := uint16(pitm.number(2))
	kinds, ok := g.items(data, boxes["iinf"])
	if pitm.err != nil || !ok || kinds[primary] != "grid" {
		return nil, errNoGrid
	}
	if !g.describe(data, boxes, primary) || !g.parts(data, boxes["iref"], primary) || !g.turn(data, boxes["iprp"], primary) {
		return nil, errNoGrid
	}
	for _, t := range g.tiles {
		if kinds[t] != "hvc1" {
			return nil, errNoGrid
		}
	}
	return g, nil
}

// items reads the kinds of the items, and where it says that one is hidden.
func (g *grid) items(data []byte, iinf span) (map[uint16]string, bool) {
	r := &fields{b: data[iinf.from:iinf.to]}
	if r.number(4)>>24 == 0 {
		r.number(2)
	} else {
		r.number(4)
	}
	kinds := map[uint16]string{}
	err := eachBox(data, iinf.from+r.at, iinf.to, func(_ string, s span) error {
		r := &fields{b: data[s.from:s.to]}
		if r.number(4)>>24 != 2 {
			return errNoGrid
		}
		id := uint16(r.number(2))
		r.number(2)
		kinds[id], g.hidden[id] = string(r.bytes(4)), s.from+3
		return r.err
	})
	return kinds, err == nil && r.err == nil
}

// describe reads rows, columns and sides of the grid.
func (g *grid) describe(data []byte, boxes map[string]span, primary uint16) bool {
	var extents []extent
	iloc, idat := boxes["iloc"], boxes["idat"]
	if readLocations(&fields{b: data[iloc.from:iloc.to]}, &extents) != nil {
		return false
	}
	i := slices.IndexFunc(extents, func(e extent) bool { return e.item == uint32(primary) })
	if i < 0 {
		return false
	}
	e := extents[i]
	if e.inMeta {
		e.from, e.to = e.from+idat.from, min(e.to+idat.from, idat.to)
	}
	if e.from > e.to || e.to > len(data) {
		return false
	}
	r := &fields{b: data[e.from:e.to]}
	head := r.bytes(4) // version, flags, rows-1, columns-1
	if r.err != nil || head[0] != 0 {
		return false
	}
	size := 2
	if head[1]&1 == 1 {
		size = 4
	}
	g.rows, g.columns = int(head[2])+1, int(head[3])+1
	g.width, g.height = int(r.number(size)), int(r.number(size))
	return r.err == nil && g.width > 0 && g.height > 0
}

// parts reads which items are the tiles.
func (g *grid) parts(data []byte, iref span, primary uint16) bool {
	r := &fields{b: data[iref.from:iref.to]}
	if r.number(4)>>24 != 0 {
		return false
	}
	err := eachBox(data, iref.from+min(4, iref.to-iref.from), iref.to, func(name string, s span) error {
		r := &fields{b: data[s.from:s.to]}
		if name != "dimg" || uint16(r.number(2)) != primary {
			return nil
		}
		for range r.number(2) {
			if g.tiles = append(g.tiles, uint16(r.number(2))); r.err != nil {
				return r.err
			}
		}
		return nil
	})
	return err == nil && r.err == nil && len(g.tiles) == g.rows*g.columns
}

// turn reads the turn of the grid. Mirrors and crops are left to the engine.
func (g *grid) turn(data []byte, iprp span, primary uint16) bool {
	var names []string
	var turns []int
	ok := true
	err := eachBox(data, iprp.from, iprp.to, func(name string, s span) error {
		if name == "ipco" {
			return eachBox(data, s.from, s.to, func(name string, s span) error {
				names, turns = append(names, name), append(turns, 0)
				if name == "irot" && s.to > s.from {
					turns[len(turns)-1] = int(data[s.from] & 3)
				}
				return nil
			})
		}
		if name != "ipma" {
			return nil
		}
		r := &fields{b: data[s.from:s.to]}
		head := r.number(4)
		if head>>24 != 0 {
			return errNoGrid
		}
		wide := head&1 == 1
		for range r.number(4) {
			item, n := uint16(r.number(2)), r.bytes(1)
			if r.err != nil {
				return r.err
			}
			for range n[0] {
				at := 0
				if wide {
					at = int(r.number(2) & 0x7fff)
				} else if b := r.bytes(1); r.err == nil {
					at = int(b[0] & 0x7f)
				}
				if item != primary || at < 1 || at > len(names) {
					continue
				}
				switch names[at-1] {
				case "irot":
					g.quarters = turns[at-1]
				case "imir", "clap":
					ok = false
				}
			}
		}
		return r.err
	})
	return ok && err == nil
}
