//go:build !windows && !darwin

package shell_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/claim"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// The settings have the system open our files, say what they write, and take it back
// at the same place by one key; a tool of the desktop that is missing is named.
func TestDoubleClickInTheSettings(t *testing.T) {
	t.Setenv("PATH", t.TempDir()) // the desktop's tools are tried with the window
	data := t.TempDir()
	files := &claim.Claim{ID: "org.example.Tank", Name: "Tank", About: map[string]string{"en": "x"}, Program: []string{"/opt/tank"}, Icon: []byte("png"), Data: data,
		Kinds: []claim.Kind{{Ending: ".tk", Type: "application/vnd.example.tank+zip", Code: "tank", Names: map[string]string{"en": "Tank"}}}}
	asked := 0
	s := openIn(t, t.TempDir(), shell.Options{Prefs: english(), Files: func() *claim.Claim { asked++; return files }})
	if asked != 0 { // every language would be read while a person waits for the window
		t.Error("asked before anybody sees it")
	}
	s.ShowSettings()
	words := i18n.Speak("en", "US", quantity.US)
	entry := filepath.Join(data, "applications", "org.example.Tank.Files.desktop")
	says := func(want string) {
		t.Helper()
		if got := s.Words(); !strings.Contains(got, want) {
			t.Errorf("the settings do not say %q:\n%s", want, got)
		}
	}
	says(words.T("page.files.not", nil))
	says(entry)
	s.hit(t, "files-open", fyne.KeyReturn)
	says(words.T("page.files.made", nil))
	says("update-mime-database")
	if got := parts.IDOf(s.w.Canvas().Focused()); got != "files-leave" {
		t.Errorf("the focus is at %q", got)
	}
	if _, err := os.Stat(entry); err != nil {
		t.Error(err)
	}
	s.hit(t, "files-leave", fyne.KeyReturn)
	says(words.T("page.files.not", nil))
	if _, err := os.Stat(entry); !os.IsNotExist(err) {
		t.Errorf("the entry is left: %v", err)
	}
}
