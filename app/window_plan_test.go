//go:build e2e && linux

package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/nav"
)

// says holds when the texts of the window, line after line, have that part in them.
func says(part string) func(shown) bool {
	return func(m shown) bool { return strings.Contains(strings.Join(m.top().Texts, " "), part) }
}

// reachable holds when a part with that ID can be reached by keyboard.
func reachable(id string) func(shown) bool {
	return func(m shown) bool {
		return slices.ContainsFunc(m.top().Parts, func(x shownPart) bool { return x.ID == id })
	}
}

// place goes to a place of the bar at the top by its name.
func (p *program) place(name string) {
	p.t.Helper()
	for _, x := range p.see().top().Parts {
		if x.Text == name {
			p.click(x)
			return
		}
	}
	p.t.Fatalf("no %q in the bar", name)
}

// A newcomer with 38 L wishes for two danios, is stopped at a common pleco, is told
// why angelfish and neons take care, plans four weeks and more, and prints it.
func TestWindowPlan(t *testing.T) {
	folder := os.Getenv(picturesVariable)
	if folder == "" {
		folder = t.TempDir()
	}
	for _, lang := range []string{"en", "es"} {
		t.Run(lang, func(t *testing.T) {
			w := i18n.Speak(lang, "US", quantity.US)
			name := func(c fish.Code) string { return w.T(c.Name(), nil) }
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			s.must(s.binary, "demo", flagData, dir, flagLang, lang)
			p := s.launch(flagData, dir, flagLang, lang)
			p.until("the page of today", at(nav.Today, ""))
			n := 0
			var img image.Image
			shot := func(name string) {
				n++
				img = p.turned(img)
				lookAt(img).written(t)
				write(t, filepath.Join(folder, fmt.Sprintf("plan-%s-%02d-%s.png", lang, n, name)), img)
			}
			// look opens a kind in the catalogue by its scientific name.
			look := func(code fish.Code) {
				t.Helper()
				a, err := fish.Get(code)
				if err != nil {
					t.Fatal(err)
				}
				p.to("view_kinds")
				p.keys("Return")
				p.until("the catalogue", at(nav.Kinds, ""))
				p.to("find-kind")
				p.keys("ctrl+a")
				p.write(a.Scientific)
				p.until(a.Scientific+" found", says(a.Scientific))
				p.to("find-kind")
				p.keys("Down")
				p.until("the rows", seen("kinds"))
				p.keys("Return")
				p.until("the kind", reachable("all-kinds"))
			}
			p.place(w.T("nav.fish", nil))
			p.until("the fish", at(nav.Fish, ""))

			p.to("view_kinds")
			p.keys("Return")
			p.until("the catalogue", at(nav.Kinds, ""))
			p.to("only-fits")
			p.keys("space")
			look("danio-rerio")
			p.to("count")
			p.keys("ctrl+a")
			p.write("2")
			shot("danios")
			p.to("wish")
			p.keys("Return")
			p.until("the wish", says(w.T("page.kind.wished", nil)))

			p.to("view_kinds")
			look("hypostomus-plecostomus")
			shot("pleco")
			p.until("the pleco is stopped", says(name("hypostomus-plecostomus")))

			look("paracheirodon-innesi")
			p.to("wish")
			p.keys("Return")
			p.until("the wish", says(w.T("page.kind.wished", nil)))
			look("pterophyllum-scalare")
			p.until("why angelfish and neons take care", says(name("paracheirodon-innesi")))
			shot("angelfish")
			look("neocaridina-davidi")
			p.to("wish")
			p.keys("Return")
			p.until("the wish", says(w.T("page.kind.wished", nil)))

			p.to("view_plan")
			p.keys("Return")
			p.until("the plan", at(nav.Plan, ""))
			p.to("leave-out-neocaridina-davidi")
			shot("wishes")
			p.keys("Return")
			p.until("the shrimp are left out", says(w.T("page.plan.left_out", nil)))
			p.to("count-danio-rerio")
			p.keys("ctrl+a")
			p.write("6")
			shot("count")
			p.keys("Return")
			p.until("the plan has changed", says(w.T("page.plan.changed", nil)))
			p.to("males-danio-rerio")
			p.write("2")
			p.keys("Return")
			p.until("a male with each purchase", says(w.N("page.stock.males_of", 1, nil)))
			shot("plan")
			p.to("slip")
			shot("steps")
			p.keys("Return")
			paper := filepath.Join(s.home, "driploop-stocking-plan.pdf")
			eventually(t, func() string {
				if raw, err := os.ReadFile(paper); err != nil || !bytes.HasPrefix(raw, []byte("%PDF")) {
					return "no paper at " + paper
				}
				return ""
			})
			text := s.must("pdftotext", "-layout", paper, "-")
			for _, part := range []string{name("danio-rerio"), "Danio rerio", "Paracheirodon innesi", w.T("paper.stocking", nil)} {
				if !strings.Contains(text, part) {
					t.Errorf("the paper lacks %q:\n%s", part, text)
				}
			}
			for _, part := range []string{"Hypostomus", "Pterophyllum", "Neocaridina"} {
				if strings.Contains(text, part) {
					t.Errorf("%s is on the paper", part)
				}
			}
			shot("printed")
			p.close()

			s.sound(dir)
			k := keep(t, dir)
			defer k.Close()
			ctx := context.Background()
			tanks, err := k.Tanks(ctx)
			if err != nil || len(tanks) == 0 {
				t.Fatalf("%d tanks: %v", len(tanks), err)
			}
			plan, err := k.FishPlan(ctx, tanks[0].ID)
			if err != nil || len(plan.Wishes) != 2 || plan.Wishes[0].Wish.Count != 6 || *plan.Wishes[0].Wish.Males != 2 || len(plan.Plan.Steps) < 3 || plan.Plan.Done.Sub(plan.At).Hours() < 28*24 {
				t.Errorf("the plan is %+v: %v", plan.Plan, err)
			}
		})
	}
}
