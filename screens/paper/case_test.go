package paper

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/sick"
	"example.org/driploop/model/working"
)

// patterned is a picture of two colours as a PNG file.
func patterned(t *testing.T, w, h int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for x := range w {
		for y := range h {
			img.Set(x, y, color.RGBA{uint8(x), uint8(y), uint8(x ^ y), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// ill is a tank with a case: signs, a note, pictures with marks, and a
// file that is none.
func (r reader) ill(t *testing.T, k *keeper.Keeper) (tank, id string) {
	t.Helper()
	ctx := context.Background()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	tank, err := k.StartTank(ctx, "Kitchen corner", r.units)
	must(err)
	for _, e := range []journal.Entry{
		{Kind: journal.FishIn, At: "2026-11-20T18:00", Note: "Zebra danios"}, {Kind: journal.PowerCut, At: "2026-11-22T03:00"},
		{Kind: journal.Fed, At: "2026-11-23T08:00", Note: "flake", Readings: []journal.Reading{{Name: journal.NameFeed, Measure: quantity.Measure{Number: "0.12", Unit: "g"}}}},
		{Kind: journal.Fed, At: "2026-11-23T18:00", Readings: []journal.Reading{{Name: journal.NameFeed, Measure: quantity.Measure{Number: "0.13", Unit: "g"}}}},
		{Kind: journal.Tested, At: "2026-11-24T20:00", Note: "kit two years old", Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.75", Unit: "mg/l", Basis: quantity.AsIon}},
			{Name: journal.NameAmmonia, Qualifier: journal.NotDetected, Measure: quantity.Measure{Unit: "mg/l", Basis: quantity.AsN}}}},
	} {
		_, err := k.AddEntry(ctx, tank, e)
		must(err)
	}
	id, err = k.OpenCase(ctx, tank, keeper.Who{About: "Old Grey"}, sick.Several, "clamped_fins", "not_eating", "cotton_tufts")
	must(err)
	must(k.UntickSign(ctx, tank, id, "not_eating"))
	_, err = k.NoteCase(ctx, tank, id, "Hides behind the filter.")
	must(err)
	added, err := k.AddPhotos(ctx, tank, []photo.Source{{Name: "a.png", Bytes: patterned(t, 1600, 1000)}, {Name: "b.png", Bytes: patterned(t, 300, 500)}, {Name: "c.png", Bytes: patterned(t, 64, 64)}}, keeper.AddOptions{Sick: id}, nil)
	must(err)
	must(k.CaptionPhoto(ctx, tank, added.Photos[0], "left flank"))
	for _, m := range []photo.Mark{{Kind: photo.Circle, Points: []photo.Point{{X: 500, Y: 500}, {X: 600, Y: 500}}, Words: "white patch"},
		{Kind: photo.Arrow, Points: []photo.Point{{X: 10, Y: 10}, {X: 300, Y: 300}}},
		{Kind: photo.Known, Points: []photo.Point{{X: 100, Y: 900}, {X: 900, Y: 900}}, Measure: quantity.Measure{Number: "40", Unit: "mm"}},
		{Kind: photo.Length, Points: []photo.Point{{X: 100, Y: 700}, {X: 500, Y: 700}}}} {
		_, err := k.AddMark(ctx, tank, added.Photos[0], m)
		must(err)
	}
	return tank, id
}

var imageObjects = regexp.MustCompile(`/Subtype /Image\n/Width (\d+)`)

// The paper of a case says who, the signs with their dates, the water, what has
// changed, feeding, what was done, and shows the pictures with marks as vectors.
func TestCaseOnPaper(t *testing.T) {
	for _, r := range []reader{readers[0], readers[3]} {
		k := r.open(t)
		tank, id := r.ill(t, k)
		in, err := GatherCase(context.Background(), k, tank, id, r.presenter(), SizeFor(r.region), nil)
		if err != nil {
			t.Fatal(err)
		}
		text := textOf(document(t, Case, in))
		p := in.Presenter
		want := []string{in.Record.Name, "Old Grey", p.ManyName(sick.Several), in.t("sign.clamped_fins"), in.t("sign.cotton_tufts"), p.CivilDay("2026-11-25T12:00"),
			"Zebra danios", in.t("find.sick.was.power_cut"), "flake", p.W.N("n.times_fed", 2, nil), "kit two years old", "0" + string(p.W.Decimal()) + "75",
			in.t("reading.is_not_detected"), in.t("word.basis.ion"), "Hides behind the filter.", "left flank", "white patch", in.t("page.sick.no_names"), p.W.Typed(quantity.Measure{Number: "40", Unit: "mm"})}
		says(t, r.name, text, want...)
		// A sign taken off on its first day was a slip.
		if strings.Contains(text, flat(in.t("sign.not_eating"))) {
			t.Errorf("%s: tells of a sign that was a slip", r.name)
		}
		pdf := document(t, Case, in)
		if n := len(imageObjects.FindAll(pdf, -1)); n != 3 {
			t.Errorf("%s: %d pictures, want 3", r.name, n)
		}
		if m := imageObjects.FindAllSubmatch(pdf, -1); len(m) == 3 && string(m[0][1]) != "1100" && string(m[1][1]) != "1100" && string(m[2][1]) != "1100" {
			t.Errorf("%s: no picture of 1100 pixels: %s", r.name, m)
		}
		for _, not := range []string{"Exif", "GPS"} {
			if bytes.Contains(pdf, []byte(not)) {
				t.Errorf("%s: holds %s", r.name, not)
			}
		}
	}
}

// Pictures and marks lie within the margins on every size of paper, and a mark
// within its picture.
func TestCaseWithinTheMargins(t *testing.T) {
	r := readers[3]
	k := r.open(t)
	tank, id := r.ill(t, k)
	in, err := GatherCase(context.Background(), k, tank, id, r.presenter(), A4, nil)
	if err != nil {
		t.Fatal(err)
	}
	in.Case.View.Case.About = strings.Repeat("Ñandú ", 9)
	in.Case.Pictures[1].Caption = strings.Repeat("long ", 90)
	for _, size := range Sizes() {
		in.Size = size
		ps, _ := pages(Case, &in)
		n := 0
		within(t, size.Code, ps, size)
		for i, p := range ps {
			for _, g := range p.prints {
				n++
				if g.x < marginX-0.1 || g.x+g.w > size.W-marginX+0.1 || g.y < marginTop-0.1 || g.y+g.h > size.H-marginBottom+0.1 {
					t.Errorf("%s, page %d: a picture at %v, %v of %v by %v", size.Code, i+1, g.x, g.y, g.w, g.h)
				}
			}
		}
		if n != 3 {
			t.Errorf("%s: %d pictures are set", size.Code, n)
		}
	}
}

func TestCasePaperRefuses(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	tank, err := k.StartTank(context.Background(), "Hall", r.units)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	var refusal *working.Refusal
	if err := Write(context.Background(), Case, k, tank, r.presenter(), A4, &out); !errors.As(err, &refusal) || out.Len() > 0 {
		t.Errorf("a tank without a case: %v, %d bytes", err, out.Len())
	}
	if _, err := k.OpenCase(context.Background(), tank, keeper.Who{}, ""); err != nil {
		t.Fatal(err)
	}
	if err := Write(context.Background(), Case, k, tank, r.presenter(), A4, &out); err != nil || out.Len() == 0 {
		t.Errorf("a case with nothing in it: %v, %d bytes", err, out.Len())
	}
}
