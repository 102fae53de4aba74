package shell_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/shell"
)

// chooserAt opens the chooser of pictures at a folder.
func (s stage) chooserAt(t *testing.T, dir string) {
	t.Helper()
	if err := s.k.SetSetting(context.Background(), "chooser_folder", dir); err != nil {
		t.Fatal(err)
	}
	s.AddPictures()
	s.hit(t, "choose_file", fyne.KeyReturn)
}

// Several pictures are chosen at once by keyboard alone: one by Space, a run with
// Shift, all of them; a folder is opened and left; a typed path; hidden files.
func TestChoosingSeveralPicturesByKeyboard(t *testing.T) {
	ctx := context.Background()
	s := open(t, english())
	tank := s.sample(t)
	s.Go(nav.Route{Place: nav.Photos, Tank: tank})
	dir := t.TempDir()
	below := filepath.Join(dir, "Below")
	if err := os.Mkdir(below, 0o755); err != nil {
		t.Fatal(err)
	}
	for i, name := range []string{"a.png", "B.PNG", "c.png", ".secret.png", filepath.Join("Below", "deep.png")} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, pngOf(t, 40+i, 30), 0o600); err != nil {
			t.Fatal(err)
		}
		at := time.Date(2026, 11, 20-i, 9, 0, 0, 0, time.UTC)
		if err := os.Chtimes(path, at, at); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"notes.txt", "table.csv"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s.chooserAt(t, dir)
	list, ok := s.w.Canvas().Focused().(*parts.Files)
	if !ok {
		t.Fatalf("the focus is on %T", s.w.Canvas().Focused())
	}
	names := func() string {
		var out []string
		for i := 0; ; i++ {
			if i >= list.Count() {
				return strings.Join(out, " ")
			}
			r := list.Row(i)
			if r.Picked {
				r.Name = "*" + r.Name
			}
			out = append(out, r.Name)
		}
	}
	want := func(what, want string) {
		t.Helper()
		if got := names(); got != want {
			t.Errorf("%s: %s, want %s", what, got, want)
		}
	}
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	want("at first", "Below a.png B.PNG c.png")
	key(fyne.KeySpace) // a folder is not chosen
	key(fyne.KeyDown, fyne.KeySpace)
	want("one chosen", "Below *a.png B.PNG c.png")
	list.KeyDown(&fyne.KeyEvent{Name: "LeftShift"})
	key(fyne.KeyDown, fyne.KeyDown)
	list.KeyUp(&fyne.KeyEvent{Name: "LeftShift"})
	want("a run", "Below *a.png *B.PNG *c.png")
	list.TypedShortcut(&fyne.ShortcutSelectAll{})
	want("all again is none", "Below a.png B.PNG c.png")
	list.TypedShortcut(&fyne.ShortcutSelectAll{})
	want("all", "Below *a.png *B.PNG *c.png")
	list.TypedRune('b')
	if list.Row(list.At()).Name != "B.PNG" && list.Row(list.At()).Name != "Below" {
		t.Errorf("b goes to %s", list.Row(list.At()).Name)
	}
	s.pickOption(t, "order", "name")
	want("by name", "Below *a.png *B.PNG *c.png")
	s.hit(t, "hidden", fyne.KeySpace)
	want("hidden ones", "Below .secret.png *a.png *B.PNG *c.png")
	s.hit(t, "hidden", fyne.KeySpace)
	s.fillIn(t, "path", "Below")
	s.hit(t, "path", fyne.KeyReturn)
	want("a typed folder", "deep.png")
	key(fyne.KeyBackspace)
	want("above", "Below a.png B.PNG c.png")
	if list.Row(list.At()).Name != "Below" {
		t.Errorf("coming up the keys are at %s", list.Row(list.At()).Name)
	}
	key(fyne.KeyReturn)
	want("opened", "deep.png")
	key(fyne.KeyBackspace)
	s.fillIn(t, "path", "nowhere")
	s.hit(t, "path", fyne.KeyReturn)
	if !strings.Contains(s.texts(), "no such folder or file") {
		t.Error("a path to nowhere is not told")
	}
	before, err := s.k.Photos(ctx, tank, keeper.PhotoFilter{})
	if err != nil {
		t.Fatal(err)
	}
	s.hit(t, "all", fyne.KeyReturn)
	s.hit(t, "take", fyne.KeyReturn)
	if photos, err := s.k.Photos(ctx, tank, keeper.PhotoFilter{}); err != nil || len(photos) != len(before)+3 {
		t.Fatalf("%d pictures after %d, %v", len(photos), len(before), err)
	}
	if last, _, err := s.k.Setting(ctx, "chooser_folder"); err != nil || last != dir {
		t.Errorf("the next time begins at %s, %v", last, err)
	}
}

