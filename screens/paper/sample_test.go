package paper

import (
	"bytes"
	"context"
	"errors"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

var noon = time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))

// A reader is a person whose papers are made.
type reader struct {
	name, lang, region string
	units              quantity.System
}

var readers = []reader{
	{"English, US", "en", "US", quantity.US}, {"English, metric", "en", "GB", quantity.Metric},
	{"Spanish, US units", "es", "MX", quantity.US}, {"Spanish, metric", "es", "ES", quantity.Metric},
}

func (r reader) presenter() present.Presenter {
	return present.Presenter{W: i18n.Speak(r.lang, r.region, r.units), Region: care.Region{Code: r.region}}
}

func (r reader) open(t *testing.T) *keeper.Keeper {
	t.Helper()
	k, err := keeper.Open(context.Background(), t.TempDir(), keeper.Options{Now: func() time.Time { return noon }, Region: care.Region{Code: r.region}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { k.Close() })
	return k
}

// example makes the example tank with the words that stand on the screen.
func (r reader) example(t *testing.T, k *keeper.Keeper) string {
	t.Helper()
	p := r.presenter()
	id, err := k.MakeExample(context.Background(), keeper.Words{Name: p.W.T("example.name", nil), Fish: p.W.T("example.fish", nil),
		Notice: p.W.T("example.notice", nil), Shown: p.Confirmable})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// eachReader runs a test for every reader, who has the example tank.
func eachReader(t *testing.T, test func(t *testing.T, r reader, k *keeper.Keeper, id string)) {
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			k := r.open(t)
			test(t, r, k, r.example(t, k))
		})
	}
}

// refuses wants a paper to be refused with a code, and nothing to be written.
func (r reader) refuses(t *testing.T, kind Kind, k *keeper.Keeper, id string, code working.Key) {
	t.Helper()
	var none bytes.Buffer
	var refused *working.Refusal
	if err := Write(context.Background(), kind, k, id, r.presenter(), SizeFor(r.region), &none); !errors.As(err, &refused) || refused.Code != code || none.Len() > 0 {
		t.Fatalf("%s: %v, %d bytes; want %s", kind, err, none.Len(), code)
	}
}

// writes wants a paper to be written.
func (r reader) writes(t *testing.T, kind Kind, k *keeper.Keeper, id string) {
	t.Helper()
	var b bytes.Buffer
	if err := Write(context.Background(), kind, k, id, r.presenter(), SizeFor(r.region), &b); err != nil || b.Len() < 1000 {
		t.Errorf("%s: %v, %d bytes", kind, err, b.Len())
	}
}

func (r reader) gather(t *testing.T, k *keeper.Keeper, id string) Input {
	t.Helper()
	in, err := Gather(context.Background(), k, id, r.presenter(), SizeFor(r.region))
	if err != nil {
		t.Fatal(err)
	}
	return in
}

func document(t *testing.T, kind Kind, in Input) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, kind, in, false); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

var shown = regexp.MustCompile(`(?s)Td \((.*?[^\\])\) Tj`)

// textOf reads the text of an uncompressed document, in its order, with single
// spaces.
func textOf(pdf []byte) string {
	var out []string
	for _, m := range shown.FindAllSubmatch(pdf, -1) {
		raw := strings.NewReplacer(`\\`, `\`, `\(`, `(`, `\)`, `)`, `\r`, "\r").Replace(string(m[1]))
		var units []uint16
		for i := 0; i+1 < len(raw); i += 2 {
			units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
		}
		out = append(out, string(utf16.Decode(units)))
	}
	return flat(strings.Join(out, " "))
}

// flat makes all space single spaces, as a text is compared.
func flat(s string) string { return strings.Join(strings.Fields(s), " ") }

// says wants every sentence to stand in the text of a paper, on however many lines.
func says(t *testing.T, paper, text string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains(text, flat(w)) {
			t.Errorf("%s: does not say %q", paper, w)
		}
	}
}

// within wants all of a paper's pages to keep to the margins of the sheet as it lies.
func within(t *testing.T, paper string, pages []*page, lies Size) {
	t.Helper()
	for i, p := range pages {
		if e := p.scene.Extent(plain); e.Min.X < marginX-0.3 || e.Max.X > lies.W-marginX+0.3 || e.Min.Y < 7 || e.Max.Y > lies.H-6 {
			t.Errorf("%s, page %d: reaches %v on %v", paper, i+1, e, lies)
		}
	}
}
