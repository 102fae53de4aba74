package slip

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	_ "embed" // the dictionary
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// A printed sheet carries the whole file of a profile, a visit slip without pictures or
// a reply, bit for bit, in a few codes. The file is deflated (RFC 1951) with a dictionary that both sides have, parted into pieces
// of about one length, each piece written in the 45 characters of RFC 9285, which
// a QR code holds well, and headed by what it is of:
//
//	DRIPLOOP1:2/3:8F2A09C1:...
//
// the format, the place of the piece and their number, and the first eight digits
// of the SHA-256 of the deflated whole. The form is described in
// assets/schema/profile-codes.txt.

//go:embed dictionary.bin
var dictionary []byte

const (
	sheetFormat = "DRIPLOOP1"
	// MaxCodes is how many codes a sheet may have: a starter profile takes one or two, a
	// visit slip of three months four, a reply one. // judgement: what fits two pages
	MaxCodes = 6
	// maxPiece is how many bytes a code holds beside its head: 1451 characters of the
	// largest code, less 30, two bytes in three characters.
	maxPiece = 940
	// maxSheet is the most that the codes of a sheet unpack to, in bytes, counted while
	// they are unpacked. // judgement: many times what fits honestly
	maxSheet = 1_000_000
)

// Codes of an Error of a sheet.
const (
	CodeSheetLong    working.Key = "refuse.slip.sheet_long"    // above MaxCodes
	CodeSheetOther   working.Key = "refuse.slip.sheet_other"   // no code of such a sheet
	CodeSheetLater   working.Key = "refuse.slip.sheet_later"   // a code of a later version
	CodeSheetDamaged working.Key = "refuse.slip.sheet_damaged" // not written as such a code is, or not whole
	CodeSheetMixed   working.Key = "refuse.slip.sheet_mixed"   // codes of two sheets
	CodeSheetParts   working.Key = "refuse.slip.sheet_parts"   // some codes are missing
)

// Codes parts the file of a slip into the texts of its codes. Errors: *Error
// with CodeSheetLong.
func Codes(file []byte) ([]string, error) {
	var b bytes.Buffer
	w, err := flate.NewWriterDict(&b, flate.BestCompression, dictionary)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(file); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	packed := b.Bytes()
	n := (len(packed) + maxPiece - 1) / maxPiece
	if n > MaxCodes || len(file) > maxSheet {
		return nil, above(CodeSheetLong, "", MaxCodes)
	}
	sum := sumOf(packed)
	each := (len(packed) + n - 1) / n
	each += each % 2 // two bytes make three characters
	var out []string
	for i := range n {
		piece := packed[min(i*each, len(packed)):min((i+1)*each, len(packed))]
		out = append(out, fmt.Sprintf("%s:%d/%d:%s:%s", sheetFormat, i+1, n, sum, base45(piece)))
	}
	return out, nil
}

func sumOf(packed []byte) string {
	sum := sha256.Sum256(packed)
	return strings.ToUpper(hex.EncodeToString(sum[:4]))
}

// IsCode reports whether a text is a code of a printed sheet, of any version.
func IsCode(text string) bool { return strings.HasPrefix(text, "DRIPLOOP") }

// Sheet gathers the codes of one printed sheet, in any order, from one picture or
// several.
type Sheet struct {
	of     int
	sum    string
	pieces map[int][]byte
}

var codeForm = regexp.MustCompile(`^DRIPLOOP([0-9]{1,3}):([0-9]{1,2})/([0-9]{1,2}):([0-9A-F]{8}):([0-9A-Z $%*+./:-]+)$`)

// Add takes a code. One that it has already changes nothing. Errors: *Error with
// CodeSheetOther for a text that is no such code, CodeSheetLater, CodeSheetDamaged
// or CodeSheetMixed; the codes gathered before stay.
func (s *Sheet) Add(text string) error {
	if !IsCode(text) {
		return refuse(CodeSheetOther, "")
	}
	m := codeForm.FindStringSubmatch(text)
	if m == nil {
		return refuse(CodeSheetDamaged, "")
	}
	if "DRIPLOOP"+m[1] != sheetFormat {
		return refuse(CodeSheetLater, "")
	}
	at, _ := strconv.Atoi(m[2]) // both are one or two digits
	of, _ := strconv.Atoi(m[3])
	piece, ok := unbase45(m[5])
	if at < 1 || at > of || of > MaxCodes || !ok || len(piece) > maxPiece+1 {
		return refuse(CodeSheetDamaged, "")
	}
	if s.of != 0 && (s.of != of || s.sum != m[4]) {
		return refuse(CodeSheetMixed, "")
	}
	if had, ok := s.pieces[at]; ok && !bytes.Equal(had, piece) {
		return refuse(CodeSheetMixed, "")
	}
	if s.of == 0 {
		s.of, s.sum, s.pieces = of, m[4], map[int][]byte{}
	}
	s.pieces[at] = piece
	return nil
}

// Have tells how many codes are there, and of how many; both are 0 before the first.
func (s *Sheet) Have() (have, of int) { return len(s.pieces), s.of }

// Whole reports whether all codes are there.
func (s *Sheet) Whole() bool { return s.of > 0 && len(s.pieces) == s.of }

// File gives the file that the codes carry, bit for bit as it was handed over; FormatOf
// tells which slip it is.
// Errors: *Error with CodeSheetParts, CodeSheetDamaged or CodeUnpacked.
func (s *Sheet) File() ([]byte, error) {
	if !s.Whole() {
		e := refuse(CodeSheetParts, "")
		e.High = quantity.Count(s.of).Value()
		return nil, e
	}
	var packed []byte
	for i := 1; i <= s.of; i++ {
		packed = append(packed, s.pieces[i]...)
	}
	if sumOf(packed) != s.sum {
		return nil, refuse(CodeSheetDamaged, "")
	}
	from := bytes.NewReader(packed)
	r := flate.NewReaderDict(from, dictionary)
	file, err := io.ReadAll(io.LimitReader(r, maxSheet+1))
	switch {
	case len(file) > maxSheet:
		return nil, above(CodeUnpacked, "", maxSheet/1e6)
	case err != nil || from.Len() > 0:
		return nil, &Error{Code: CodeSheetDamaged, Err: errors.Join(err)}
	}
	return file, nil
}

// alphabet45 is that of RFC 9285, which is the alphanumeric mode of ISO/IEC 18004.
const alphabet45 = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// base45 writes bytes as RFC 9285 does: two bytes n = 256·a + b as three characters
// c + 45·d + 45²·e, the last byte alone as two.
func base45(b []byte) string {
	var s strings.Builder
	for len(b) > 0 {
		n, digits := int(b[0]), 2
		if len(b) > 1 {
			n, digits = n<<8+int(b[1]), 3
		}
		for range digits {
			s.WriteByte(alphabet45[n%45])
			n /= 45
		}
		b = b[digits-1:]
	}
	return s.String()
}

// unbase45 reads what base45 writes; false for anything else.
func unbase45(s string) ([]byte, bool) {
	var out []byte
	for len(s) > 0 {
		digits := min(3, len(s))
		n, unit := 0, 1
		for i := range digits {
			d := strings.IndexByte(alphabet45, s[i])
			if d < 0 {
				return nil, false
			}
			n, unit = n+d*unit, unit*45
		}
		switch {
		case digits == 3 && n < 1<<16:
			out = append(out, byte(n>>8), byte(n))
		case digits == 2 && n < 1<<8:
			out = append(out, byte(n))
		default:
			return nil, false
		}
		s = s[digits:]
	}
	return out, true
}
