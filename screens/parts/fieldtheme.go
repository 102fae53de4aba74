package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/screens/look"
)

// fieldTheme dresses Fyne's entry as a box of ours. It asks the program's theme
// anew each time, so that a change of theme is followed.
type fieldTheme struct{ f *boxed }

var _ fyne.Theme = fieldTheme{}

func (fieldTheme) now() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

func (t fieldTheme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	th := t.now()
	switch n {
	case theme.ColorNameForeground:
		if t.f.soft && !t.f.focused {
			return th.Color(look.SoftInk, v)
		}
	case theme.ColorNameInputBorder:
		if t.f.wrong {
			return th.Color(look.Rust, v)
		}
	case theme.ColorNamePrimary:
		if t.f.wrong {
			return th.Color(look.Rust, v)
		}
	}
	return th.Color(n, v)
}

// boxPad is the room between a box's edge and its text at 100 %.
const boxPad = 8

func (t fieldTheme) Size(n fyne.ThemeSizeName) float32 {
	th := t.now()
	switch n {
	case theme.SizeNameText:
		return th.Size(look.SizeField)
	case theme.SizeNameInnerPadding:
		return boxPad * th.Size(look.SizeField) / look.Field
	}
	return th.Size(n)
}

func (t fieldTheme) Font(s fyne.TextStyle) fyne.Resource     { return t.now().Font(s) }
func (t fieldTheme) Icon(n fyne.ThemeIconName) fyne.Resource { return t.now().Icon(n) }
