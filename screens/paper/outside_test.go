package paper

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// A household has everything that there is a paper of.
type household struct {
	k                        *keeper.Keeper
	tank, ill, sick, profile string
}

// furnish makes one.
func furnish(t *testing.T) household {
	t.Helper()
	ctx := context.Background()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	r := readers[1]
	h := household{k: r.open(t)}
	h.tank = r.example(t, h.k)
	outing(t, h.k, h.tank)
	takeUp(t, h.k, h.tank)
	_, err := h.k.AddAway(ctx, h.tank, keeper.Away{First: "2026-12-20", Last: "2026-12-27", Who: "Ana", Note: "Post, please (box 2)"}, false, "")
	must(err)
	h.ill, h.sick = r.ill(t, h.k)
	must(h.k.SetShop(ctx, slip.Shop{Name: "The shop at the corner", Address: "1 High Street\nTown", Hours: "9 to 6"}, map[string]string{"en": "Bring a sample of your water."}))
	h.profile, err = h.k.StartProfile(ctx, "Starter 54", quantity.Metric)
	must(err)
	for _, step := range care.Steps() {
		if slip.Marked(step) {
			must(h.k.CarryOn(ctx, h.profile, step))
		}
	}
	return h
}

// takeUp takes up the usual rounds of a tank.
func takeUp(t *testing.T, k *keeper.Keeper, tank string) {
	t.Helper()
	ctx := context.Background()
	o, err := k.ProposeRounds(ctx, tank, keeper.RoundBasis{})
	if err != nil {
		t.Fatal(err)
	}
	var take []keeper.Taking
	for _, p := range o.Proposals {
		take = append(take, keeper.Taking{Proposal: p})
	}
	if err := k.TakeRounds(ctx, tank, keeper.RoundBasis{}, take); err != nil {
		t.Fatal(err)
	}
}

// papers are all documents there are.
var papers = []Kind{Sheet, Kit, Neighbour, Stocking, Home, CareCalendar, Case, VisitSlip, ReplySlip, Profile}

// laid lays a paper of the household out.
func (h household) laid(t *testing.T, kind Kind, p present.Presenter, size Size) (*Input, []*page, Size) {
	t.Helper()
	ctx := context.Background()
	var in Input
	var err error
	switch kind {
	case Case:
		in, err = GatherCase(ctx, h.k, h.ill, h.sick, p, size, nil)
	case VisitSlip:
		ask := keeper.VisitAsk{Days: keeper.VisitDays, Case: h.sick, Label: "Tank in the hall", Private: slip.Privates(), Questions: []string{"Is it the water?"}, Language: p.W.Language()}
		in, err = gatheredVisit(h.k, h.ill, ask, p, size)
	case ReplySlip:
		in, err = gatherReply(ctx, h.k, answering(t, h.k), p, size)
	case Profile:
		var ready keeper.Ready
		if ready, err = h.k.PrepareHandOut(ctx, h.profile); err != nil {
			break
		}
		if in, err = Gather(ctx, h.k, h.profile, p, size); err == nil {
			in.Handed, err = handedOf(ctx, h.k, h.profile, ready, in.Presenter)
		}
	default:
		if in, err = Gather(ctx, h.k, h.tank, p, size); err != nil {
			break
		}
		switch kind {
		case Neighbour:
			in.Neighbour, err = h.k.Neighbour(ctx, h.tank)
		case Home:
			in.Bags, err = h.k.Bags(ctx, h.tank)
		case Stocking:
			err = in.gatherStocking(ctx, h.k, h.tank)
		case CareCalendar:
			err = in.gatherCare(ctx, h.k, h.tank, keeper.CareDays)
		}
	}
	if err != nil {
		t.Fatalf("%s, %s: %v", kind, p.W.Language(), err)
	}
	ps, laid := pages(kind, &in)
	return &in, ps, laid
}

// tool runs a program that reads documents; without it the test fails, because
// nothing would be checked.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v (Debian: qpdf, poppler-utils)\n%s%s", name, err, out.String(), said.String())
	}
	if said.Len() > 0 {
		t.Errorf("%s: %s", name, said.String())
	}
	return out.String()
}

// bare is a text without its spaces, which no two readers of a document agree on.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

// Every paper in every language, as other programs see it: sound by qpdf, every line
// there by pdftotext and none cut, every font embedded and with its characters by
// pdffonts. The lines are those the pages were made of. With every test each paper is
// made in each language on one of the sizes, every second language on the other; in the
// drill on both.
func TestOutsideReadersOfPapers(t *testing.T) {
	h := furnish(t)
	dir := t.TempDir()
	for i, lang := range i18n.Languages() {
		t.Run(lang, func(t *testing.T) {
			p := present.Presenter{W: i18n.Speak(lang, usualRegion[lang], quantity.Metric), Region: care.Region{Code: "GB"}}
			lines := 0
			for j, kind := range papers {
				for n, size := range Sizes() {
					if !drill.Listed() && (i+j+n)%len(Sizes()) != 0 {
						continue
					}
					in, ps, laid := h.laid(t, kind, p, size)
					var b bytes.Buffer
					if err := in.bind(&b, kind, ps, laid, true); err != nil {
						t.Fatal(err)
					}
					file := filepath.Join(dir, fmt.Sprintf("%s-%s-%s.pdf", kind, lang, size.Code))
					if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
						t.Fatal(err)
					}
					lines += readOutside(t, file, ps)
				}
			}
			if lines < 1000 { // a language has some 1700 on one size
				t.Errorf("only %d lines were read", lines)
			}
		})
	}
}

