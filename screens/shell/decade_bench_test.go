package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// The daybook that the benchmarks read: ten years of a keeper who writes fourteen
// entries a day.
const (
	benchEntries  = 50_000
	benchPictures = 10_000
	benchTests    = 25 // of so many entries one is a water test
)

var benchNow = time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)

// seed writes that daybook into a folder, in changes of a thousand entries.
func seed(b *testing.B, dir string) (tank string) {
	b.Helper()
	ctx := context.Background()
	st, err := store.Open(ctx, dir, store.Options{Now: func() time.Time { return benchNow }})
	if err != nil {
		b.Fatal(err)
	}
	defer st.Close()
	r := rand.New(rand.NewPCG(1, 2))
	tank = "tank-1"
	stamp := benchNow.Format(time.RFC3339)
	ops := []store.Op{{Table: "tank", After: store.Row{"id": tank, "name": "Hall", "origin": "own", "created": stamp}},
		{Table: "answer", After: store.Row{"tank": tank, "field": "tank.system", "kind": "choice", "text": "metric", "origin": "person", "at": stamp}}}
	flush := func() {
		if len(ops) == 0 {
			return
		}
		if err := st.Apply(ctx, store.Change{Tank: tank, Label: "undo.entry_add", Values: map[string]string{"Kind": "note"}, At: stamp, Ops: ops, Silent: true}); err != nil {
			b.Fatal(err)
		}
		ops = nil
	}
	words := []string{"flakes", "left", "over", "clear", "glass", "plants", "trimmed", "shrimp", "behind", "the", "heater", "guppy", "ángel", "calefactor", "quiet", "filter", "rinsed", "slow", "surface", "evening"}
	note := func() string {
		s := ""
		for range 3 + r.IntN(12) {
			s += words[r.IntN(len(words))] + " "
		}
		if r.IntN(500) == 0 {
			s += "columnaris"
		}
		return s
	}
	for i := range benchEntries {
		at := benchNow.Add(-time.Duration(benchEntries-i) * 100 * time.Minute).Format("2006-01-02T15:04")
		id := fmt.Sprintf("%08x-0000-7000-8000-%012x", i, r.Uint64()&0xffffffffffff)
		kind, values := "fed", [][4]string{{"feed", fmt.Sprintf("0.%d", 1+r.IntN(8)), "g", ""}}
		switch {
		case i%benchTests == 0:
			kind = "tested"
			values = [][4]string{{"ammonia", fmt.Sprintf("0.%d", r.IntN(5)+1), "mg/l", "n"}, {"nitrite", fmt.Sprintf("0.%d", r.IntN(9)+1), "mg/l", "ion"}, {"nitrate", fmt.Sprint(10 + r.IntN(50)), "mg/l", "ion"}, {"ph", fmt.Sprintf("7.%d", r.IntN(9)), "ph", ""}}
		case i%4 == 1:
			kind, values = "temperature", [][4]string{{"temperature", fmt.Sprintf("%d.%d", 24+r.IntN(2), r.IntN(9)), "degc", ""}}
		case i%90 == 2:
			kind, values = "changed", [][4]string{{"volume", fmt.Sprint(8 + r.IntN(6)), "l", ""}}
		}
		ops = append(ops, store.Op{Table: "entry", After: store.Row{"id": id, "tank": tank, "kind": kind, "at": at, "zone": "+01:00", "note": note()}})
		for _, v := range values {
			row := store.Row{"entry": id, "name": v[0], "text": v[1], "unit": v[2], "qualifier": ""}
			if v[3] != "" {
				row["basis"] = v[3]
			}
			ops = append(ops, store.Op{Table: "entry_value", After: row})
		}
		if i%(benchEntries/benchPictures) == 0 {
			ops = append(ops, store.Op{Table: "photo", After: store.Row{"id": "p" + id, "tank": tank, "entry": id, "hash": hashOf(i), "format": "jpeg", "bytes": int64(1000), "width": int64(800), "height": int64(600),
				"orientation": int64(1), "turned": int64(0), "taken": at, "zone": "+01:00", "taken_from": "exif", "name": "a.jpg", "added": stamp}})
		}
		if i%1000 == 999 {
			flush()
		}
	}
	flush()
	var small bytes.Buffer
	if err := jpeg.Encode(&small, image.NewRGBA(image.Rect(0, 0, 512, 384)), nil); err != nil {
		b.Fatal(err)
	}
	for i := range differing {
		if err := st.PutThumb(ctx, store.Thumb{Hash: hashOf(i * (benchEntries / benchPictures)), Side: photo.ThumbSide, Width: 512, Height: 384, JPEG: small.Bytes()}); err != nil {
			b.Fatal(err)
		}
	}
	return tank
}

