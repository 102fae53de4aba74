package paper

import (
	"bytes"
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/present"
)

// answering is the file of a reply with everything that one can say.
func answering(t *testing.T, k *keeper.Keeper) []byte {
	t.Helper()
	ctx := context.Background()
	r, err := k.BeginReply(ctx, slip.Visit{ID: "0193a8b2-7c1d-7e55"})
	if err != nil {
		t.Fatal(err)
	}
	r.Shop = slip.Shop{Name: "The shop at the bridge", Address: "Bridge Road 1\nTown", Hours: "9 to 6"}
	r.Test = &slip.ShopTest{At: r.Made, Zone: r.Zone, Readings: []journal.Reading{{Name: journal.NameNitrite, Measure: quantity.Measure{Number: "0.30", Unit: "mg/l", Basis: quantity.AsIon}}}}
	r.Advice = map[string]string{"en": "Feed every other day.\nWait a week.", "es": "Da de comer un día sí y otro no."}
	r.Rounds = []slip.ProposedRound{{Code: rounds.Test, Rule: "FREQ=DAILY", Why: "Until nitrite stays away."}}
	r.Plan = []slip.ProposedAnimals{{Change: slip.PlanHold, Species: "paracheirodon-innesi", Why: "Not before the water is steady."}}
	file, err := k.ReplyFile(ctx, r)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// A visit and a reply on paper, printed at 150 dpi and photographed, give what was
// handed over, with its signature. The paper of a visit says which pictures its codes
// do not carry.
func TestVisitAndReplyAreReadBack(t *testing.T) {
	ctx := context.Background()
	r := readers[0]
	k := r.open(t)
	tank, sick := r.ill(t, k)
	shot := drill.Shot{Turn: 3, Scale: 1.3, Slant: 0.06, Dark: 0.4, Noise: 4, Seed: 5}
	read := func(document []byte) keeper.Opened {
		t.Helper()
		imgs := shots(t, document)
		at, err := keeper.FindSlip(ctx, photographed(t, shot.Of(imgs[len(imgs)-1]), ".jpg"))
		if err != nil {
			t.Fatal(err)
		}
		o, err := k.OpenSlip(ctx, at)
		if err != nil {
			t.Fatal(err)
		}
		return o
	}
	for _, size := range Sizes() {
		var b bytes.Buffer
		ask := keeper.VisitAsk{Days: keeper.VisitDays, Case: sick, Label: "Tank in the hall", Private: []slip.Private{slip.Notes}, Questions: []string{"Is it the water?"}}
		if err := WriteVisit(ctx, k, tank, ask, r.presenter(), size, &b, nil); err != nil {
			t.Fatal(err)
		}
		o := read(b.Bytes())
		if o.Format != slip.FormatVisit || o.Visit.Label != "Tank in the hall" || o.Visit.Apart != 3 || o.Visit.Case == nil || len(o.Visit.Entries) < 6 || !o.Visit.Signature.Signed() {
			t.Errorf("%s: the visit is read as %+v", size.Code, o.Visit)
		}
		// A reply to it finds its tank, for the paper is kept as a slip that was handed over.
		if v, err := k.ReplyBeside(ctx, slip.Reply{ID: "r", Visit: o.Visit.ID}, ""); err != nil || v.Tank != tank {
			t.Errorf("%s: a reply would find %q, %v", size.Code, v.Tank, err)
		}
		file := answering(t, k)
		var p bytes.Buffer
		if err := WriteReply(ctx, k, file, r.presenter(), size, &p); err != nil {
			t.Fatal(err)
		}
		if o = read(p.Bytes()); !bytes.Equal(o.File, file) || o.Reply.Reply.Shop.Name != "The shop at the bridge" || !o.Reply.Reply.Signature.Signed() {
			t.Errorf("%s: the reply is read as %+v", size.Code, o.Reply)
		}
	}
	// What is no reply has no paper as one.
	ready, err := k.PrepareVisit(ctx, tank, keeper.VisitAsk{Days: keeper.VisitDays}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := WriteReply(ctx, k, ready.File, r.presenter(), A4, &bytes.Buffer{}); err == nil {
		t.Error("a visit was written as a reply")
	}
}

// Five and six codes are on two pages, each within its margins; more are none, and then
// the paper says to take the file along.
func TestManyCodes(t *testing.T) {
	p := present.Presenter{W: i18n.Speak("en", "ES", quantity.Metric), Region: care.Region{Code: "ES"}}
	for _, size := range Sizes() {
		for n, wantPages := range map[int]int{1: 1, 2: 1, 3: 1, 4: 1, 5: 2, 6: 2, 7: 1} {
			all, err := codesOrNone(noise(n*940 - 300))
			if err != nil {
				t.Fatal(err)
			}
			if want := n % (slip.MaxCodes + 1); len(all) != want {
				t.Fatalf("%d codes, want %d", len(all), want)
			}
			f := newFlow(size)
			f.codes(&Input{Presenter: p}, all, "paper.visit.read", "Another line.")
			ps := f.lay()
			said := ""
			for i, q := range ps {
				e := q.scene.Extent(plain)
				if e.Min.X < marginX-0.3 || e.Max.X > size.W-marginX+0.3 || e.Max.Y > size.H-marginBottom+0.3 {
					t.Errorf("%s, %d codes, page %d: reaches %v", size.Code, n, i+1, e)
				}
				for _, l := range q.scene.Texts(plain) {
					said += l.S + "\n"
				}
			}
			if len(ps) != wantPages || strings.Contains(said, "Take the file along") != (len(all) == 0) || !strings.Contains(said, "Another line.") {
				t.Errorf("%s, %d codes on %d pages: %s", size.Code, n, len(ps), said)
			}
		}
	}
}

// noise is n bytes that do not pack.
func noise(n int) []byte {
	out, r := make([]byte, n), rand.New(rand.NewPCG(3, 4))
	for i := range out {
		out[i] = byte(r.Uint32())
	}
	return out
}
