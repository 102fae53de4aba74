package slip

import (
	"bufio"
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"errors"
	"hash"
	"hash/crc32"
	"io"
)

// unpacker unpacks one part after the other and counts what comes out.
type unpacker struct {
	r       io.ReaderAt
	most    int64 // bytes that all parts together may unpack to
	left    int64 // of most
	in      *bufio.Reader
	inflate io.ReadCloser
	buf     [32 << 10]byte
}

func newUnpacker(r io.ReaderAt, lim limits) *unpacker {
	return &unpacker{r: r, most: lim.unpacked, left: lim.unpacked, in: bufio.NewReader(nil), inflate: flate.NewReader(bytes.NewReader(nil))}
}

// part unpacks e and returns its SHA-256. The data go to w, which may be nil for
// a part that is only hashed. A checksum or length that is not the one claimed, data
// behind the end of the stream and an archive inside are refused.
func (u *unpacker) part(e entry, w io.Writer) ([sha256.Size]byte, error) {
	var none [sha256.Size]byte
	u.in.Reset(io.NewSectionReader(u.r, e.data, e.packed))
	src := io.Reader(u.in)
	if e.method == deflated {
		if err := u.inflate.(flate.Resetter).Reset(u.in, nil); err != nil {
			return none, &Error{Code: CodeDamaged, Part: e.name, Err: err}
		}
		src = u.inflate
	}
	sum, crc := sha256.New(), crc32.NewIEEE()
	n, err := u.copy(e, src, w, sum, crc)
	if err != nil {
		return none, err
	}
	if n != e.unpacked || crc.Sum32() != e.crc {
		return none, refuse(CodeDamaged, e.name)
	}
	if _, err := u.in.ReadByte(); !errors.Is(err, io.EOF) {
		return none, refuse(CodeDamaged, e.name)
	}
	return [sha256.Size]byte(sum.Sum(nil)), nil
}

// archives begin so: ZIP, gzip, 7z, RAR, xz. A slip holds none.
var archives = [][]byte{[]byte("PK\x03\x04"), []byte("PK\x05\x06"), {0x1f, 0x8b}, []byte("7z\xbc\xaf\x27\x1c"), []byte("Rar!\x1a"), []byte("\xfd7zXZ\x00")}

// longestMark is the length of the longest of archives.
const longestMark = 6

func (u *unpacker) copy(e entry, src io.Reader, w io.Writer, sum, crc hash.Hash) (int64, error) {
	var n int64
	var first []byte
	for {
		k, err := src.Read(u.buf[:])
		b := u.buf[:k]
		first = append(first, b[:min(k, longestMark-len(first))]...)
		n += int64(k)
		if u.left -= int64(k); u.left < 0 {
			return n, above(CodeUnpacked, e.name, float64(u.most)/1e6)
		}
		if n > e.unpacked {
			return n, refuse(CodeDamaged, e.name)
		}
		sum.Write(b)
		crc.Write(b)
		if w != nil {
			if _, err := w.Write(b); err != nil {
				return n, err
			}
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return n, unpackError(e.name, err)
		}
	}
	for _, a := range archives {
		if bytes.HasPrefix(first, a) {
			return n, refuse(CodeNested, e.name)
		}
	}
	return n, nil
}

// unpackError tells a broken stream from a disk that cannot be read.
func unpackError(name string, err error) error {
	var corrupt flate.CorruptInputError
	if errors.As(err, &corrupt) || errors.Is(err, io.ErrUnexpectedEOF) {
		return &Error{Code: CodeDamaged, Part: name, Err: err}
	}
	return &Error{Code: CodeUnreadable, Part: name, Err: err}
}