// A folder of 10,000 pictures is listed, of which no more than a window of rows is
// drawn; one that may not be read says so, and one goes on from there.
func TestChooserOfHugeAndShutFolders(t *testing.T) {
	s := open(t, english())
	tank := s.sample(t)
	s.Go(nav.Route{Place: nav.Photos, Tank: tank})
	dir := t.TempDir()
	const many = 10_000
	for i := range many {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%05d.jpg", i)), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	shut := filepath.Join(dir, "Shut")
	if err := os.Mkdir(shut, 0); err != nil {
		t.Fatal(err)
	}
	s.chooserAt(t, dir)
	list := s.w.Canvas().Focused().(*parts.Files)
	if list.Count() != many+1 {
		t.Fatalf("%d rows", list.Count())
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	drawn := 0
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		drawn++
		switch x := o.(type) {
		case *fyne.Container:
			for _, i := range x.Objects {
				walk(i)
			}
		case fyne.Widget:
			for _, i := range test.WidgetRenderer(x).Objects() {
				walk(i)
			}
		}
	}
	walk(list)
	if drawn > 300 {
		t.Errorf("%d objects are drawn", drawn)
	}
	s.hit(t, "all", fyne.KeyReturn)
	if !strings.Contains(strings.ReplaceAll(s.texts(), "\u202f", " "), "Add 10 000 pictures") {
		t.Errorf("not all are chosen: %s", s.texts())
	}
	if runtime.GOOS == "windows" || os.Getuid() == 0 {
		shut = filepath.Join(dir, "gone") // whom nothing is shut to
		if err := os.Mkdir(shut, 0o755); err != nil {
			t.Fatal(err)
		}
		s.fillIn(t, "path", shut)
		if err := os.Remove(shut); err != nil {
			t.Fatal(err)
		}
		s.hit(t, "path", fyne.KeyReturn)
		if !strings.Contains(s.texts(), "no such folder") {
			t.Error("a folder that is gone is not told")
		}
		return
	}
	s.fillIn(t, "path", shut)
	s.hit(t, "path", fyne.KeyReturn)
	if list.Count() != 0 || !strings.Contains(s.texts(), "may not be read") {
		t.Errorf("a shut folder: %s", s.texts())
	}
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	if list.Count() != many+1 {
		t.Errorf("no way back: %d rows", list.Count())
	}
}

// pngOf is a small picture, another one for every size.
func pngOf(t *testing.T, wide, high int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	for i := range img.Pix {
		img.Pix[i] = uint8(i*wide + 128)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pickOption chooses an option of a choice by keyboard.
func (s stage) pickOption(t *testing.T, id, code string) {
	t.Helper()
	c := s.at(t, id).(*parts.Choice)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	for _, o := range c.Spec().Options {
		if o.Code == code {
			break
		}
		s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	s.w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// Where paths begin in several places, as on drives, one goes from one to the other by
// keyboard; where they do not, there is nothing to choose.
func TestChooserGoesToAnotherDrive(t *testing.T) {
	one, other := t.TempDir(), t.TempDir()
	for dir, name := range map[string]string{one: "here.png", other: "there.png"} {
		if err := os.WriteFile(filepath.Join(dir, name), pngOf(t, 40, 30), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, roots := range [][]string{{one, other}, {one}} {
		s := openIn(t, t.TempDir(), shell.Options{Prefs: english(), Roots: func() []string { return roots }})
		tank := s.sample(t)
		s.Go(nav.Route{Place: nav.Photos, Tank: tank})
		s.chooserAt(t, one)
		list := s.at(t, "files").(*parts.Files)
		if list.Count() != 1 || list.Row(0).Name != "here.png" {
			t.Fatalf("%d files, the first %s", list.Count(), list.Row(0).Name)
		}
		if len(roots) == 1 {
			for range 60 {
				if s.w.Canvas().FocusNext(); parts.IDOf(s.w.Canvas().Focused()) == "drive" {
					t.Fatal("one root is offered as a choice")
				}
			}
			continue
		}
		s.shoot(t, "drives")
		s.pickOption(t, "drive", other)
		if list.Count() != 1 || list.Row(0).Name != "there.png" {
			t.Errorf("on the other drive %d files, the first %s", list.Count(), list.Row(0).Name)
		}
	}
}
