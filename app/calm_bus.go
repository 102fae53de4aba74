//go:build linux || freebsd || netbsd || openbsd

package main

import (
	"context"
	"fmt"
	"os"

	"github.com/godbus/dbus/v5"
)

// wishes are where a desktop says that it wants less motion, the plainest first: the
// standard setting, and what two desktops had before it. Source: the documentation
// of org.freedesktop.portal.Settings; the others are what those desktops publish.
var wishes = []struct {
	space, key string
	calm       func(any) bool
}{
	{"org.freedesktop.appearance", "reduced-motion", func(v any) bool { return v == uint32(1) }},
	{"org.gnome.desktop.interface", "enable-animations", func(v any) bool { return v == false }},
	{"org.kde.kdeglobals.KDE", "AnimationDurationFactor", func(v any) bool { return fmt.Sprint(v) == "0" }},
}

// calmSystem reports whether the desktop asks for less motion; false where it does
// not say, or where there is no session bus. No bus is started for it.
func calmSystem(ctx context.Context, env Env) bool {
	at := env.Getenv("DBUS_SESSION_BUS_ADDRESS")
	if at == "" {
		folder := env.Getenv("XDG_RUNTIME_DIR")
		if _, err := os.Stat(folder + "/bus"); folder == "" || err != nil {
			return false
		}
		at = "unix:path=" + folder + "/bus"
	}
	bus, err := dbus.Connect(at, dbus.WithContext(ctx))
	if err != nil {
		return false
	}
	defer bus.Close()
	portal := bus.Object("org.freedesktop.portal.Desktop", "/org/freedesktop/portal/desktop")
	for _, w := range wishes {
		var v dbus.Variant
		if portal.CallWithContext(ctx, "org.freedesktop.portal.Settings.Read", 0, w.space, w.key).Store(&v) != nil {
			continue // the desktop does not know it
		}
		for { // Read wraps the value once more
			inner, ok := v.Value().(dbus.Variant)
			if !ok {
				break
			}
			v = inner
		}
		if w.calm(v.Value()) {
			return true
		}
	}
	return false
}
