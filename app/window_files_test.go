//go:build e2e && linux

package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/nav"
)

// The files that people hand to each other are opened by a double click once the
// settings say so, in the window that is open or in a new one, and no more once they
// say that. What the desktop makes of it is told by its own tools: of desktop-file-utils,
// shared-mime-info, xdg-utils and GLib.
func TestWindowDoubleClick(t *testing.T) {
	s := newScreen(t)
	dir, shop, files := filepath.Join(openTemp(t), "data"), filepath.Join(openTemp(t), "shop"), openTemp(t)
	of := map[string]string{}
	for _, k := range slip.FileKinds() {
		of[k.Format] = filepath.Join(files, "from a shop's"+k.Ending)
	}
	k := keep(t, shop)
	id, err := k.StartProfile(context.Background(), "From a shop", quantity.Metric)
	if err == nil {
		_, err = k.HandOutFile(context.Background(), id, of[slip.FormatProfile], "")
	}
	if err = errors.Join(err, k.Close()); err != nil {
		t.Fatal(err)
	}
	s.must(s.binary, "demo", flagData, shop)
	s.must(s.binary, "slip", "make", "visit", of[slip.FormatVisit], flagData, shop)
	s.must(s.binary, "archive", of[slip.FormatArchive], flagData, shop)
	words := i18n.Speak("en", "US", quantity.US)

	first := s.launch(flagData, dir, flagLang, "en")
	first.until("the first page", at(nav.Start, ""))
	first.keys("ctrl+comma")
	first.to("files-open")
	first.keys("Return")
	first.until("it is taken up", func(m shown) bool {
		return m.top().focused().ID == "files-leave" && strings.Contains(m.top().all(), words.T("page.files.made", nil))
	})
	lookAt(first.turned(nil)).written(t)
	first.keys("Escape")
	first.until("the first page", at(nav.Start, ""))
	if out := s.must(s.binary, "files", flagData, dir); !strings.Contains(out, words.T("page.files.made", nil)) {
		t.Errorf("the verb says %s", out)
	}
	entry := filepath.Join(s.home, "applications", "org.driploop.Driploop.Files.desktop")
	if out := s.must("desktop-file-validate", entry); out != "" {
		t.Error(out)
	}
	for _, k := range slip.FileKinds() {
		if k.Format == slip.FormatReply {
			if err := os.WriteFile(of[k.Format], []byte("PK"), 0o600); err != nil { // its name alone tells
				t.Fatal(err)
			}
		}
		if out := s.must("gio", "info", "-a", "standard::content-type", of[k.Format]); !strings.HasSuffix(out, " "+k.Media) {
			t.Errorf("%s is of type %s", k.Format, out)
		}
		if out := s.must("xdg-mime", "query", "default", k.Media); out != filepath.Base(entry) {
			t.Errorf("%s is opened by %q", k.Media, out)
		}
	}
	plain := filepath.Join(files, "without its ending")
	if err := os.Link(of[slip.FormatProfile], plain); err != nil {
		t.Fatal(err)
	}
	if out := s.must("gio", "info", "-a", "standard::content-type", plain); !strings.Contains(out, "driploop.profile") {
		t.Errorf("by how it begins, a profile is of type %s", out)
	}

	offered := func(m shown) bool {
		return m.top().focused().ID == "take" && strings.Contains(m.top().all(), "From a shop")
	}
	s.must("gio", "open", of[slip.FormatProfile])
	first.until("the profile is offered", offered)
	first.keys("Escape")
	first.until("the first page", at(nav.Start, ""))
	s.must("env", "XDG_CURRENT_DESKTOP=GNOME", "xdg-open", of[slip.FormatVisit]) // where there is no desktop it asks file(1) alone
	first.until("the visit slip is shown", func(m shown) bool { return m.top().focused().ID == "close" && m.top().part("answer").ID != "" })
	first.keys("Escape")
	first.until("the first page", at(nav.Start, ""))
	first.close()

	s.begin(exec.Command("gio", "open", of[slip.FormatProfile])) // and no window is open now
	// The display may still name the window that was closed, by the same number.
	other := ""
	eventually(t, func() string {
		active, pid := s.active()
		if active == "" || pid == first.cmd.Process.Pid {
			return "no window has come"
		}
		other = active
		return ""
	})
	eventually(t, func() string {
		if active, _ := s.active(); active == other {
			s.must("xdotool", "key", "Escape", "ctrl+q") // again where they came before the offer of the profile
			return "the window is open"
		}
		if out, err := s.x(s.binary, "check", flagData, dir); err != nil || !strings.Contains(out, "in order") {
			return out
		}
		return ""
	})

	s.must(s.binary, "files", "leave", flagData, dir)
	for _, k := range slip.FileKinds() {
		if out := s.must("xdg-mime", "query", "default", k.Media); out != "" {
			t.Errorf("%s is still opened by %q", k.Media, out)
		}
		if out := s.must("gio", "info", "-a", "standard::content-type", of[k.Format]); strings.Contains(out, "vnd.driploop") {
			t.Errorf("%s is still of type %s", k.Format, out)
		}
	}
	for _, folder := range []string{"applications", "mime/packages", "icons/hicolor/128x128/apps"} {
		if found, err := filepath.Glob(filepath.Join(s.home, folder, "*driploop*")); err != nil || len(found) > 0 {
			t.Errorf("%q is left", found)
		}
	}
}
