package parts

import (
	"fyne.io/fyne/v2"

	"example.org/driploop/screens/look"
)

// cut is a way of setting text: size, weight and colour by role.
type cut struct {
	size   fyne.ThemeSizeName
	style  fyne.TextStyle
	colour look.Name
}

// The weights. The theme gives its boldest cut for bold and italic together.
var (
	regular  = fyne.TextStyle{}
	semiBold = fyne.TextStyle{Bold: true}
	bold     = fyne.TextStyle{Bold: true, Italic: true}
	italic   = fyne.TextStyle{Italic: true}
)

// The cuts that parts use.
var (
	noteSoft    = cut{look.SizeNote, regular, look.SoftInk}
	bodyInk     = cut{look.SizeBody, regular, look.Ink}
	bodySoft    = cut{look.SizeBody, regular, look.SoftInk}
	bodyBold    = cut{look.SizeBody, semiBold, look.Ink}
	fieldSoft   = cut{look.SizeField, regular, look.SoftInk}
	fieldBold   = cut{look.SizeField, semiBold, look.Ink}
	sectionBold = cut{look.SizeSection, semiBold, look.Ink}
	headingBold = cut{look.SizeHeading, bold, look.Ink}
	numberBold  = cut{look.SizeNumber, bold, look.Ink}
)

// in gives the cut in another colour.
func (c cut) in(n look.Name) cut {
	c.colour = n
	return c
}
