package paper

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/sick"
)

// pageOf is the page of an archive of the example tank with something of everything,
// in the words of a reader.
func pageOf(t *testing.T, r reader) []byte {
	t.Helper()
	ctx := context.Background()
	k := r.open(t)
	p := r.presenter()
	tank, err := k.MakeExample(ctx, keeper.Words{Name: "Küche <b>&amp;</b>", Fish: "Zebra", Notice: "Cloudy.\nClear again: \"5 > 3\" & <script>alert(1)</script>",
		Shown: p.Confirmable})
	if err != nil {
		t.Fatal(err)
	}
	fish, err := k.AddFish(ctx, tank, keeper.Fish{Name: "Red <one>", Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	c, err := k.OpenCase(ctx, tank, keeper.Who{Fish: fish}, "", sick.Signs()[0].Code, sick.Signs()[3].Code)
	if err != nil {
		t.Fatal(err)
	}
	entry, err := k.AddEntry(ctx, tank, journal.Entry{Kind: journal.Note, Note: "שלום 🐟 مرحبا", Sick: c})
	if err != nil {
		t.Fatal(err)
	}
	offer, err := k.ProposeRounds(ctx, tank, keeper.RoundBasis{})
	if err != nil {
		t.Fatal(err)
	}
	if err := k.TakeRounds(ctx, tank, offer.Basis, []keeper.Taking{{Proposal: offer.Proposals[0]}, {Proposal: offer.Proposals[1]}}); err != nil {
		t.Fatal(err)
	}
	if _, err := k.AddRound(ctx, tank, rounds.Round{Code: rounds.Own, Title: "Own & <odd>", Rule: rounds.Once(), Start: journal.Civil("2026-12-24T10:00")}); err != nil {
		t.Fatal(err)
	}
	if _, err := k.AddAway(ctx, tank, keeper.Away{First: "2026-12-20", Last: "2026-12-27", Who: "The neighbour"}, false, ""); err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if _, err := k.WriteArchive(ctx, io.Discard, keeper.ArchiveOptions{Language: r.lang, Page: func(_ io.Writer, all keeper.Contents) error { return Archive(&page, p, all) }}, nil); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(page.String(), "e-"+entry) {
		t.Error("the entry of the case has no place")
	}
	return page.Bytes()
}

// The page of an archive is well-formed, tells of everything in the reader's words,
// leads nowhere but to what is on it or beside it, and has no script.
func TestArchivePage(t *testing.T) {
	for _, r := range readers {
		t.Run(r.name, func(t *testing.T) {
			page := pageOf(t, r)
			if dir := os.Getenv("DRIPLOOP_SHOTS"); dir != "" {
				if err := os.WriteFile(filepath.Join(dir, "archive-"+r.lang+".html"), page, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			ids, links, said := map[string]bool{}, []string{}, strings.Builder{}
			d := xml.NewDecoder(bytes.NewReader(page)) // it is well-formed as XML too
			d.Entity = xml.HTMLEntity
			var open []string
			for {
				tok, err := d.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				if err != nil {
					t.Fatal(err)
				}
				switch x := tok.(type) {
				case xml.StartElement:
					name := x.Name.Local
					if slices.Contains([]string{"script", "iframe", "object", "link", "base", "form"}, name) {
						t.Errorf("a %s is on the page", name)
					}
					if len(open) > 0 && open[len(open)-1] == "p" && slices.Contains([]string{"p", "ul", "table", "figure", "section", "h3", "h4", "div", "dl"}, name) {
						t.Errorf("a %s within a paragraph", name)
					}
					open = append(open, name)
					for _, a := range x.Attr {
						switch {
						case a.Name.Local == "id" && ids[a.Value]:
							t.Errorf("the place %s stands twice", a.Value)
						case a.Name.Local == "id":
							ids[a.Value] = true
						case a.Name.Local == "href" || a.Name.Local == "src":
							links = append(links, a.Value)
						case strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style":
							t.Errorf("%s has %s", name, a.Name.Local)
						case name == "img" && a.Name.Local == "alt" && a.Value == "":
							t.Error("a picture says nothing")
						}
					}
				case xml.EndElement:
					open = open[:len(open)-1]
				case xml.CharData:
					if len(open) > 0 && open[len(open)-1] != "style" {
						said.Write(x)
					}
				}
			}
			for _, l := range links {
				place, here := strings.CutPrefix(l, "#")
				switch {
				case here && !ids[place]:
					t.Errorf("%s leads nowhere", l)
				case !here && !filepath.IsLocal(filepath.FromSlash(l)):
					t.Errorf("%s leads elsewhere", l)
				}
			}
			w := i18n.Speak(r.lang, r.region, r.units)
			sign, _ := sick.SignOf(sick.Signs()[0].Code)
			text := said.String()
			for _, want := range []string{"Küche <b>&amp;</b>", "<script>alert(1)</script>", "Red <one>", "Own & <odd>", "שלום 🐟 مرحبا", "The neighbour", w.T(sign.Message(), nil),
				w.T("nav.fish", nil), w.T("nav.rounds", nil), w.T("page.sick.heading", nil), w.T("page.archive.away", nil), w.T("page.archive.tests", nil), w.T("nav.daybook", nil)} {
				if !strings.Contains(text, want) {
					t.Errorf("%q is not on the page", want)
				}
			}
			if strings.Contains(text, "«") || strings.Contains(text, "ZgotmplZ") || strings.Contains(text, "{{") {
				t.Errorf("something was left out: %s", text)
			}
		})
	}
}
