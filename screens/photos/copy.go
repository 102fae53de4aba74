package photos

import (
	"bytes"
	"context"
	"image/jpeg"
	"io"
	"path/filepath"
	"strings"

	"example.org/driploop/model/photo"
	"example.org/driploop/screens/picture"
)

// copyQuality is that of the JPEG of a copy, of 100. Judgement: no loss is seen.
const copyQuality = 92

// copy saves the picture with its marks drawn in, its colours balanced as shown.
// It is written anew, so that nothing of the place or the camera is in it.
func (p *bench) copy(s *shot) {
	if s.copying {
		return
	}
	s.copying = true
	p.show()
	x, marks, plain := s.photo, s.marks(), s.plain
	var b bytes.Buffer
	var err error
	p.deps.Aside(func(ctx context.Context) {
		m, e := p.deps.Keeper.Picture(ctx, x.ID, 0)
		if err = e; err != nil {
			return
		}
		if x.White != nil && !plain {
			if gains, e := photo.Balance(m, *x.White); e == nil {
				gains.Apply(m)
			}
		}
		err = jpeg.Encode(&b, picture.Burn(m, marks, nil), &jpeg.Options{Quality: copyQuality})
	}, func() {
		s.copying = false
		p.show()
		if err != nil {
			p.deps.Fail(err)
			return
		}
		p.deps.Save(copyName(x.Taken.Day(), x.Name), func(_ context.Context, w io.Writer) error {
			_, err := w.Write(b.Bytes())
			return err
		})
	})
}

// copyName names a copy after its day and its file.
func copyName(day, name string) string {
	base := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	parts := []string{"driploop"}
	for _, s := range []string{day, base} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, "-") + photo.JPEG.Extension()
}
