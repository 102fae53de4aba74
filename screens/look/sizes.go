package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Names of text sizes. Body, section and heading are Fyne's own names, so that
// its widgets follow; note, field and number are ours.
const (
	SizeNote    = theme.SizeNameCaptionText
	SizeBody    = theme.SizeNameText
	SizeSection = theme.SizeNameSubHeadingText
	SizeHeading = theme.SizeNameHeadingText

	SizeField  fyne.ThemeSizeName = "look.field"
	SizeNumber fyne.ThemeSizeName = "look.number"
)

// Text sizes in points at a text scale of 100 %.
const (
	Note    = 13.0
	Body    = 15.0
	Field   = 17.0
	Section = 19.0
	Heading = 28.0
	Number  = 40.0
)

// Text scale in percent: the least and the largest that can be chosen.
const (
	MinTextScale = 100
	MaxTextScale = 150
)