// usualRegion is where a language is read here: on its first day of the week and by
// its clock.
var usualRegion = map[string]string{"en": "US", "de": "DE", "ja": "JP", "uk": "UA", "tr": "TR"}

// overlap reports whether two lines of text lie over each other or touch: by a third of
// their height, and with less than half a millimetre between them.
func overlap(a, b scene.Box) bool {
	high := min(a.H(), b.H()) / 3
	return min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X) > -0.5 && min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y) > high
}

// readOutside looks at one paper with the programs, and counts its lines.
func readOutside(t *testing.T, file string, ps []*page) int {
	t.Helper()
	name := filepath.Base(file)
	if said := tool(t, "qpdf", "--check", file); !strings.Contains(said, "No syntax or stream encoding errors found") {
		t.Errorf("%s: %s", name, said)
	}
	read := strings.Split(tool(t, "pdftotext", "-raw", "-enc", "UTF-8", file, "-"), "\f")
	if len(read) != len(ps)+1 {
		t.Fatalf("%s: %d pages are read, want %d", name, len(read)-1, len(ps))
	}
	lines := 0
	for i, p := range ps {
		want := p.scene.Texts(plain)
		for j, l := range want {
			for _, m := range want[:j] {
				if overlap(l.Box, m.Box) {
					t.Errorf("%s, page %d: %q lies over %q", name, i+1, l.S, m.S)
				}
			}
		}
		for _, g := range p.figures {
			want = append(want, g.scene.Texts(g.at)...)
		}
		seen := bare(read[i])
		for _, x := range want {
			l := x.S
			lines++
			if !strings.Contains(seen, bare(l)) {
				t.Errorf("%s, page %d: the line is not read: %q", name, i+1, l)
			}
			if strings.Contains(l, "…") {
				t.Errorf("%s, page %d: a line is cut: %q", name, i+1, l)
			}
		}
	}
	about := tool(t, "pdfinfo", file)
	for _, w := range []string{`Title: +\S`, `Producer: +Driploop`, `Metadata Stream: +yes`, fmt.Sprintf(`Pages: +%d\b`, len(ps))} {
		if !regexp.MustCompile(w).MatchString(about) {
			t.Errorf("%s: %q is not in what it is said to be:\n%s", name, w, about)
		}
	}
	rows := strings.Split(strings.TrimSpace(tool(t, "pdffonts", file)), "\n")
	if len(rows) < 4 {
		t.Errorf("%s: %d fonts", name, len(rows)-2)
	}
	for _, row := range rows[2:] {
		// Name, type in two words, encoding, embedded, subset, with characters, object.
		f := strings.Fields(row)
		if len(f) != 9 || f[1]+f[2] != "CIDTrueType" || f[4] != "yes" || f[6] != "yes" {
			t.Errorf("%s: a font is not embedded with its characters: %s", name, row)
		}
	}
	return lines
}

// allowed are the errors of a check for part 1 that are none in part 2 of ISO 19005:
// which part it is, see-through parts, and a list of files inside, here empty.
var allowed = []string{"7.11.2", "2.2.1", "4.1.2", "1.4.7"}

var preflightError = regexp.MustCompile(`(?m)^(\d[\d.]*) : (.*)$`)

// Papers are PDF/A-2b. Source: the preflight check of PDFBox 2 for PDF/A-1b (ISO
// 19005-1), of which part 2 takes back what is listed above; a document without its
// identifier shows that it looks. It is asked in the drill.
func TestOutsideCheckOfPDFA(t *testing.T) {
	if !drill.Listed() {
		t.Log("PDFBox is asked in the drill")
		return
	}
	h := furnish(t)
	dir := t.TempDir()
	made := 0
	for _, lang := range i18n.Languages() {
		p := present.Presenter{W: i18n.Speak(lang, usualRegion[lang], quantity.Metric), Region: care.Region{Code: "GB"}}
		for _, kind := range papers {
			in, ps, laid := h.laid(t, kind, p, A4)
			var b bytes.Buffer
			if err := in.bind(&b, kind, ps, laid, true); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%s.pdf", kind, lang)), b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			if made++; made == 1 {
				bad := regexp.MustCompile(`/ID \[[^]]*\]\n`).ReplaceAll(b.Bytes(), nil)
				if err := os.WriteFile(filepath.Join(dir, "without.pdf"), bad, 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	var jars []string
	for _, j := range []string{"pdfbox2", "preflight", "xmpbox", "fontbox2", "commons-logging", "commons-io", "javax.activation", "jaxb-api"} {
		jars = append(jars, "/usr/share/java/"+j+".jar")
	}
	out, err := exec.Command("java", "-cp", strings.Join(jars, ":"), "org.apache.pdfbox.preflight.Validator_A1b", "group", dir).Output()
	if ended := (*exec.ExitError)(nil); err != nil && !errors.As(err, &ended) {
		t.Fatal(err)
	}
	told := strings.Split(string(out), "The file ")[1:]
	lost, noticed := 0, false
	for _, about := range told {
		name, _, _ := strings.Cut(about, " is ")
		for _, e := range preflightError.FindAllStringSubmatch(about, -1) {
			switch {
			case name == "without.pdf" && e[1] == "1.4.1":
				noticed = true
			case !slices.Contains(allowed, e[1]):
				t.Errorf("%s: %s", name, e[0])
				lost++
			}
		}
	}
	if len(told) != made+1 || !noticed {
		t.Errorf("%d of %d papers were looked at; a missing identifier was noticed: %v", len(told), made+1, noticed)
	}
	drill.Tally(t, "paper", "papers in every language as PDF/A, by PDFBox", made, lost)
}
