package main

import (
	"bytes"
	"context"
	"fmt"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"golang.org/x/text/language"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/claim"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/shell"
)

// tourTime is when every tour begins, so that its pictures are the same each time.
var tourTime = time.Date(2026, time.November, 25, 9, 0, 0, 0, time.FixedZone("", 0))

// runTour walks First fill by keyboard in each language with real figures, then
// shows every page of the example tank, light and dark, and writes it all as
// pictures. It needs no display and leaves the person's own data alone.
func runTour(c *call) int {
	size := fyne.NewSize(windowWidth, windowHeight)
	if text, ok := c.value[flagSize]; ok {
		var err error
		if size, err = sizeOf(text); err != nil {
			return c.refuse("err.verb.size", i18n.Args{"Word": text})
		}
	}
	text := leastText
	if word, ok := c.value[flagText]; ok {
		var err error
		if text, err = strconv.Atoi(strings.TrimSuffix(word, "%")); err != nil || text < leastText || text > mostText {
			return c.refuse("err.verb.text", i18n.Args{"Word": word})
		}
	}
	out := "out"
	if len(c.rest) > 0 {
		out = c.rest[0]
	}
	out, err := filepath.Abs(out)
	if err != nil {
		return c.failed(err)
	}
	t := &tour{out: out, size: size, text: text, app: test.NewApp()}
	keys, asked := c.value[flagKeys]
	if asked {
		t.where, t.said, t.heard = map[string][]string{}, map[string]string{}, i18n.Listen()
	}
	for _, lang := range languagesAsked(c.options) {
		if err := t.fill(lang); err != nil {
			return c.failed(err)
		}
		for _, theme := range []look.Variant{look.Light, look.Dark} {
			if err := t.pages(lang, theme); err != nil {
				return c.failed(err)
			}
		}
	}
	if asked {
		if err := t.keepKeys(keys); err != nil {
			return c.failed(err)
		}
	}
	c.say("verb.tour.done", i18n.Args{"Count": t.count, "Folder": out})
	return exitDone
}

type tour struct {
	out   string
	size  fyne.Size
	text  int // per cent
	app   fyne.App
	count int

	look  func(w fyne.Window, name string) // instead of a picture; nil makes one
	heard func() map[string]string         // the messages said since it was last asked
	said  map[string]string                // all messages said so far, as they were last
	where map[string][]string              // by message, the pictures in which it can be read
}

// stage is a shell in a window of its own, over a data folder that goes with it.
type stage struct {
	keeper *keeper.Keeper
	window fyne.Window
	shell  *shell.Shell
	clock  *clock
	dir    string
}

// speaker words what is made beside the window as the window does.
func (s *stage) speaker() present.Presenter {
	p := s.shell.Prefs()
	return present.Presenter{Region: care.Region{Code: p.Region}, W: i18n.Speak(p.Lang, p.Region, p.Units)}
}

// The sizes of text, per cent, between which the preferences offer some.
const (
	leastText = 100
	mostText  = 150
)

// prefs are those of a person of that language, with the text size asked for.
func (t *tour) prefs(lang string, theme look.Variant) shell.Prefs {
	p := tourPrefs(lang, theme)
	p.Text = t.text
	return p
}

// tourPrefs are those of a person of that language.
func tourPrefs(lang string, theme look.Variant) shell.Prefs {
	p := shell.Prefs{Lang: lang, Region: "US", Units: quantity.US, Theme: theme, Text: 100, Still: true}
	if r, _ := language.Make(lang).Region(); lang != i18n.Pseudo && r.String() != p.Region {
		p.Region, p.Units = r.String(), quantity.Metric
	}
	return p
}

func newStage(a fyne.App, prefs shell.Prefs, size fyne.Size) (*stage, error) {
	dir, err := os.MkdirTemp("", "driploop-tour-")
	if err != nil {
		return nil, err
	}
	s := &stage{clock: &clock{tourTime}, dir: dir}
	if s.keeper, err = keeper.Open(context.Background(), dir, keeper.Options{Now: s.clock.now, Region: care.Region{Code: prefs.Region}}); err != nil {
		return nil, err
	}
	s.window = a.NewWindow(appName)
	s.window.SetPadded(false)
	s.window.Resize(size)
	s.shell = shell.New(shell.Options{App: a, Keeper: s.keeper, Prefs: prefs, Now: s.clock.now, Canvas: s.window.Canvas, Inline: true, PaperDir: dir, Files: func() *claim.Claim { return tourClaim(dir) }})
	s.window.SetContent(s.shell.Root())
	s.window.Canvas().SetOnTypedKey(s.shell.Key)
	s.window.Resize(size)
	s.shell.Settled()
	return s, nil
}

// strike takes the stage down with its data.
func (s *stage) strike() error {
	s.window.Close()
	if err := s.keeper.Close(); err != nil {
		return err
	}
	return os.RemoveAll(s.dir)
}

