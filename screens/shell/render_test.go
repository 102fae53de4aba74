package shell_test

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// rendered is what a widget is made of.
func rendered(w fyne.Widget) []fyne.CanvasObject { return test.WidgetRenderer(w).Objects() }
