package paper

import "example.org/driploop/model/region"

// Size is a sheet of paper, upright where a person chooses it.
type Size struct {
	Code string  // stable name
	Name string  // as it stands on the pack
	W, H float64 // millimetres
}

// turned is the sheet on its side.
func (s Size) turned() Size { return Size{s.Code, s.Name, s.H, s.W} }

// The sizes. Source: ISO 216 for A4; 8.5 by 11 in exactly for Letter
// (ANSI/ASME Y14.1).
var (
	A4     = Size{"a4", "A4", 210, 297}
	Letter = Size{"letter", "Letter", 215.9, 279.4}
)

// Sizes lists all sizes.
func Sizes() []Size { return []Size{A4, Letter} }

// SizeNamed finds a size by its code.
func SizeNamed(code string) (Size, bool) {
	for _, s := range Sizes() {
		if s.Code == code {
			return s, true
		}
	}
	return Size{}, false
}

// SizeFor is the paper that a region (ISO 3166-1 alpha-2) prints on; A4 where
// none is known.
func SizeFor(code string) Size {
	if (region.Region{Code: code}).Letter() {
		return Letter
	}
	return A4
}
