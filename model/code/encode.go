package code

import (
	"errors"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
)

const (
	// Quiet is the least number of light modules about a code. Source: ISO/IEC 18004.
	Quiet = 4
	// version is the largest code that is made: 117 modules a side, which a camera
	// tells apart at 8 cm. // judgement
	version = 25
	// MostText is how many characters of the alphanumeric mode such a code holds at
	// level M. Source: ISO/IEC 18004, table 7.
	MostText = 1451
)

// ErrLong says that a text is longer than MostText, or holds other characters than
// those of the alphanumeric mode.
var ErrLong = errors.New("code: the text does not fit")

// Matrix is the modules of a code.
type Matrix struct {
	Side int // modules
	dark []bool
}

// Dark reports whether a module is dark; x runs to the right, y downwards.
func (m Matrix) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < m.Side && y < m.Side && m.dark[y*m.Side+x]
}

// alphanumeric are the characters of that mode. Source: ISO/IEC 18004, table 5.
const alphanumeric = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

// Encode makes the code of a text of the alphanumeric mode. Errors: ErrLong.
func Encode(text string) (Matrix, error) {
	if text == "" || len(text) > MostText || !only(text, alphanumeric) {
		return Matrix{}, ErrLong
	}
	q, err := encoder.Encoder_encode(text, decoder.ErrorCorrectionLevel_M, map[gozxing.EncodeHintType]interface{}{})
	if err != nil || q.GetVersion().GetVersionNumber() > version {
		return Matrix{}, ErrLong
	}
	from := q.GetMatrix()
	m := Matrix{Side: from.GetWidth(), dark: make([]bool, from.GetWidth()*from.GetHeight())}
	for y := range m.Side {
		for x := range m.Side {
			m.dark[y*m.Side+x] = from.Get(x, y) == 1
		}
	}
	return m, nil
}

func only(s, of string) bool {
	var ok [256]bool
	for i := range len(of) {
		ok[of[i]] = true
	}
	for i := range len(s) {
		if !ok[s[i]] {
			return false
		}
	}
	return true
}
