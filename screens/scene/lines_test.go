package scene

import (
	"strings"
	"testing"
)

// Where a line may end. Source: JIS X 4051 line composition rules: no mark of punctuation, no
// wave dash and no small kana begins a line, and no opening bracket ends one; a no-break space
// (Unicode UAX 14, class GL) joins what stands on both sides of it.
func TestPieces(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"one two", "one |two"},
		{"Eisen-Nickel", "Eisen-|Nickel"},
		{"24\u00a0小时。", "24\u00a0小|时。"},
		{"スイッチ", "ス|イッ|チ"},
		{"（1～1.83", "（1～|1.83"},
		{"鱼（斑马）", "鱼|（斑|马）"},
		{"ガラス · 幅", "ガ|ラ|ス · |幅"},
	} {
		if got := strings.Join(Pieces(c.text), "|"); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
