package paper

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

var pageObjects = regexp.MustCompile(`/Type /Page\n`)

// every lists all documents but that of a case, which has a test of its own.
var every = append(Kinds(), Stocking, Home)

// outing puts animals on the plan and a bag on its way home, so that a tank has all
// documents.
func outing(t *testing.T, k *keeper.Keeper, id string) {
	t.Helper()
	ctx := context.Background()
	for _, w := range []keeper.Wish{{Species: "danio-rerio", Count: 6}, {Species: "paracheirodon-innesi", Count: 8}} {
		if _, err := k.AddWish(ctx, id, w); err != nil {
			t.Fatal(err)
		}
	}
	for _, way := range []string{care.WayFloat, care.WayDrip} {
		a, err := k.BagDefaults(ctx, id)
		if err != nil {
			t.Fatal(err)
		}
		a.Name, a.Count, a.Way = "Zebra", quantity.Measure{Number: "3", Unit: "piece"}, way
		if _, err := k.OpenBag(ctx, id, a); err != nil {
			t.Fatal(err)
		}
	}
}

// whole is the input of all documents.
func (r reader) whole(t *testing.T, k *keeper.Keeper, id string) Input {
	t.Helper()
	ctx := context.Background()
	in := r.gather(t, k, id)
	var err error
	if in.Bags, err = k.Bags(ctx, id); err != nil {
		t.Fatal(err)
	}
	if err := in.gatherStocking(ctx, k, id); err != nil {
		t.Fatal(err)
	}
	return in
}

func TestDocumentsAreCompleteAndReproducible(t *testing.T) {
	for _, r := range readers {
		k := r.open(t)
		id := r.example(t, k)
		outing(t, k, id)
		in := r.whole(t, k, id)
		for _, kind := range every {
			pdf := document(t, kind, in)
			if !bytes.Equal(pdf, document(t, kind, r.whole(t, k, id))) {
				t.Errorf("%s, %s: made twice, the documents differ", r.name, kind)
			}
			n := len(pageObjects.FindAll(pdf, -1))
			if low, high := map[Kind]int{Sheet: 7, Kit: 1, Stocking: 1, Home: 1}[kind], map[Kind]int{Sheet: 14, Kit: 3, Stocking: 4, Home: 5}[kind]; n < low || n > high {
				t.Errorf("%s, %s: %d pages, want %d to %d", r.name, kind, n, low, high)
			}
			text := textOf(pdf)
			want := wanted(&in, kind)
			for page := 1; page <= n; page++ {
				want = append(want, in.Presenter.W.T("paper.page", i18n.Args{"Page": page, "Pages": n}))
			}
			says(t, r.name+", "+string(kind), text, want...)
			if strings.Contains(text, "«") && r.lang == "en" {
				t.Errorf("%s, %s: a message is missing: %s", r.name, kind, text[strings.Index(text, "«"):][:40])
			}
			// Our cuts and what formulas need, each once and embedded; no font of the reader's machine.
			if fonts, files := bytes.Count(pdf, []byte("/Subtype /CIDFontType2")), bytes.Count(pdf, []byte("/FontFile2")); fonts != files || fonts < 3 || fonts > 7 {
				t.Errorf("%s, %s: %d fonts, %d embedded; want 3 to 7, all embedded", r.name, kind, fonts, files)
			}
			for _, not := range []string{"Helvetica", "/Subtype /Image"} {
				if bytes.Contains(pdf, []byte(not)) {
					t.Errorf("%s, %s: holds %s", r.name, kind, not)
				}
			}
			// A text without a colour of its own takes that of the drawing before it.
			if bare := regexp.MustCompile(`(?m)^BT [\d.-]+ [\d.-]+ Td`).FindAll(pdf, -1); len(bare) > 0 {
				t.Errorf("%s, %s: %d texts have no colour of their own", r.name, kind, len(bare))
			}
		}
	}
	for _, m := range i18n.Missing() {
		if strings.Contains(m, " paper.") || strings.Contains(m, " page.") || strings.Contains(m, " note.") || strings.Contains(m, " tick.") {
			t.Errorf("message missing: %s", m)
		}
	}
}

