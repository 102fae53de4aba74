//go:build e2e && linux

package main

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"maps"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
)

// at holds for a place, and for a step of First fill unless that is empty.
func at(place nav.Place, step care.Step) func(shown) bool {
	return func(m shown) bool {
		return m.Place == string(place) && (step == "" || m.Step == string(step)) && m.top().Focus >= 0
	}
}

// begin starts a tank from the first page with Enter.
func (p *program) begin() {
	p.t.Helper()
	p.until("the first page", func(m shown) bool { return m.Place == string(nav.Start) && m.top().focused().ID == "begin" })
	p.keys("Return")
	p.until("the first step", at(nav.FirstFill, care.TankPlace))
}

// barOf is the text of the bar at the top, which follows the record: the tank's
// name and its volume.
func barOf(m shown) string {
	for _, x := range m.top().Parts {
		if strings.HasSuffix(x.Type, "navItem") {
			return x.Text
		}
	}
	return ""
}

// length types the tank's length and waits until it is kept.
func (p *program) length(text string) (before, after string) {
	p.t.Helper()
	p.to("tank.length")
	before = barOf(p.see())
	p.write(text)
	p.keys("Tab")
	m := p.until("the length is kept", func(m shown) bool { return barOf(m) != before && m.top().focused().ID == "tank.width" })
	return before, barOf(m)
}