// fill walks First fill with the figures of somebody's own tank and writes the
// set-up record at the end.
func (t *tour) fill(lang string) error {
	s, err := newStage(t.app, t.prefs(lang, look.Light), t.size)
	if err != nil {
		return err
	}
	p := gallons()
	if s.shell.Prefs().Units != quantity.US {
		p = litres()
	}
	n := 0
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock, at: func(step care.Step, _ present.Page, filled bool) error {
		if filled {
			return nil
		}
		n++
		return t.picture(s.window, "first-fill-"+lang, fmt.Sprintf("%02d-%s", n, step))
	}}
	if err := w.walk(p); err != nil {
		return err
	}
	var b bytes.Buffer
	prefs := s.shell.Prefs()
	speaker := present.Presenter{W: i18n.Speak(prefs.Lang, prefs.Region, prefs.Units), Region: care.Region{Code: prefs.Region}}
	if err := paper.Write(context.Background(), paper.Sheet, s.keeper, s.shell.Route().Tank, speaker, paper.SizeFor(prefs.Region), &b); err != nil {
		return err
	}
	if err := t.keep(filepath.Join("first-fill-"+lang, "set-up-record.pdf"), b.Bytes()); err != nil {
		return err
	}
	return s.strike()
}

// pages shows every page of the example tank.
func (t *tour) pages(lang string, theme look.Variant) error {
	s, err := newStage(t.app, t.prefs(lang, theme), t.size)
	if err != nil {
		return err
	}
	folder := "pages-" + lang + "-light"
	if theme == look.Dark {
		folder = "pages-" + lang + "-dark"
	}
	n := 0
	shot := func(name string) error {
		n++
		return t.picture(s.window, folder, fmt.Sprintf("%02d-%s", n, name))
	}
	s.shell.Go(nav.Route{Place: nav.Start})
	if err := shot("start"); err != nil {
		return err
	}
	id, err := s.shell.Example(context.Background())
	if err != nil {
		return err
	}
	for _, step := range care.Steps() {
		s.shell.Go(nav.Route{Place: nav.FirstFill, Tank: id, Step: step})
		if err := shot(string(step)); err != nil {
			return err
		}
	}
	s.shell.Go(nav.Route{Place: nav.Today, Tank: id})
	if err := shot("today"); err != nil {
		return err
	}
	if err := t.rounds(s, id, shot); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Daybook, Tank: id})
	if err := shot("daybook"); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Charts, Tank: id})
	if err := shot("charts"); err != nil {
		return err
	}
	if err := t.events(s, id, shot); err != nil {
		return err
	}
	s.shell.Go(nav.Route{Place: nav.Daybook, Tank: id})
	if err := t.forms(s, id, shot); err != nil {
		return err
	}
	if err := t.pictures(s, id, shot); err != nil {
		return err
	}
	if err := t.sick(s, id, shot); err != nil {
		return err
	}
	if err := t.visit(s, id, shot); err != nil {
		return err
	}
	if err := t.fish(s, id, shot); err != nil {
		return err
	}
	if err := t.plan(s, id, shot); err != nil {
		return err
	}
	for _, page := range []struct {
		name string
		nav.Route
	}{{"kinds", nav.Route{Place: nav.Kinds, Tank: id}}, {"kind", nav.Route{Place: nav.Kinds, Tank: id, Species: "trichogaster-chuna"}},
		{"kind-refused", nav.Route{Place: nav.Kinds, Tank: id, Species: "hypostomus-plecostomus"}}, {"together", nav.Route{Place: nav.Together, Tank: id}}} {
		s.shell.Go(page.Route)
		if err := shot(page.name); err != nil {
			return err
		}
	}
	if err := t.home(s, id, shot); err != nil {
		return err
	}
	if err := t.counter(s, id, shot); err != nil {
		return err
	}
	table := filepath.Join(s.dir, "tests.csv")
	if err := os.WriteFile(table, []byte(tourTable), 0o600); err != nil {
		return err
	}
	if _, err := s.keeper.Snapshot(context.Background()); err != nil {
		return err
	}
	for _, panel := range []struct {
		name string
		show func()
	}{{"settings", s.shell.ShowSettings}, {"safety", s.shell.ShowSafety}, {"sources", s.shell.ShowSources}, {"archive", s.shell.ShowArchive}, {"copies", s.shell.ShowCopies}, {"table", func() { s.shell.TakeFile(table) }}} {
		panel.show()
		if err := shot(panel.name); err != nil {
			return err
		}
		if f := s.window.Canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
	}
	return s.strike()
}

