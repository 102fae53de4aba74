//go:build e2e && linux

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// bare is the least program with a window of the same toolkit and size. It tells
// of the same moment as ours does under startMark: after its first picture.
const bare = `package main

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	app.SetMetadata(fyne.AppMetadata{ID: "org.example.bare", Migrations: map[string]bool{"fyneDo": true}})
	a := app.NewWithID("org.example.bare")
	w := a.NewWindow("bare")
	w.SetContent(widget.NewLabel("bare"))
	w.Resize(fyne.NewSize(1280, 800))
	w.CenterOnScreen()
	a.Lifecycle().SetOnStarted(func() { os.Stdout.WriteString("."); a.Quit() })
	w.ShowAndRun()
}
`

// BenchmarkStart measures the time from the start of the process to its first
// picture beside that of a bare window, in turns. The metric that
// counts is their ratio, of medians.
func BenchmarkStart(b *testing.B) {
	s := newScreen(b)
	other := filepath.Join(openTemp(b), "bare")
	source := other + ".go"
	if err := os.WriteFile(source, []byte(bare), 0o600); err != nil {
		b.Fatal(err)
	}
	// The tag of the Makefile's own build, so that the toolkit is compiled once.
	if out, err := exec.Command("go", "build", "-tags", "migrated_fynedo", "-o", other, source).CombinedOutput(); err != nil {
		b.Fatalf("bare window: %v\n%s", err, out)
	}
	dir := filepath.Join(openTemp(b), "data")
	s.must(s.binary, "demo", flagData, dir)
	once := func(name string, args ...string) time.Duration {
		c := exec.Command(name, args...)
		c.Env = append(s.env(), startMark+"=1")
		said, err := c.StdoutPipe()
		if err != nil {
			b.Fatal(err)
		}
		c.Stderr = os.Stderr
		from := time.Now()
		if err := c.Start(); err != nil {
			b.Fatalf("%s: %v", name, err)
		}
		if _, err := said.Read(make([]byte, 1)); err != nil {
			b.Fatalf("%s: %v", name, err)
		}
		took := time.Since(from)
		if err := c.Wait(); err != nil {
			b.Fatalf("%s: %v", name, err)
		}
		return took
	}
	once(other) // fill the caches of the disk and of the graphics
	once(s.binary, flagData, dir)
	var ours, theirs []time.Duration
	b.ResetTimer()
	for b.Loop() {
		theirs = append(theirs, once(other))
		ours = append(ours, once(s.binary, flagData, dir))
	}
	b.StopTimer()
	b.ReportMetric(middle(ours).Seconds()*1e3, "ms/start")
	b.ReportMetric(middle(theirs).Seconds()*1e3, "ms/bare")
	b.ReportMetric(middle(ours).Seconds()/middle(theirs).Seconds(), "ratio")
	b.ReportMetric(0, "ns/op")
}

// middle is the median.
func middle(all []time.Duration) time.Duration {
	slices.Sort(all)
	return all[len(all)/2]
}