// keep opens the data folder as the program does.
func keep(t testing.TB, dir string) *keeper.Keeper {
	t.Helper()
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// recordOf is the record of the only tank.
func recordOf(t testing.TB, dir string) care.Record {
	t.Helper()
	k := keep(t, dir)
	defer k.Close()
	tanks, err := k.Tanks(context.Background())
	if err != nil || len(tanks) != 1 {
		t.Fatalf("%d tanks (%v), want one", len(tanks), err)
	}
	r, err := k.Record(context.Background(), tanks[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// sound wants the check to find a sound folder with one tank.
func (s *screen) sound(dir string) {
	s.t.Helper()
	var got checked
	out := s.must(s.binary, "check", flagJSON, flagData, dir)
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		s.t.Fatalf("check: %v: %s", err, out)
	}
	if !got.Sound || got.Rows["tank"] != 1 || got.ReadOnly != "" {
		s.t.Errorf("check: %s", out)
	}
}

func TestWindowFirstStart(t *testing.T) {
	for _, c := range []struct {
		lang  string
		units quantity.System
	}{{"en", quantity.US}, {"en", quantity.Metric}, {"es", quantity.US}, {"es", quantity.Metric}} {
		t.Run(c.lang+" "+string(c.units), func(t *testing.T) {
			s := newScreen(t)
			words := i18n.Speak(c.lang, "US", c.units)
			dir := filepath.Join(openTemp(t), "new", "data")
			p := s.launch(flagData, dir, flagLang, c.lang, flagUnits, string(c.units))
			m := p.until("the first page", at(nav.Start, ""))
			if got, want := m.top().part("begin").Text, words.T("page.start.begin", nil); got != want {
				t.Errorf("the first page says %q, want %q", got, want)
			}
			first := p.turned(nil)
			p.begin()
			p.length("24 in")
			for _, tick := range []string{"place.sun", "place.radiator", "place.door"} {
				p.to(tick)
				p.keys("space")
			}
			p.to("carry-on")
			if got, want := p.see().top().focused().Text, words.T("carry.tank_place", nil); got != want {
				t.Errorf("the button says %q, want %q", got, want)
			}
			p.keys("Return")
			p.until("the kit list", at(nav.FirstFill, care.KitList))
			for _, img := range []looked{lookAt(first), lookAt(p.turned(first))} {
				img.written(t)
			}
			p.close()

			s.sound(dir)
			r := recordOf(t, dir)
			if l := r.Answers["tank.length"].Measure; l.Number != "24" || l.Unit != "in" {
				t.Errorf("the store holds %q %s, want 24 in", l.Number, l.Unit)
			}
			if got := r.Answers["place.sun"].Choice; got != care.Ticked {
				t.Errorf("the tick is kept as %q", got)
			}
			if r.System != c.units {
				t.Errorf("the tank is in %s, want %s", r.System, c.units)
			}

			p = s.launch(flagData, dir, flagLang, c.lang, flagUnits, string(c.units))
			m = p.until("where one left off", at(nav.FirstFill, care.KitList))
			if got, want := m.top().part("carry-on").Text, words.T("carry.kit_list", nil); got != want {
				t.Errorf("the button says %q, want %q", got, want)
			}
			p.close()
		})
	}
}

// Killed in the middle of typing, the program has what was given before.
func TestWindowKill(t *testing.T) {
	s := newScreen(t)
	dir := filepath.Join(openTemp(t), "data")
	p := s.launch(flagData, dir, flagUnits, string(quantity.US))
	p.begin()
	_, kept := p.length("24 in")
	p.write("1")
	p.until("half a width is typed", func(m shown) bool { return strings.HasPrefix(m.top().part("tank.width").Text, "1 ") })
	p.kill()

	p = s.launch(flagData, dir, flagUnits, string(quantity.US))
	m := p.until("the page that was open", at(nav.FirstFill, care.TankPlace))
	if got := m.top().part("tank.length").Text; got != "24 in" {
		t.Errorf("the length shown is %q, want 24 in", got)
	}
	if got := barOf(m); got != kept {
		t.Errorf("the bar says %q, want %q", got, kept)
	}
	p.close()
	s.sound(dir)
	r := recordOf(t, dir)
	if l := r.Answers["tank.length"].Measure; l.Number != "24" || l.Unit != "in" {
		t.Errorf("the store holds %q %s, want 24 in", l.Number, l.Unit)
	}
	if w := r.Answers["tank.width"].Measure; w.Number == "1" {
		t.Errorf("half a width was kept: %+v", w)
	}
}

// What is half typed when the window is closed is taken.
func TestWindowCloseWhileTyping(t *testing.T) {
	for _, way := range []string{"alt+F4", "ctrl+q"} {
		t.Run(way, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			p := s.launch(flagData, dir, flagUnits, string(quantity.US))
			p.begin()
			p.to("tank.length")
			p.write("23 in")
			p.until("a length is typed", func(m shown) bool { return strings.HasPrefix(m.top().part("tank.length").Text, "23 in") })
			p.keys(way)
			p.ends(exitDone)
			p.quiet()
			if l := recordOf(t, dir).Answers["tank.length"].Measure; l.Number != "23" || l.Unit != "in" {
				t.Errorf("the store holds %q %s, want 23 in", l.Number, l.Unit)
			}
		})
	}
}

// windowLanguages are those in which the real window is played through; every page in
// every language is laid out and looked over without one, in screens/shell.
var windowLanguages = []string{"en", "es"}

// A second program on the same folder brings the first forward, passes on the file
// it was called with, and is done.
func TestWindowTwo(t *testing.T) {
	for _, lang := range windowLanguages {
		t.Run(lang, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			first := s.launch(flagData, dir, flagLang, lang)
			first.until("the first page", at(nav.Start, ""))
			first.begin()
			first.length("24 in")
			over := s.launch(flagData, filepath.Join(openTemp(t), "other"), flagLang, lang)
			profile := filepath.Join(openTemp(t), "a shop's.dlprofile")
			k := keep(t, filepath.Join(openTemp(t), "shop"))
			id, err := k.StartProfile(context.Background(), "From a shop", quantity.Metric)
			if err == nil {
				_, err = k.HandOutFile(context.Background(), id, profile, "")
			}
			if err = errors.Join(err, k.Close()); err != nil {
				t.Fatal(err)
			}
			second := s.start(nil, flagData, dir, flagLang, lang, profile)
			second.ends(exitDone)
			if got, want := second.said(), i18n.Speak(lang, "US", quantity.US).T("verb.forward", nil); !strings.Contains(got, want) {
				t.Errorf("the second says %q, want %q", got, want)
			}
			first.front(over.window)
			first.until("the profile is offered", func(m shown) bool {
				return m.top().focused().ID == "take" && strings.Contains(m.top().all(), "From a shop")
			})
			first.keys("Escape")
			over.kill()
			first.close()
			s.sound(dir)
		})
	}
}

// trouble wants the window that tells of a trouble in front, and the same
// sentence where errors go.
func (p *program) trouble(lang, part string) {
	p.t.Helper()
	words := i18n.Speak(lang, "US", quantity.US)
	m := p.until("the trouble is told", func(m shown) bool { return m.top().focused().ID == "close" })
	if got, want := m.top().focused().Text, words.T("label.close", nil); got != want {
		p.t.Errorf("the button says %q, want %q", got, want)
	}
	if got := m.top().all(); !strings.Contains(got, part) {
		p.t.Errorf("the window says %q, want %q in it", got, part)
	}
	p.window = p.front("")
	lookAt(p.turned(nil)).written(p.t)
}

func TestWindowLanguage(t *testing.T) {
	s := newScreen(t)
	dir := filepath.Join(openTemp(t), "data")
	p := s.launch(flagData, dir)
	en, es := i18n.Speak("en", "US", quantity.US), i18n.Speak("es", "US", quantity.US)
	says := func(id string, w *i18n.Words, key string) func(shown) bool {
		return func(m shown) bool { return m.top().part(id).Text == w.T(working.Key(key), nil) }
	}
	p.until("English", says("begin", en, "page.start.begin"))
	p.keys("ctrl+comma")
	p.until("the settings", func(m shown) bool { return m.top().focused().ID == "language" })
	p.keys("space")
	p.until("the list is open", func(m shown) bool { return m.top().part("language").ID == "" })
	var down []string // the list has every language, in the order of their codes
	for range slices.Index(i18n.Languages(), "es") {
		down = append(down, "Down")
	}
	p.keys(append(down, "Return")...)
	p.until("the settings in Spanish", says("close", es, "label.close"))
	p.keys("Escape")
	p.until("the page in Spanish", says("begin", es, "page.start.begin"))

	p.keys("ctrl+o") // the toolkit's own dialog, in the toolkit's own words
	m := p.until("the file dialog", func(m shown) bool { return !strings.Contains(m.top().all(), es.T("page.start.heading", nil)) })
	if got := m.top().all(); !strings.Contains(got, "Cancelar") || strings.Contains(got, "Cancel ") {
		t.Errorf("the file dialog says %q", got)
	}
	for i, x := range m.top().Parts {
		if x.Text == "Cancelar" {
			p.click(x)
			break
		}
		if i == len(m.top().Parts)-1 {
			t.Error("the file dialog has no button Cancelar")
		}
	}
	p.until("the page again", says("begin", es, "page.start.begin"))
	p.close()

	p = s.launch(flagData, dir)
	p.until("Spanish kept", says("begin", es, "page.start.begin"))
	p.close()
}

func TestWindowShortcuts(t *testing.T) {
	s := newScreen(t)
	p := s.launch(flagData, filepath.Join(openTemp(t), "data"), flagUnits, string(quantity.US))
	p.begin()
	before, after := p.length("24 in")
	if !strings.HasSuffix(p.see().top().focused().Type, "boxed") {
		t.Fatal("the focus is in no box")
	}
	p.keys("ctrl+z")
	p.until("the length is undone", func(m shown) bool { return barOf(m) == before && m.top().part("tank.length").Text == "20 in" })
	p.keys("ctrl+y")
	p.until("and done again", func(m shown) bool { return barOf(m) == after && m.top().part("tank.length").Text == "24 in" })

	p.keys("ctrl+h")
	safety := i18n.Speak("en", "US", quantity.US).T("menu.safety", nil)
	p.until("the safety notes", func(m shown) bool { return strings.Contains(m.top().all(), safety) && m.top().focused().ID == "close" })
	p.keys("Escape")
	p.until("the page again", func(m shown) bool { return m.top().part("carry-on").ID != "" && m.top().Focus >= 0 })
	p.keys("ctrl+q")
	p.ends(exitDone)
	p.quiet()
}

func TestWindowErrors(t *testing.T) {
	for _, c := range []struct {
		name, lang, part string
		make             func(t *testing.T, dir string)
	}{
		{"not ours", "en", "was not made by this program", func(t *testing.T, dir string) {
			put(t, filepath.Join(dir, "driploop.db"), strings.Repeat("not a daybook ", 40))
		}},
		{"not a folder", "es", "no una carpeta", func(t *testing.T, dir string) { put(t, dir, "a file") }},
		{"locked", "en", "already open", func(t *testing.T, dir string) {
			k := keep(t, dir)
			t.Cleanup(func() { _ = k.Close() })
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			c.make(t, dir)
			before := contents(t, dir)
			p := s.launch(flagData, dir, flagLang, c.lang)
			p.trouble(c.lang, c.part)
			p.keys("Escape")
			p.ends(exitNoData)
			if !strings.Contains(p.said(), c.part) {
				t.Errorf("the program wrote %q, want %q in it", p.said(), c.part)
			}
			if after := contents(t, dir); !maps.Equal(before, after) {
				t.Errorf("the folder was changed: %d files before, %d after", len(before), len(after))
			}
		})
	}
}

// A folder that may not be written opens for reading; the banner above the page
// says so and nothing in the folder changes.
func TestWindowNotWritable(t *testing.T) {
	s := newScreen(t)
	dir := filepath.Join(openTemp(t), "data")
	s.must(s.binary, "demo", flagData, dir, flagLang, "es")
	if err := filepath.WalkDir(dir, func(at string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return os.Chmod(at, 0o555)
		}
		return os.Chmod(at, 0o444)
	}); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	before := contents(t, dir)
	p := s.launchAs(s.mayNot(true), flagData, dir, flagLang, "es")
	said := i18n.Speak("es", "", quantity.Metric).T("menu.read_only_folder", nil)
	p.until("the page, and why it is for reading", func(m shown) bool {
		return m.Place == string(nav.Today) && m.top().Focus >= 0 && strings.Contains(m.top().all(), said)
	})
	p.keys("ctrl+q")
	p.ends(exitDone)
	if after := contents(t, dir); !maps.Equal(before, after) {
		t.Errorf("the folder was changed: %d files before, %d after", len(before), len(after))
	}
}