// wanted is what a document must say, from the model and the messages.
func wanted(in *Input, kind Kind) []string {
	p := in.Presenter
	net := in.Views[care.StandFloor].Picture.Full.Net
	want := []string{in.Record.Name, p.W.Quantity(net.Value()), p.W.Date(noon)}
	switch kind {
	case Stocking:
		want = []string{in.Record.Name, p.W.Date(noon), in.Stocking.Done}
		for _, s := range in.Stocking.Steps {
			for _, a := range s.Animals {
				want = append(want, a.Text, a.Scientific)
			}
		}
		return want
	case Home:
		want = []string{in.Record.Name, p.W.Date(noon)}
		for _, v := range in.Bags {
			b := p.Bag(v, in.made())
			want = append(want, b.Name, b.Number.Value)
		}
		return want
	case Kit:
		for _, it := range in.Views[care.KitList].Page.Kit {
			want = append(want, p.W.T(it.Name, nil), p.Say(it.Size), p.Say(it.Why))
		}
		for _, l := range in.Views[care.KitList].Page.Lines {
			want = append(want, p.Line(l).Value)
		}
		return want
	}
	for _, s := range care.Steps() {
		want = append(want, p.W.T(working.Key("step."+string(s)), nil))
		for _, tick := range in.Views[s].Page.Ticks {
			want = append(want, p.Say(tick.Text))
		}
		for _, c := range in.Views[s].Page.Cautions {
			want = append(want, p.Say(c))
		}
	}
	for _, n := range care.Notes() {
		want = append(want, p.Say(working.Find(working.Steady, n.Hazard())), p.Say(working.Find(working.Steady, n.Consequence())), p.Say(working.Find(working.Steady, n.Avoid())))
	}
	for _, c := range in.Views[care.StandFloor].Page.Checks {
		want = append(want, p.W.T(c.Name, nil), p.W.Percent(c.Use))
	}
	for _, a := range in.Record.Acks {
		want = append(want, a.Shown)
	}
	for _, r := range in.Stock.Rows {
		want = append(want, r.Name, r.Scientific)
	}
	full := in.Views[care.StandFloor].Picture.Full
	want = append(want, p.W.Quantity(full.Total.Value()), p.W.Quantity(full.Upper.Value()), p.W.For(in.Doses.Whole.Amount, i18n.Dose),
		p.W.T("ask.tank.net_volume", nil), p.W.DateTime(in.Record.Done[care.PowerOn].At.In(noon.Location())))
	return want
}

// Everything lies within the margins: texts and rules by the bounds of each
// page, the drawing by its own, which keeps off the column beside it.
func TestNothingLiesOutsideTheMargins(t *testing.T) {
	for _, r := range readers {
		k := r.open(t)
		id := r.example(t, k)
		outing(t, k, id)
		good := r.whole(t, k, id)
		for name, in := range map[string]Input{"example": good, "hostile": hostile(good), "failing": r.gather(t, k, failing(t, k))} {
			for _, size := range Sizes() {
				in.Size = size
				for _, kind := range every {
					if kind == Stocking && in.Stocking == nil {
						continue // nothing is wished for that tank
					}
					ps, _ := pages(kind, &in)
					within(t, strings.Join([]string{r.name, name, size.Code, string(kind)}, ", "), ps, size)
					for _, p := range ps {
						if err := p.scene.Err(); err != nil {
							t.Error(err)
						}
						for _, g := range p.figures {
							if e := g.scene.Extent(g.at); e.Min.X < marginX-0.3 || e.Max.X > size.W-marginX+0.3 || kind == Sheet && e.Max.X > marginX+(size.W-2*marginX)*0.575 {
								t.Errorf("%s, %s, %s: the drawing reaches %v", r.name, name, size.Code, e)
							}
						}
					}
				}
			}
		}
	}
}

// hostile is the example with words that no layout was made for.
func hostile(in Input) Input {
	in.Record.Name = strings.Repeat("W", 20) + " 日本 🐟\x00\u202e" + strings.Repeat("ñ", 30)
	in.Record.Acks = append([]care.Ack{{Step: care.PowerOn, Note: "shock", Lang: "tlh", Shown: strings.Repeat("long ", 4000) + strings.Repeat("x", 2000), At: noon}}, in.Record.Acks...)
	return in
}

