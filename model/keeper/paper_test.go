package keeper_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"example.org/driploop/model/code"
	"example.org/driploop/model/desk"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// scanned writes a picture of the codes of a file, each below the other, and gives its
// path; which says which of them it shows, by their place.
func scanned(t *testing.T, file []byte, which ...int) string {
	t.Helper()
	texts, err := slip.Codes(file)
	must(t, err)
	if len(which) == 0 {
		for i := range texts {
			which = append(which, i)
		}
	}
	const k, cell = 4, 4 * (117 + 2*code.Quiet) // 117 modules is the largest code
	img := image.NewGray(image.Rect(0, 0, cell, cell*len(which)))
	for i := range img.Pix {
		img.Pix[i] = 250
	}
	for n, i := range which {
		m, err := code.Encode(texts[i])
		must(t, err)
		for y := range m.Side * k {
			for x := range m.Side * k {
				if m.Dark(x/k, y/k) {
					img.SetGray(x+code.Quiet*k, n*cell+y+code.Quiet*k, color.Gray{Y: 30})
				}
			}
		}
	}
	var b bytes.Buffer
	must(t, png.Encode(&b, img))
	path := filepath.Join(t.TempDir(), "scan.png")
	must(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path
}

// A visit goes to the shop and its reply comes back by paper alone: the shop is told
// which pictures it does not have, the desk keeps the slip, the reply finds its tank, is
// signed by the same shop as before, and is taken.
func TestVisitAndReplyByPaper(t *testing.T) {
	ctx := context.Background()
	k, _, tank, sick := ailing(t)
	path, shop := answered(t, k, tank, sick) // by file, so that the keeper knows the shop
	v, _, err := k.OpenReply(ctx, path)
	must(t, err)
	_, err = k.TakeReply(ctx, tank, v.Reply, []string{keeper.ItemAdvice}, "en")
	must(t, err)

	ready, err := k.PrepareVisit(ctx, tank, keeper.VisitAsk{Label: "Ana", Days: 30, Case: sick, Private: []slip.Private{slip.Notes, slip.Places}}, nil)
	must(t, err)
	if len(ready.Visit.Pictures) != 1 || ready.Visit.Apart != 0 {
		t.Errorf("the paper has %d pictures, %d apart", len(ready.Visit.Pictures), ready.Visit.Apart)
	}
	must(t, k.NoteVisit(ctx, ready))
	at, err := keeper.FindSlip(ctx, scanned(t, ready.File))
	must(t, err)
	o, err := shop.OpenSlip(ctx, at)
	must(t, err)
	if o.Format != slip.FormatVisit || o.Visit.ID != ready.Visit.ID || o.Visit.Apart != 1 || len(o.Visit.Pictures) != 0 || o.Visit.Case == nil ||
		len(o.Visit.Entries) != len(ready.Visit.Entries) || o.Found[0].Code != "find.slip.visit_signed" || !bytes.Equal(o.File, ready.File) {
		t.Errorf("read from the paper: %+v", o)
	}
	say := func(slip.Visit) keeper.VisitSaid { return keeper.VisitSaid{About: "a"} }
	for _, first := range []bool{true, false} {
		if _, taken, err := shop.ReceiveFile(ctx, o.File, say); err != nil || taken != first {
			t.Errorf("onto the desk: %v, %v", taken, err)
		}
	}
	r, err := shop.BeginReply(ctx, o.Visit)
	must(t, err)
	r.Advice = map[string]string{"en": "Change a third of the water.", "es": "Cambia un tercio del agua."}
	file, err := shop.ReplyFile(ctx, r)
	must(t, err)
	must(t, shop.KeepReply(ctx, r, file))
	if kept, err := shop.DeskReplyFile(ctx, r.ID); err != nil || !bytes.Equal(kept, file) {
		t.Errorf("the desk has %d bytes of %d, %v", len(kept), len(file), err)
	}
	if _, err := shop.DeskReplyFile(ctx, "none"); !absent(err) {
		t.Errorf("a reply that is not there: %v", err)
	}

	at, err = keeper.FindSlip(ctx, scanned(t, file))
	must(t, err)
	home, err := k.OpenSlip(ctx, at)
	must(t, err)
	if home.Format != slip.FormatReply || home.Reply.Tank != tank || home.Found[0].Code != "find.slip.signed_same" || home.Reply.Reply.Advice["es"] != r.Advice["es"] {
		t.Errorf("the reply from paper: %+v, %v", home.Reply, home.Found)
	}
	_, err = k.TakeReply(ctx, tank, home.Reply.Reply, home.Reply.Open(), "en")
	must(t, err)
	if w, err := k.ReplyBeside(ctx, home.Reply.Reply, ""); err != nil || len(w.Open()) != 0 {
		t.Errorf("left to take: %v, %v", w.Open(), err)
	}
}

func absent(err error) bool {
	var e *desk.Error
	return errors.As(err, &e) && e.Code == desk.CodeAbsent
}

// Pictures of a paper are read together, in any order and several times over; what is
// missing, of another paper or no code at all is refused with its reason.
func TestPicturesOfPaper(t *testing.T) {
	ctx := context.Background()
	k, _, tank, sick := ailing(t)
	ready, err := k.PrepareVisit(ctx, tank, keeper.VisitAsk{Days: 30, Case: sick, Questions: []string{hard(1500)}}, nil)
	must(t, err)
	other, err := k.PrepareVisit(ctx, tank, keeper.VisitAsk{Days: 30, Questions: []string{hard(1500)}}, nil)
	must(t, err)
	codes, err := slip.Codes(ready.File)
	if err != nil || len(codes) < 2 {
		t.Fatalf("%d codes, %v", len(codes), err)
	}
	profile := filepath.Join(t.TempDir(), "a.dlprofile")
	must(t, k.SaveProfile(ctx, tank, profile))
	starter, err := os.ReadFile(profile)
	must(t, err)
	letter := filepath.Join(t.TempDir(), "letter.png")
	must(t, os.WriteFile(letter, []byte("Dear shop, this is no picture."), 0o600))
	last := len(codes) - 1
	one, two := scanned(t, ready.File, 0), scanned(t, ready.File, last)
	var rest []string
	for i := 1; i < last; i++ {
		rest = append(rest, scanned(t, ready.File, i))
	}
	for name, c := range map[string]struct {
		paths []string
		want  working.Key
	}{
		"all, the last first":    {append([]string{two, one, two}, rest...), ""},
		"one is missing":         {[]string{two, two}, slip.CodeSheetParts},
		"another visit among":    {[]string{one, scanned(t, other.File, 0)}, slip.CodeSheetMixed},
		"a profile among":        {[]string{one, scanned(t, starter), two}, slip.CodeSheetMixed},
		"another behind a whole": {append(append([]string{two, one}, rest...), letter, scanned(t, starter)), slip.CodeSheetMixed},
		"no code":                {[]string{filepath.Join("..", "..", "testdata", "photos", "none.png")}, slip.CodeUnreadable},
		"no picture":             {[]string{letter}, slip.CodeNotSlip},
		"a file among pictures":  {[]string{one, profile}, ""},
		"none":                   {nil, slip.CodeSheetParts},
		"a file that is a slip":  {[]string{profile}, ""},
		"a picture is not there": {[]string{filepath.Join(t.TempDir(), "x.png"), one}, slip.CodeUnreadable},
	} {
		at, err := keeper.FindSlip(ctx, c.paths...)
		var e *slip.Error
		switch {
		case name == "a file among pictures":
			if err == nil || at.Format != "" {
				t.Errorf("%s: %q", name, at.Format)
			}
		case c.want == "" && err != nil:
			t.Errorf("%s: %v", name, err)
		case c.want != "" && (!errors.As(err, &e) || e.Code != c.want || at.Format != ""):
			t.Errorf("%s: %q, %v, want %s", name, at.Format, err, c.want)
		}
	}
}

// hard is a text of n characters that packs badly.
func hard(n int) string {
	b := make([]rune, 0, n)
	for i, x := 0, uint32(7); i < n && i < slip.MaxQuestion; i++ {
		x = x*1664525 + 1013904223
		b = append(b, rune('!'+x>>24%90))
	}
	return string(b)
}
