package keeper

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"slices"

	"example.org/driploop/model/photo"
	"example.org/driploop/model/slip"
)

// writeOriginals writes every picture that a row speaks of, each once, in the
// order of their hashes. It returns the names of their parts by the hash that the
// rows have from here on.
func (k *Keeper) writeOriginals(ctx context.Context, out *slip.ArchiveWriter, a *wholeDaybook, o ArchiveOptions, progress func(done, total int64)) (Written, map[string]string, error) {
	var did Written
	format, name, total := map[string]string{}, map[string]string{}, int64(0)
	for _, r := range a.rows["photo"] {
		h := r.Text("hash")
		if _, twice := format[h]; twice || !slip.IsHash(h) {
			continue
		}
		format[h], name[h] = r.Text("format"), r.Text("name")
		n, _ := r.Values["bytes"].(int64)
		total += n
	}
	parts, done := map[string]string{}, int64(0)
	plain := map[string]placeless{} // by the hash of the original
	for _, h := range slices.Sorted(keysOf(format)) {
		if err := ctx.Err(); err != nil {
			return did, nil, err
		}
		var n int64
		var sound bool
		var err error
		if o.WithoutPlace {
			n, sound, err = k.writePlaceless(ctx, out, h, plain, parts)
		} else if n, sound, err = k.writeOriginal(ctx, out, h, slip.PhotoName(h, format[h])); n > 0 {
			parts[h] = slip.PhotoName(h, format[h])
		}
		if err != nil {
			return did, nil, err
		}
		if !sound {
			did.Lost = append(did.Lost, name[h])
		}
		if n > 0 {
			did.Pictures++
			did.Bytes += n
		}
		if done += n; progress != nil {
			progress(done, max(total, done))
		}
	}
	if o.WithoutPlace {
		a.leavePlaces(plain)
	}
	return did, parts, nil
}

// writeOriginal writes one picture and says how long it was and whether it is the
// one that was kept. A file that is gone or empty writes nothing.
func (k *Keeper) writeOriginal(ctx context.Context, out *slip.ArchiveWriter, hash, part string) (int64, bool, error) {
	f, err := k.originals.Open(hash)
	if err != nil {
		return 0, false, nil // told as lost; the rest of the daybook is worth having
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() || info.Size() == 0 || info.Size() > slip.MaxOriginal {
		return 0, false, nil
	}
	// Neither a file that grows meanwhile nor a wait that nobody wants any more.
	sum, err := out.Add(part, io.LimitReader(&stoppable{ctx, f}, info.Size()))
	return info.Size(), sum == hash, err
}

// placeless is a picture that no longer tells where it was taken.
type placeless struct {
	hash   string
	format string
	bytes  int64
	// anew says that it was made anew, upright; its sides then.
	anew          bool
	width, height int64
}

// writePlaceless writes a copy of a picture without its place. One from which the
// place cannot be taken is left out and told as lost: it would tell after all.
func (k *Keeper) writePlaceless(ctx context.Context, out *slip.ArchiveWriter, hash string, plain map[string]placeless, parts map[string]string) (int64, bool, error) {
	data, err := k.originals.Read(hash, photo.Usual())
	if err != nil {
		return 0, false, ctx.Err()
	}
	copied, format, anew, err := k.decoder.Shared(ctx, data)
	if err != nil || len(copied) > slip.MaxOriginal {
		return 0, false, ctx.Err()
	}
	sum := sha256.Sum256(copied)
	p := placeless{hash: hex.EncodeToString(sum[:]), format: string(format), bytes: int64(len(copied)), anew: anew}
	if info, err := photo.Inspect(copied, photo.Usual()); err == nil {
		p.width, p.height = int64(info.Width), int64(info.Height)
	}
	plain[hash] = p
	if _, twice := parts[p.hash]; twice {
		return 0, true, nil
	}
	parts[p.hash] = slip.PhotoName(p.hash, p.format)
	_, err = out.Add(parts[p.hash], bytes.NewReader(copied))
	return p.bytes, true, err
}

// leavePlaces takes the places off the rows and gives them the pictures that went
// into the archive.
func (a *wholeDaybook) leavePlaces(plain map[string]placeless) {
	for _, r := range a.rows["photo"] {
		delete(r.Values, "latitude")
		delete(r.Values, "longitude")
		p, ok := plain[r.Text("hash")]
		if !ok {
			continue
		}
		r.Values["hash"], r.Values["format"], r.Values["bytes"] = p.hash, p.format, p.bytes
		if p.anew {
			r.Values["orientation"], r.Values["width"], r.Values["height"] = int64(1), p.width, p.height
		}
	}
}

// stoppable is a reader that ends with its context.
type stoppable struct {
	ctx context.Context
	r   io.Reader
}

func (s *stoppable) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.r.Read(p)
}
