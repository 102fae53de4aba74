package look

import (
	"image/color"
	"math"
)

// Contrast gives the contrast ratio of two opaque colours, 1 to 21.
//
// With L the relative luminance, the ratio is (L1 + 0.05) / (L2 + 0.05), L1
// being the lighter one; L = 0.2126 R + 0.7152 G + 0.0722 B over linearised
// sRGB channels.
// Source: WCAG 2.2, definitions of contrast ratio and relative luminance.
func Contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// linear undoes the sRGB transfer curve. The threshold is that of IEC
// 61966-2-1; the 0.03928 of WCAG's text gives the same for all 8-bit values.
func linear(v uint8) float64 {
	c := float64(v) / 255
	if c <= 0.04045 {
		return c / 12.92
	}
	return math.Pow((c+0.055)/1.055, 2.4)
}

// Over gives the opaque colour that front, with its own opacity, makes on back.
func Over(front, back color.NRGBA) color.NRGBA {
	a := float64(front.A) / 255
	mix := func(f, b uint8) uint8 { return uint8(math.Round(float64(f)*a + float64(b)*(1-a))) }
	return color.NRGBA{mix(front.R, back.R), mix(front.G, back.G), mix(front.B, back.B), 0xFF}
}
