package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"runtime/debug"
	"time"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// Decoder decodes pictures under Limits. One is enough for a program: its budget
// of pixels is shared by all that is under way. Its methods may be called by
// several goroutines.
type Decoder struct {
	limits Limits
	budget *budget
	heic   chan struct{} // one at a time: it uses all processors, and its engine much memory
}

// NewDecoder makes a Decoder. No format's engine is loaded before its first
// picture.
func NewDecoder(l Limits) *Decoder {
	return &Decoder{limits: l, budget: newBudget(l.Budget), heic: make(chan struct{}, 1)}
}

// Limits are those of the Decoder.
func (d *Decoder) Limits() Limits { return d.limits }

// Decode gives the upright picture of a file, shrunk so that its longer side is
// at most side pixels; 0 leaves it as large as it is. Nothing is ever enlarged.
// Errors: those of Inspect; *Problem with Unreadable or TooSlow; ctx's own.
func (d *Decoder) Decode(ctx context.Context, data []byte, side int) (image.Image, Info, error) {
	info, err := Inspect(data, d.limits)
	if err != nil {
		return nil, info, err
	}
	img, err := d.decode(ctx, data, info, func(img image.Image, orientation int) image.Image {
		return upright(shrink(img, side), orientation)
	})
	return img, info, err
}

// decode decodes data, of which info is known, and lets then make of it what is
// wanted, given how it is to be turned, in a goroutine of its own. The pixels stay counted until that ends,
// even where no one waits for it any more.
func (d *Decoder) decode(ctx context.Context, data []byte, info Info, then func(image.Image, int) image.Image) (image.Image, error) {
	pixels := cost(data, info)
	if err := d.budget.take(ctx, pixels); err != nil {
		return nil, err
	}
	if info.Format == HEIC {
		select {
		case d.heic <- struct{}{}:
		case <-ctx.Done():
			d.budget.give(pixels)
			return nil, ctx.Err()
		}
	}
	limited, cancel := context.WithTimeoutCause(ctx, timeFor(d.limits, info), errSlow)
	defer cancel()
	type answer struct {
		img image.Image
		err error
	}
	done := make(chan answer, 1)
	go func() {
		var a answer
		defer func() {
			if r := recover(); r != nil {
				a = answer{err: problem(Unreadable, panicked(r))}
			}
			if info.Format == HEIC {
				<-d.heic
			}
			d.budget.give(pixels)
			done <- a
		}()
		img, orientation, err := pixelsOf(limited, data, info, d.limits)
		if err != nil {
			if a.err = err; ProblemOf(err) == nil {
				a.err = problem(Unreadable, err)
			}
			return
		}
		a.img = then(img, orientation)
	}()
	select {
	case a := <-done:
		if a.err != nil && limited.Err() != nil {
			return nil, ended(limited)
		}
		return a.img, a.err
	case <-limited.Done():
		return nil, ended(limited)
	}
}

var errSlow = errors.New("photo: too slow")

// ended says why a context is over: by the limit of time or by the caller.
func ended(ctx context.Context) error {
	if err := context.Cause(ctx); !errors.Is(err, errSlow) {
		return err
	}
	return problem(TooSlow, nil)
}

func panicked(r any) error { return fmt.Errorf("panic: %v\n%s", r, debug.Stack()) }

// heicTimes is how much longer a HEIC may take: its engine, in a sandbox, is some
// ten times slower than that of a JPEG. // measured: 3.5 s for 12 megapixels
const heicTimes = 6

func timeFor(l Limits, info Info) time.Duration {
	if info.Format == HEIC {
		return heicTimes * l.Time
	}
	return l.Time
}

// Weights of pixels in the budget: what a decoder holds of one, beside the 1.5 to
// 4 bytes of others. // measured: 25 bytes for a HEIC whole, 7.5 for progressive
const (
	heicWeight        = 5
	progressiveWeight = 2
)

// cost is what decoding a picture takes of the budget.
func cost(data []byte, info Info) int64 {
	pixels := int64(info.Width) * int64(info.Height)
	switch {
	case info.Format == HEIC:
		if _, err := gridOf(data); err != nil {
			return heicWeight * pixels
		}
	case info.Format == JPEG && progressive(data):
		return progressiveWeight * pixels
	}
	return pixels
}

// progressive reports whether a JPEG's frame is a progressive one, which is held
// as coefficients until its end.
func progressive(data []byte) bool {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		switch m := data[at+1]; {
		case m == 0xc2:
			return true
		case m == 0xda || m == 0xc0 || m == 0xc1:
			return false
		case m == 0xff:
			at++
			continue
		}
		at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
	}
	return false
}

// pixelsOf decodes the whole picture and tells how it is to be turned. A decoder
// that reads on after the end of ctx is stopped by its next read.
func pixelsOf(ctx context.Context, data []byte, info Info, l Limits) (img image.Image, orientation int, err error) {
	orientation = info.Orientation
	if info.Format == HEIC {
		img, orientation, err = decodeHEIC(ctx, data, info, l)
	} else {
		img, err = decodeAs(info.Format, &reader{Reader: bytes.NewReader(data), ctx: ctx})
	}
	if err != nil {
		return nil, 0, err
	}
	// What comes out must be what the header promised, or the budget is void.
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	if info.Format == HEIC && orientation >= 5 {
		w, h = h, w
	}
	if w != info.Width || h != info.Height {
		return nil, 0, fmt.Errorf("%d x %d pixels, where the header says %d x %d", w, h, info.Width, info.Height)
	}
	return img, orientation, nil
}

func decodeAs(f Format, r *reader) (image.Image, error) {
	switch f {
	case JPEG:
		return jpeg.Decode(r)
	case PNG:
		return png.Decode(r)
	case GIF:
		return firstFrame(r)
	case WebP:
		return decodeWebP(r)
	case BMP:
		return bmp.Decode(r)
	case TIFF:
		return tiff.Decode(r)
	}
	return nil, fmt.Errorf("no decoder for %q", f)
}

// firstFrame gives the first frame of a GIF where it lies on its screen.
func firstFrame(r *reader) (image.Image, error) {
	c, err := gif.DecodeConfig(r)
	if err != nil {
		return nil, err
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	frame, err := gif.Decode(r)
	if err != nil {
		return nil, err
	}
	screen := image.Rect(0, 0, c.Width, c.Height)
	if frame.Bounds() == screen {
		return frame, nil
	}
	out := image.NewRGBA(screen)
	draw.Draw(out, screen, image.White, image.Point{}, draw.Src)
	draw.Draw(out, frame.Bounds(), frame, frame.Bounds().Min, draw.Over)
	return out, nil
}

// reader fails once its context is over.
type reader struct {
	*bytes.Reader
	ctx context.Context
}

func (r *reader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.Read(p)
}

func (r *reader) ReadAt(p []byte, off int64) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.ReadAt(p, off)
}