// A folder of a later version opens for reading, and a window says so first.
func TestWindowNewer(t *testing.T) {
	s := newScreen(t)
	dir := filepath.Join(openTemp(t), "data")
	s.must(s.binary, "demo", flagData, dir, flagLang, "en")
	runStatement(t, filepath.Join(dir, "driploop.db"), "PRAGMA user_version=999")
	before := contents(t, dir)
	p := s.launch(flagData, dir, flagLang, "en")
	p.until("both windows", func(m shown) bool { return len(m.Windows) == 2 && m.Place == string(nav.Today) })
	p.trouble("en", "later version")
	told := p.window
	p.keys("Escape")
	p.until("the page alone", func(m shown) bool { return len(m.Windows) == 1 && m.top().Focus >= 0 })
	p.window = p.front(told)
	p.close()
	after := contents(t, dir)
	for name := range after {
		// Reading a database with a log leaves an empty log and its index.
		if strings.HasSuffix(name, "-shm") || strings.HasSuffix(name, "-wal") && after[name] == "" {
			delete(after, name)
		}
	}
	if !maps.Equal(before, after) {
		t.Errorf("the folder was changed: %d files before, %d after", len(before), len(after))
	}
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// runStatement changes a database behind the program's back.
func runStatement(t *testing.T, file, statement string) {
	t.Helper()
	u := url.URL{Scheme: "file", Path: file, RawQuery: "mode=rw"}
	db, err := sql.Open("sqlite3", u.String())
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(statement); err != nil {
		t.Fatal(err)
	}
}

// nobody is the account without rights on a Linux system.
const nobody = 65534

// mayNot gives an account that cannot write what is shut to writing. That is
// whoever runs the test, unless it is root, who can write anything.
func (s *screen) mayNot(other bool) *syscall.Credential {
	s.t.Helper()
	if !other || os.Geteuid() != 0 {
		return nil
	}
	raw, err := os.ReadFile(s.binary)
	if err != nil {
		s.t.Fatal(err)
	}
	s.binary = filepath.Join(openTemp(s.t), "driploop")
	if err := os.WriteFile(s.binary, raw, 0o755); err != nil {
		s.t.Fatal(err)
	}
	if err := os.Chmod(s.home, 0o777); err != nil {
		s.t.Fatal(err)
	}
	return &syscall.Credential{Uid: nobody, Gid: nobody}
}