// differing is how many pictures differ; the rest are the same again.
const differing = 200

func hashOf(i int) string {
	return fmt.Sprintf("%064x", i/(benchEntries/benchPictures)%differing+1)
}

// askedOutside runs a query through the engine's own command line, as often as asked,
// and gives the quickest time, start of the program included.
func askedOutside(b *testing.B, dir, query string) time.Duration {
	b.Helper()
	cli, err := exec.LookPath("sqlite3")
	if err != nil {
		b.Fatal("sqlite3 is needed beside the benchmark: ", err)
	}
	best := time.Hour
	for range 5 {
		c := exec.Command(cli, "-readonly", filepath.Join(dir, "driploop.db"), query)
		c.Stdout = nil
		start := time.Now()
		if err := c.Run(); err != nil {
			b.Fatal(err)
		}
		best = min(best, time.Since(start))
	}
	return best
}

func openBench(b *testing.B, dir string) *keeper.Keeper {
	b.Helper()
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: func() time.Time { return benchNow }})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

// report gives milliseconds of ours and of the reference, and their ratio.
func report(b *testing.B, ours, reference time.Duration) {
	b.ReportMetric(float64(ours.Microseconds())/1000, "ours-ms")
	b.ReportMetric(float64(reference.Microseconds())/1000, "reference-ms")
	b.ReportMetric(float64(ours)/float64(reference), "ratio")
}

// quickest gives the least time of some runs, which other work on the machine
// disturbs least.
func quickest(b *testing.B, run func()) time.Duration {
	best := time.Hour
	for b.Loop() {
		start := time.Now()
		run()
		best = min(best, time.Since(start))
	}
	return best
}