// failing is a tank that its shelf does not carry and whose kit has prices.
func failing(t *testing.T, k *keeper.Keeper) string {
	t.Helper()
	ctx := context.Background()
	id, err := k.StartTank(ctx, "Shelf", quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []keeper.Edit{{Field: "stand.kind", Option: "furniture"}, {Field: "top.board", Option: "p2"},
		{Field: "top.thickness", Text: "12 mm"}, {Field: "top.span", Text: "120 cm"}, {Field: "kit.filter.price", Text: "24.90 EUR"}, {Field: "kit.net.price", Text: "3.10 EUR"}} {
		if err := k.Set(ctx, id, e); err != nil {
			t.Fatalf("%s: %v", e.Field, err)
		}
	}
	return id
}

func TestALimitThatIsExceededIsSaid(t *testing.T) {
	r := readers[1]
	k := r.open(t)
	in := r.gather(t, k, failing(t, k))
	text := textOf(document(t, Sheet, in))
	page := in.page(care.StandFloor)
	if page.Verdict == nil || page.Verdict.State != working.Act || len(page.Bars) == 0 || page.Bars[0].Use <= 1 {
		t.Fatalf("the shelf was to fail: %+v", page.Verdict)
	}
	w := r.presenter().W
	says(t, "the sheet", text, page.Verdict.Title, page.Bars[0].Percent, w.State(working.Act), w.T("paper.tick.stand_first", i18n.Args{"Says": page.Verdict.Title}), in.t("paper.none_confirmed"), in.t("paper.state.shut"))
	says(t, "the kit list", textOf(document(t, Kit, in)), in.money(24.9), in.money(3.1), in.money(28))
}

// A tank whose sizes contradict each other has papers too, that say so.
func TestUnknownTank(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	ctx := context.Background()
	id, err := k.StartTank(ctx, "Odd", quantity.US)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.Set(ctx, id, keeper.Edit{Field: "gravel.back", Text: "11.9 in"}); err != nil {
		t.Fatal(err)
	}
	in := r.gather(t, k, id)
	if in.Views[care.StandFloor].Picture.Known {
		t.Fatal("gravel up to the rim was to be refused")
	}
	w := in.Presenter.W
	for _, kind := range Kinds() {
		says(t, string(kind), textOf(document(t, kind, in)), w.T("paper.unknown", i18n.Args{"Step": w.T("step.tank_place", nil)}))
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteRefuses(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	id := r.example(t, k)
	ctx := context.Background()
	var out bytes.Buffer
	var unknown *UnknownKindError
	if err := Write(ctx, "poster", k, id, r.presenter(), A4, &out); !errors.As(err, &unknown) {
		t.Errorf("an unknown kind: %v", err)
	}
	var refusal *working.Refusal
	if err := Write(ctx, Sheet, k, "gone", r.presenter(), A4, &out); !errors.As(err, &refusal) {
		t.Errorf("a tank that is gone: %v", err)
	}
	ended, end := context.WithCancel(ctx)
	end()
	if err := Write(ended, Sheet, k, id, r.presenter(), A4, &out); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if out.Len() != 0 {
		t.Errorf("%d bytes were written of refused documents", out.Len())
	}
	if err := Write(ctx, Kit, k, id, r.presenter(), A4, broken{}); err == nil || err.Error() != "disk full" {
		t.Errorf("a full disk: %v", err)
	}
	if err := Write(ctx, Kit, k, id, r.presenter(), A4, &out); err != nil || !bytes.HasPrefix(out.Bytes(), []byte("%PDF-1.")) {
		t.Errorf("a good document: %v", err)
	}
}

func TestSizes(t *testing.T) {
	// Source: Unicode CLDR, paperSize US-Letter, from memory.
	for region, want := range map[string]Size{"US": Letter, "CA": Letter, "MX": Letter, "PH": Letter, "CO": Letter, "CL": Letter,
		"ES": A4, "DE": A4, "GB": A4, "AR": A4, "JP": A4, "": A4} {
		if got := SizeFor(region); got != want {
			t.Errorf("%q prints on %s, want %s", region, got.Code, want.Code)
		}
	}
	for _, s := range Sizes() {
		if got, ok := SizeNamed(s.Code); !ok || got != s {
			t.Errorf("SizeNamed(%q) = %v", s.Code, got)
		}
	}
}

// Signs can be read in a black and white print: lightness alone keeps word and
// ground apart. Grey is taken by luma; the measure is WCAG's 4.5:1.
func TestSignsSurviveGrey(t *testing.T) {
	grey := func(n look.Name) float64 {
		c := look.Color(n, theme.VariantLight)
		return 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B) // Source: ITU-R BT.601 luma
	}
	for sev, c := range signs {
		g, w := linear(grey(c.ground)), linear(grey(c.text))
		if ratio := (max(g, w) + 0.05) / (min(g, w) + 0.05); ratio < 4.5 {
			t.Errorf("%s: %.1f to 1 in grey", sev, ratio)
		}
	}
	if len(signs) != 4 {
		t.Errorf("%d severities have signs, want 4", len(signs))
	}
}

func TestFormulaSignsAreCovered(t *testing.T) {
	r := readers[0]
	k := r.open(t)
	in := r.gather(t, k, r.example(t, k))
	seen := "ΣΔαβγεηθλμνρστφψω⌈⌉"
	for _, s := range care.Steps() {
		for _, w := range in.page(s).Workings {
			seen += fmt.Sprint(w)
		}
	}
	for _, c := range clean(seen) {
		if !scene.Covers(string(c), scene.Regular) {
			t.Errorf("no font shows %q", c)
		}
	}
}
