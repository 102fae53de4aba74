package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// A shade is the value of one role, 0xRRGGBB, in both variants.
type shade struct{ light, dark uint32 }

// shades holds the palette.
//
// Source: the light values are those of the product's look, with teal, rust and
// leaf darkened by one to three percent so that they reach 4.5:1 on Paper, and
// gravel lightened so that load arrows on it reach 3:1 (WCAG 2.2 SC 1.4.3 and
// 1.4.11); the dark values are chosen here to pass the same pairs.
// Source: sign colours from ISO 3864-4 by their RAL names as quoted in
// secondary pages (RAL 3001 red, RAL 2010 orange, RAL 1003 yellow, RAL 5005
// blue), with the text colours of ANSI Z535.4. Pure black is used on orange:
// the standard's signal black #2B2B2C reaches only 3.6:1 there.
// Contrasts of the signs, by the WCAG formula: white on red 7.9:1, black on
// orange 5.3:1, black on yellow 10.7:1, white on blue 8.1:1. Signs keep their
// colours in the dark variant.
var shades = map[Name]shade{
	Paper: {0xF6F3EA, 0x0F1A22},
	Sheet: {0xFCFBF6, 0x16242E},
	Tint:  {0xECF4F3, 0x1B2F38},
	Track: {0xE5E1D2, 0x2B3A44},
	Water: {0xBFDDE0, 0x1E4752},

	Ink:     {0x20313A, 0xECE8DB},
	SoftInk: {0x5C6F76, 0xA3B1B5},
	Rule:    {0xC9C6B8, 0x384953},
	Edge:    {0x7C8A8E, 0x71858E},
	Teal:    {0x297682, 0x6FC0CA},
	OnTeal:  {0xFCFBF6, 0x0F1A22},
	Rust:    {0xB1512A, 0xEE9166},
	OnRust:  {0xFCFBF6, 0x0F1A22},
	Limit:   {0x9E3A24, 0xF2A088},
	Leaf:    {0x4C7748, 0x8FBF86},
	Violet:  {0x6B5B95, 0xB7A8E4},
	Ochre:   {0x826C22, 0xD3B95C},

	Gravel:    {0xD6CAAF, 0x5A4E3A},
	Glass:     {0x4A7583, 0x8DB4BF},
	Wood:      {0xEEE8D9, 0x3A3A36},
	Case:      {0xE8EAE8, 0x2C3B45},
	FishWarm:  {0xD9A441, 0xC99636},
	FishEarth: {0x9A6650, 0xA8745C},

	PigmentWhite:  {0xF7F5EE, 0xDFE1DA},
	PigmentSilver: {0xD3D9D6, 0x93A6AC},
	PigmentGrey:   {0x8F9A9B, 0x6F838C},
	PigmentBlack:  {0x2A3339, 0x0B1319},
	PigmentBrown:  {0x86614A, 0x86634C},
	PigmentTan:    {0xCBAE84, 0xA88D68},
	PigmentOlive:  {0x94935A, 0x858A55},
	PigmentYellow: {0xEBCB52, 0xDCBC48},
	PigmentGold:   {0xDDA23C, 0xCC9434},
	PigmentOrange: {0xE38438, 0xD97C36},
	PigmentRed:    {0xC5402F, 0xCF4C39},
	PigmentRose:   {0xE6A79C, 0xC98982},
	PigmentBlue:   {0x3A74AE, 0x4A8ACB},
	PigmentAzure:  {0x3FA9CB, 0x59BEDC},
	PigmentGreen:  {0x5F9765, 0x629E6C},
	PigmentViolet: {0x75609B, 0x8B7CBB},

	Steady: {0x297682, 0x6FC0CA},
	Wait:   {0x20313A, 0xECE8DB},
	Act:    {0xB1512A, 0xEE9166},

	SignDanger:      {0x9B2423, 0x9B2423},
	SignDangerText:  {0xFFFFFF, 0xFFFFFF},
	SignWarning:     {0xD05D29, 0xD05D29},
	SignWarningText: {0x000000, 0x000000},
	SignCaution:     {0xF9A900, 0xF9A900},
	SignCautionText: {0x000000, 0x000000},
	SignNotice:      {0x005387, 0x005387},
	SignNoticeText:  {0xFFFFFF, 0xFFFFFF},
}

// Color gives the opaque colour of role n in the variant v. Any variant other
// than theme.VariantDark is taken as light. An unknown or empty name gives the
// fully transparent colour.
func Color(n Name, v fyne.ThemeVariant) color.NRGBA {
	s, ok := shades[n]
	if !ok {
		return color.NRGBA{}
	}
	x := s.light
	if v == theme.VariantDark {
		x = s.dark
	}
	return color.NRGBA{R: uint8(x >> 16), G: uint8(x >> 8), B: uint8(x), A: 0xFF}
}

// Palette gives the colour of each role; every drawing back-end takes one.
type Palette func(Name) color.NRGBA

// PaletteOf gives the palette of the variant v. Paper documents use
// PaletteOf(theme.VariantLight).
func PaletteOf(v fyne.ThemeVariant) Palette {
	return func(n Name) color.NRGBA { return Color(n, v) }
}

// PaletteFor gives the palette that the widget w is shown with now: that of its
// theme, so that a pinned variant and a container's own theme are followed. Under
// a theme that is not ours the system's variant decides.
func PaletteFor(w fyne.Widget) Palette {
	v := fyne.CurrentApp().Settings().ThemeVariant()
	if t, ours := theme.CurrentForWidget(w).(interface {
		VariantOf(fyne.ThemeVariant) fyne.ThemeVariant
	}); ours {
		v = t.VariantOf(v)
	}
	return PaletteOf(v)
}

// ScaleFor gives by how much text, and what is drawn with it, is enlarged where
// the widget w is shown: 1 to 1.5, and 1 under a theme that is not ours.
func ScaleFor(w fyne.Widget) float64 {
	if t, ours := theme.CurrentForWidget(w).(interface{ Options() Options }); ours {
		return float64(t.Options().TextScale) / 100
	}
	return 1
}