// BenchmarkDecade is a daybook of 50 000 entries and 10 000 pictures. Its
// references are the same question put to the engine's own command line, or for
// a frame the toolkit's own list with as many rows of one line.
func BenchmarkDecade(b *testing.B) {
	dir := b.TempDir()
	tank := seed(b, dir)
	ctx := context.Background()
	const readAll = "SELECT * FROM entry WHERE deleted IS NULL ORDER BY id; SELECT * FROM entry_value ORDER BY entry, name; SELECT id, entry, hash FROM photo WHERE deleted IS NULL ORDER BY taken"

	b.Run("open", func(b *testing.B) {
		ref := askedOutside(b, dir, readAll)
		report(b, quickest(b, func() {
			k := openBench(b, dir)
			if _, err := k.Today(ctx, tank); err != nil {
				b.Fatal(err)
			}
			if _, err := k.Ledger(ctx, tank, keeper.LedgerFilter{}); err != nil {
				b.Fatal(err)
			}
			_ = k.Close()
		}), ref)
	})
	b.Run("memory", func(b *testing.B) { // of the journal as it is held, beside what the bare texts take on the disk
		var before, after runtime.MemStats
		for b.Loop() {
			x := openBench(b, dir)
			runtime.GC()
			runtime.ReadMemStats(&before)
			if _, err := x.Ledger(ctx, tank, keeper.LedgerFilter{}); err != nil {
				b.Fatal(err)
			}
			peak := before.HeapAlloc
			runtime.ReadMemStats(&after)
			peak = max(peak, after.HeapAlloc) - before.HeapAlloc
			runtime.GC()
			runtime.ReadMemStats(&after)
			b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/(1<<20), "held-MB")
			b.ReportMetric(float64(peak)/(1<<20), "peak-MB")
			_ = x.Close()
		}
	})
	k := openBench(b, dir)
	defer k.Close()
	if _, err := k.Today(ctx, tank); err != nil {
		b.Fatal(err)
	}
	b.Run("search", func(b *testing.B) {
		ref := askedOutside(b, dir, "SELECT e.* FROM entry_text JOIN entry e ON e.seq = docid WHERE entry_text MATCH '\"calef*\" \"angel*\"' ORDER BY e.at DESC")
		report(b, quickest(b, func() {
			l, err := k.Ledger(ctx, tank, keeper.LedgerFilter{Text: "calef angel"})
			if err != nil || l.Len() == 0 || l.Len() == l.All() {
				b.Fatal(l.Len(), err)
			}
		}), ref)
	})
	b.Run("today", func(b *testing.B) {
		ref := askedOutside(b, dir, "SELECT * FROM entry WHERE deleted IS NULL ORDER BY at DESC, seq DESC LIMIT 6")
		report(b, quickest(b, func() {
			if _, err := k.Today(ctx, tank); err != nil {
				b.Fatal(err)
			}
		}), ref)
	})
	b.Run("traces", func(b *testing.B) { // two years of everything
		ref := askedOutside(b, dir, "SELECT e.at, v.name, v.text, v.unit FROM entry e JOIN entry_value v ON v.entry = e.id WHERE e.tank = 'tank-1' AND e.deleted IS NULL AND e.at >= '2024-11-25' ORDER BY e.at")
		report(b, quickest(b, func() {
			if _, err := k.Traces(ctx, tank, keeper.TraceNames(), "2024-11-25", "2026-11-25"); err != nil {
				b.Fatal(err)
			}
		}), ref)
	})

	a := test.NewApp()
	w := a.NewWindow("")
	now := func() time.Time { return benchNow }
	s := shell.New(shell.Options{App: a, Keeper: k, Prefs: english(), Now: now, Canvas: w.Canvas, Inline: true})
	w.SetPadded(false)
	w.SetContent(s.Root())
	w.Resize(fyne.NewSize(1280, 800))
	b.Run("page", func(b *testing.B) { // the daybook opened once it has been read
		report(b, quickest(b, func() { s.Go(nav.Route{Place: nav.Daybook, Tank: tank}) }), askedOutside(b, dir, readAll))
	})
	b.Run("frame", func(b *testing.B) { // a click of the wheel and the page drawn for it, without the painting
		s.Go(nav.Route{Place: nav.Daybook, Tank: tank})
		list := findLong(b, s)
		plain := plainList(b, a)
		var ours, theirs []time.Duration
		for b.Loop() {
			start := time.Now()
			list.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: -120}})
			ours = append(ours, time.Since(start))
			start = time.Now()
			plain()
			theirs = append(theirs, time.Since(start))
		}
		report(b, at95(ours), at95(theirs))
	})
	b.Run("chart", func(b *testing.B) { // two years, drawn
		p := chartPage(b, s, tank, w)
		report(b, quickest(b, p.Refresh), askedOutside(b, dir, "SELECT e.at, v.name, v.text, v.unit FROM entry e JOIN entry_value v ON v.entry = e.id WHERE e.tank = 'tank-1' AND e.deleted IS NULL AND e.at >= '2024-11-25' ORDER BY e.at"))
	})
	b.Run("change", func(b *testing.B) { // an entry written, Today and the list anew
		ref := askedOutside(b, dir, "SELECT * FROM entry WHERE deleted IS NULL ORDER BY at DESC, seq DESC LIMIT 6")
		s.Go(nav.Route{Place: nav.Daybook, Tank: tank})
		report(b, quickest(b, func() {
			if _, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Note, Note: "clear as glass"}); err != nil {
				b.Fatal(err)
			}
			s.Page().Refresh()
			if _, err := k.Today(ctx, tank); err != nil {
				b.Fatal(err)
			}
		}), ref)
	})
}

func at95(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)*95/100]
}

// findLong gives the list of the page shown.
func findLong(b *testing.B, s *shell.Shell) *parts.Long {
	b.Helper()
	var found *parts.Long
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *parts.Long:
			found = o
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		}
	}
	walk(s.Page().Object())
	if found == nil {
		b.Fatal("no list")
	}
	return found
}

// plainList is the toolkit's own list of as many rows, and what a click of the
// wheel is to it.
func plainList(b *testing.B, a fyne.App) func() {
	l := widget.NewList(func() int { return benchEntries }, func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(fmt.Sprint("entry ", i)) })
	w := a.NewWindow("") // of the same program: another would take the theme away
	w.SetContent(l)
	w.Resize(fyne.NewSize(800, 740))
	b.Cleanup(w.Close)
	at := float32(0)
	return func() {
		at += 120
		l.ScrollToOffset(at)
	}
}

// chartPage opens the charts of two years.
func chartPage(b *testing.B, s *shell.Shell, tank string, w fyne.Window) nav.Page {
	b.Helper()
	s.Go(nav.Route{Place: nav.Charts, Tank: tank})
	c := w.Canvas()
	for range 400 {
		if parts.IDOf(c.Focused()) == "from" {
			break
		}
		c.FocusNext()
	}
	c.Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range "11/25/2024" {
		c.Focused().TypedRune(r)
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	return s.Page()
}
