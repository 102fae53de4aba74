package keeper

import (
	"context"
	"io"
	"slices"

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
	parts := map[string]string{}
	for _, h := range slices.Sorted(keysOf(format)) {
		if err := ctx.Err(); err != nil {
			return did, nil, err
		}
		n, sound, err := k.writeOriginal(ctx, out, h, slip.PhotoName(h, format[h]))
		if err != nil {
			return did, nil, err
		}
		if !sound {
			did.Lost = append(did.Lost, name[h])
		}
		if n > 0 {
			parts[h] = slip.PhotoName(h, format[h])
			did.Pictures++
			did.Bytes += n
		}
		if progress != nil {
			progress(did.Bytes, max(total, did.Bytes))
		}
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
