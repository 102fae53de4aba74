package main

import (
	"context"
	"unsafe"

	"golang.org/x/sys/windows"
)

// clientAreaAnimation asks whether windows may move what is in them. Source:
// SPI_GETCLIENTAREAANIMATION of winuser.h.
const clientAreaAnimation = 0x1042

// calmSystem reports whether the system asks for less motion; false where it does
// not say.
func calmSystem(context.Context, Env) bool {
	var moves int32
	ok, _, _ := windows.NewLazySystemDLL("user32.dll").NewProc("SystemParametersInfoW").Call(clientAreaAnimation, 0, uintptr(unsafe.Pointer(&moves)), 0)
	return ok != 0 && moves == 0
}
