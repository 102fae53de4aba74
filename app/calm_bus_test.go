//go:build linux

package main

import (
	"bufio"
	"context"
	"encoding/binary"
	"fmt"
	"net"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"
)

// desktop answers as a session bus with a portal behind it does: the greeting of
// the D-Bus specification, then settings as variants in variants. Silent, it takes
// the call and never answers.
func desktop(t *testing.T, settings map[string]any, silent bool) (address string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "bus")
	l, err := net.Listen("unix", path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			go serve(c, settings, silent)
		}
	}()
	return "unix:path=" + path
}

func serve(c net.Conn, settings map[string]any, silent bool) {
	defer c.Close()
	r := bufio.NewReader(c)
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			return
		}
		switch line = strings.Trim(line, "\x00\r\n"); {
		case line == "AUTH":
			fmt.Fprint(c, "REJECTED EXTERNAL\r\n")
		case strings.HasPrefix(line, "AUTH EXTERNAL"):
			fmt.Fprint(c, "OK 0123456789abcdef0123456789abcdef\r\n")
		case line == "BEGIN":
			for {
				m, err := dbus.DecodeMessage(r)
				if err != nil {
					return
				}
				answer := &dbus.Message{Type: dbus.TypeMethodReply, Headers: map[dbus.HeaderField]dbus.Variant{
					dbus.FieldReplySerial: dbus.MakeVariant(m.Serial()), dbus.FieldSender: dbus.MakeVariant("org.freedesktop.DBus")}}
				switch name, _ := m.Headers[dbus.FieldMember].Value().(string); {
				case name == "Hello":
					answer.Body = []any{":1.1"}
				case name == "Read" && silent:
					continue
				case name == "Read":
					v, ok := settings[fmt.Sprint(m.Body[0], " ", m.Body[1])]
					if !ok {
						answer.Type = dbus.TypeError
						answer.Headers[dbus.FieldErrorName] = dbus.MakeVariant("org.freedesktop.portal.Error.NotFound")
						break
					}
					answer.Body = []any{dbus.MakeVariant(dbus.MakeVariant(v))}
				}
				if len(answer.Body) > 0 {
					answer.Headers[dbus.FieldSignature] = dbus.MakeVariant(dbus.SignatureOf(answer.Body...))
				}
				if answer.EncodeTo(c, binary.LittleEndian) != nil {
					return
				}
			}
		default:
			fmt.Fprint(c, "ERROR\r\n")
		}
	}
}

// The desktop's wish for less motion is read where it is published. Source: the
// documentation of org.freedesktop.portal.Settings (reduced-motion, 1 is less).
func TestTheSystemAsksForLessMotion(t *testing.T) {
	const standard, gnome, kde = "org.freedesktop.appearance reduced-motion", "org.gnome.desktop.interface enable-animations", "org.kde.kdeglobals.KDE AnimationDurationFactor"
	for name, c := range map[string]struct {
		settings map[string]any
		calm     bool
	}{
		"nothing is published": {nil, false},
		"no preference":        {map[string]any{standard: uint32(0), gnome: true}, false},
		"less":                 {map[string]any{standard: uint32(1), gnome: true}, true},
		"no animations":        {map[string]any{gnome: false}, true},
		"with animations":      {map[string]any{gnome: true, kde: "1"}, false},
		"of no length":         {map[string]any{kde: "0"}, true},
		"of another type":      {map[string]any{standard: "yes", gnome: "no"}, false},
	} {
		t.Run(name, func(t *testing.T) {
			at := desktop(t, c.settings, false)
			env := Env{Getenv: func(n string) string { return map[string]string{"DBUS_SESSION_BUS_ADDRESS": at}[n] }}
			ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
			defer cancel()
			if got := calmSystem(ctx, env); got != c.calm {
				t.Errorf("less motion: %v", got)
			}
		})
	}
}

// Without a bus, with one that is not there and with one that never answers, the
// system has not asked; the wait ends with its context.
func TestASystemThatDoesNotSay(t *testing.T) {
	for name, at := range map[string]string{"": "", "gone": "unix:path=" + filepath.Join(t.TempDir(), "none"), "silent": desktop(t, nil, true)} {
		ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
		if calmSystem(ctx, Env{Getenv: func(n string) string { return map[string]string{"DBUS_SESSION_BUS_ADDRESS": at}[n] }}) {
			t.Errorf("%q: it asks for less", name)
		}
		cancel()
	}
}