// events shows a chart with events that stand too close to be told apart, of one kind
// and of several, and takes them back.
func (t *tour) events(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	today, n := s.clock.t, 0
	for _, x := range []struct {
		kind journal.Kind
		back []int // days before today
	}{{journal.Changed, []int{60, 59, 58, 57, 30, 29, 1}}, {journal.Dosed, []int{30, 28, 2, 0}}, {journal.PowerCut, []int{0}}} {
		for _, d := range x.back {
			if _, err := s.keeper.AddEntry(ctx, tank, journal.Entry{Kind: x.kind, At: journal.CivilOf(today.AddDate(0, 0, -d))}); err != nil {
				return err
			}
			n++
		}
	}
	s.shell.Go(nav.Route{Place: nav.Charts, Tank: tank})
	if err := shot("charts-events"); err != nil {
		return err
	}
	for range n {
		if _, _, err := s.keeper.Undo(ctx, tank); err != nil {
			return err
		}
	}
	return nil
}

// forms shows the forms of the daybook: a feed, a test while it is typed with a kit
// of the person's own, the water change that it asks for, the kits, the bin.
func (t *tour) forms(s *stage, tank string, shot func(string) error) error {
	ctx := context.Background()
	w := &walker{shell: s.shell, canvas: s.window.Canvas(), clock: s.clock}
	name := s.speaker().W.T("example.kit", nil)
	for _, reading := range []string{journal.NameAmmonia, journal.NameNitrite} {
		if _, err := s.keeper.AddKit(ctx, journal.TestKit{Name: name, Reading: reading, Unit: "mg/l", Basis: quantity.AsIon, Resolution: "0.25",
			Steps: []string{"0", "0.25", "0.5", "1", "2", "4"}}); err != nil {
			return err
		}
	}
	if _, err := s.keeper.AddEntry(ctx, tank, journal.Entry{Kind: journal.TapTested, Readings: []journal.Reading{
		{Name: journal.NameNitrite, Measure: quantity.Measure{Unit: "mg/l", Basis: quantity.AsIon}, Qualifier: journal.NotDetected},
		{Name: journal.NameNitrate, Measure: quantity.Measure{Number: "10", Unit: "mg/l", Basis: quantity.AsIon}}}}); err != nil {
		return err
	}
	s.shell.Page().Refresh()
	for _, do := range []struct {
		id     string // pressed, or typed into where there is a text
		text   string
		option string
		show   string
	}{{id: "feed"}, {id: "more-fields", show: "form-fed"}, {id: "cancel"},
		{id: "test"}, {id: "card-" + journal.NameAmmonia, option: string(journal.NotDetected)}, {id: journal.NameNitrite, text: "2", show: "form-test"},
		{id: "plan-change", show: "change-helper"}, {id: "take-over", show: "form-change"}, {id: "cancel"},
		{id: "kits", show: "kits"}, {id: "add-kit", show: "form-kit"}, {id: "cancel"}, {id: "close"}, {id: "bin", show: "bin"}, {id: "close"}} {
		var err error
		if do.text != "" || do.option != "" {
			err = w.give(answer{field: care.FieldID(do.id), text: do.text, option: do.option})
		} else {
			err = w.press(do.id, fyne.KeyReturn)
		}
		if err == nil && do.show != "" {
			err = shot(do.show)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// picture writes what the window shows.
func (t *tour) picture(w fyne.Window, folder, name string) error {
	if t.heard != nil {
		shown := spaced(textIn(w.Content()))
		for _, o := range w.Canvas().Overlays().List() {
			shown += " " + spaced(textIn(o))
		}
		maps.Copy(t.said, t.heard())
		for key, text := range t.said { // said for this page or kept from one before
			if text = spaced(text); text != "" && len(t.where[key]) < keyPictures && strings.Contains(shown, text) {
				t.where[key] = append(t.where[key], folder+"/"+name+".png")
			}
		}
	}
	if t.look != nil {
		t.look(w, folder+"/"+name)
		return nil
	}
	var b bytes.Buffer
	if err := png.Encode(&b, w.Canvas().Capture()); err != nil {
		return err
	}
	return t.keep(filepath.Join(folder, name+".png"), b.Bytes())
}

func (t *tour) keep(name string, data []byte) error {
	path := filepath.Join(t.out, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	t.count++
	return durable.WriteFile(path, data, 0o644)
}

// spaced is a text with single spaces, as it compares with one that was wrapped.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// keyPictures is how many pictures are named for a message. Judgement.
const keyPictures = 3

// keepKeys writes for each message of the program the pictures in which it can be
// seen, with tabs between, for a translator to look at; none where the tour does
// not come by it.
func (t *tour) keepKeys(path string) error {
	var b strings.Builder
	for _, key := range i18n.Keys() {
		b.WriteString(key + "\t" + strings.Join(t.where[key], "\t") + "\n")
	}
	return durable.WriteFile(path, []byte(b.String()), 0o644)
}

// tourTable is a table as somebody may have kept it in a spreadsheet.
const tourTable = "Date;Temp °C;NO2 (mg/l);NO3 (mg/l);pH;Note\n03/04/2026;24,5;0,25;10;7,4;clear\n10/04/2026;25;<0,05;20;7,2;\n11/04/2026;250;;;;a slip of the hand\n"
