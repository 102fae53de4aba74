package photo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"runtime/debug"

	"github.com/gen2brain/heic"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// Decoder decodes pictures under Limits. One is enough for a program: its budget
// of pixels is shared by all that is under way. Its methods may be called by
// several goroutines.
type Decoder struct {
	limits Limits
	budget *budget
	heic   chan struct{} // one at a time: its engine takes some 250 MB
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
	img, err := d.decode(ctx, data, info, func(img image.Image) image.Image {
		return upright(shrink(img, side), info.Orientation)
	})
	return img, info, err
}

// decode decodes data, of which info is known, and lets then make of it what is
// wanted, in a goroutine of its own. The pixels stay counted until that ends,
// even where no one waits for it any more.
func (d *Decoder) decode(ctx context.Context, data []byte, info Info, then func(image.Image) image.Image) (image.Image, error) {
	pixels := int64(info.Width) * int64(info.Height)
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
	limited, cancel := context.WithTimeoutCause(ctx, d.limits.Time, errSlow)
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
		img, err := pixelsOf(limited, data, info)
		if err != nil {
			a.err = problem(Unreadable, err)
			return
		}
		a.img = then(img)
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

// pixelsOf decodes the whole picture. A decoder that reads on after the end of
// ctx is stopped by its next read.
func pixelsOf(ctx context.Context, data []byte, info Info) (image.Image, error) {
	r := &reader{Reader: bytes.NewReader(data), ctx: ctx}
	img, err := decodeAs(info.Format, r)
	if err != nil {
		return nil, err
	}
	// What comes out must be what the header promised, or the budget is void.
	if b := img.Bounds(); b.Dx() != info.Width || b.Dy() != info.Height {
		return nil, fmt.Errorf("%d x %d pixels, where the header says %d x %d", b.Dx(), b.Dy(), info.Width, info.Height)
	}
	return img, nil
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
	case HEIC:
		return heic.Decode(r)
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
