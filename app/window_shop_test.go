//go:build e2e && linux

package main

import (
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
)

// press goes to a part by Tab and presses Enter.
func (p *program) press(id string) {
	p.t.Helper()
	p.to(id)
	p.keys("Return")
}

// fill types into a box in place of what stands there.
func (p *program) fill(id, text string) {
	p.t.Helper()
	p.to(id)
	p.keys("ctrl+a")
	p.write(text)
	p.until(id+" is typed", func(m shown) bool { return strings.Contains(m.top().part(id).Text, text) })
}

// choose chooses the option of a list by its first letter.
func (p *program) choose(id, option string) {
	p.t.Helper()
	p.to(id)
	p.write(string([]rune(option)[:1]))
	p.until(option+" is chosen", func(m shown) bool { return strings.HasSuffix(m.top().part(id).Text, option) })
}

// names holds when the window says the name of a file, wherever its lines are broken.
func names(path string) func(shown) bool {
	return func(m shown) bool {
		return strings.Contains(strings.Join(strings.Fields(m.top().all()), ""), filepath.Base(path))
	}
}

// newest is the latest file of an ending in the folder of the person's documents.
func (s *screen) newest(ending string) string {
	s.t.Helper()
	var path string
	eventually(s.t, func() string {
		all, err := filepath.Glob(filepath.Join(s.home, "*"+ending))
		if err != nil || len(all) == 0 {
			return "no file " + ending + " in " + s.home
		}
		slices.SortFunc(all, func(a, b string) int {
			x, _ := os.Stat(a)
			y, _ := os.Stat(b)
			return x.ModTime().Compare(y.ModTime())
		})
		path = all[len(all)-1]
		return ""
	})
	return path
}

// Three people on two data folders. The adviser of a shop prepares a profile at the
// Counter and hands it out as a file. A beginner opens the file at home, reads it in
// full and takes it. A fish of theirs looks wrong: they open a case with a picture, test
// the water, and make a visit slip. The adviser takes the slip onto the desk, tests,
// advises, proposes a round and a change of the plan, and writes a reply. At home one
// proposal is taken and one is left, and what was taken stands in the daybook as the
// shop's.
func TestWindowShop(t *testing.T) {
	folder := os.Getenv(picturesVariable)
	if folder == "" {
		folder = t.TempDir()
	}
	for _, lang := range windowLanguages {
		t.Run(lang, func(t *testing.T) { playShop(t, lang, folder, nil) })
	}
}

// playShop plays it in one language; pictures go into folder, and dress, which may be
// nil, is given each data folder before the window first opens it.
func playShop(t *testing.T, lang, folder string, dress func(dir string)) {
	s := newScreen(t)
	w := i18n.Speak(lang, "US", quantity.US)
	tr := func(k working.Key) string { return w.T(k, nil) }
	number := func(s string) string { return strings.Replace(s, ".", string(w.Decimal()), 1) }
	shop, home := filepath.Join(openTemp(t), "shop"), filepath.Join(openTemp(t), "home")
	n := 0
	var p *program
	var img image.Image
	shot := func(name string) {
		t.Helper()
		n++
		img = p.turned(img)
		if x := p.see().top().focused(); x.H > 0 && (x.Y < 0 || x.Y+x.H > img.Bounds().Dy()) {
			t.Errorf("%s: %s has the focus out of view, at %d to %d", name, x.ID, x.Y, x.Y+x.H)
		}
		lookAt(img).written(t)
		write(t, filepath.Join(folder, fmt.Sprintf("shop-%s-%02d-%s.png", lang, n, name)), img)
	}
	open := func(dir string, files ...string) {
		t.Helper()
		if dress != nil {
			dress(dir)
		}
		p = s.launch(append([]string{flagData, dir, flagLang, lang, flagUnits, string(quantity.US)}, files...)...)
		img = nil
	}

	// The shop.
	open(shop)
	p.until("the first page", at(nav.Start, ""))
	p.place(tr("nav.counter"))
	p.until("the counter", at(nav.Counter, ""))
	shot("counter-empty")
	p.press("shop")
	p.until("the card", seen("shop-name"))
	p.write("Corner shop")
	p.fill("shop-address", "1 Water Lane")
	p.fill("shop-hours", "Tue to Sat 10 to 18")
	p.fill("note", "Bring your test kit.")
	shot("card")
	p.press("keep")
	p.until("the card is kept", says("1 Water Lane"))
	p.press("new")
	p.until("the name", seen("name"))
	p.keys("ctrl+a")
	p.write("Ten gallons")
	p.keys("Return")
	p.until("the first step of the profile", at(nav.Draft, care.TankPlace))
	shot("draft")
	for i, step := range []care.Step{care.TankPlace, care.KitList, care.StandFloor, care.FillTreat, care.Settle, care.FirstFish} {
		p.until("step "+string(step), at(nav.Draft, step))
		if i > 0 {
			shot("draft-" + string(step))
		}
		if got, want := p.see().top().part("carry-on").Text, tr("label.carry_on"); got != want {
			t.Errorf("at %s the button says %q, want %q", step, got, want)
		}
		switch step {
		case care.KitList:
			p.fill("heater.watts", "75 W")
		case care.StandFloor: // what the check asks for: a deeper stand, and a floor that is known
			p.fill("stand.depth", "16 in")
			p.choose("floor.kind", tr("option.floor.kind.slab"))
			shot("draft-holds")
		}
		p.press("carry-on")
	}
	p.until("the profile, which every check holds", func(m shown) bool { return seen("file")(m) && says(tr("page.counter.holds"))(m) })
	shot("profile")
	p.press("edit-plan")
	p.until("the usual rounds", func(m shown) bool { return at(nav.DraftRounds, "")(m) && reachable("take")(m) })
	shot("plan-usual")
	p.press("take")
	p.until("the care plan again", reachable("usual"))
	shot("plan")
	p.press("back")
	p.until("the profile again", seen("file"))
	p.press("edit-notes")
	p.until("the notes", seen("note"))
	p.write("Feed little.")
	shot("notes")
	p.press("keep")
	p.until("the note is kept", func(m shown) bool { return says("Feed little.")(m) && seen("edit-notes")(m) })
	shot("profile-whole")
	p.press("all")
	p.until("all profiles", seen("new"))
	shot("counter")

	// From any page: the Counter, the profile's button for a file, and that is all.
	p.place(tr("nav.counter"))
	p.until("the counter", at(nav.Counter, ""))
	m := p.see()
	i := slices.IndexFunc(m.top().Parts, func(x shownPart) bool { return strings.HasPrefix(x.ID, "file-") })
	if i < 0 {
		t.Fatal("no profile can be handed out from the counter")
	}
	p.press(m.top().Parts[i].ID)
	profile := s.newest(".dlprofile")
	p.until("it is told where the file is", names(profile))
	shot("handed-out")
	p.close()

	// At home: the program is called with the file, as by a double click.
	open(home, profile)
	p.until("the profile is offered", seen("take"))
	for _, part := range []string{"Ten gallons", "Corner shop", "1 Water Lane", "Tue to Sat 10 to 18", "75", "Feed little.", "Bring your test kit."} {
		if !says(part)(p.see()) {
			t.Errorf("the offered profile does not say %q", part)
		}
	}
	shot("offered")
	p.keys("Next")
	shot("offered-more")
	p.keys("Escape")
	p.until("the first page, with nothing taken", func(m shown) bool { return at(nav.Start, "")(m) && m.Tank == "" && seen("begin")(m) })
	p.drop(profile)
	p.until("the profile is offered where it is dropped", seen("take"))
	p.keys("Return")
	p.until("the tank of the profile", at(nav.FirstFill, care.TankPlace))
	shot("taken")
	p.keys("ctrl+3")
	p.until("the daybook", at(nav.Daybook, ""))
	p.keys("ctrl+e")
	p.until("the cases", at(nav.Sick, ""))
	p.to("case-about")
	p.write("Old Grey")
	p.press("open-case")
	p.until("the signs", seen("sign-search"))
	for _, sign := range []string{"sign-clamped_fins", "sign-cotton_tufts"} {
		p.to(sign)
		p.keys("space")
	}
	p.press("what-to-do")
	p.until("the case", seen("add-pictures"))
	p.drop(photographs(t, 1)...)
	p.until("the question when it was taken", seen("as_file"))
	p.keys("Return")
	p.until("the picture", func(m shown) bool {
		return m.Place == string(nav.Sick) && slices.ContainsFunc(m.top().Parts, func(x shownPart) bool { return strings.HasPrefix(x.ID, "picture_") })
	})
	shot("case")
	p.press("test-" + journal.NameNitrite)
	p.until("the form of a test", seen(journal.NameNitrite))
	shot("test")
	p.write(number("0.75"))
	p.press("keep")
	p.until("the case with the test", func(m shown) bool { return m.Place == string(nav.Sick) && says(number("0.75"))(m) })
	shot("tested")
	p.press("visit")
	p.until("the visit slip", at(nav.Visit, ""))
	p.fill("visit-label", "Ana")
	p.fill("visit-questions", "Is it the water?")
	shot("visit")
	p.press("visit-save")
	visit := s.newest(".dlvisit")
	p.until("it is told where the slip is", names(visit))
	shot("visit-saved")
	p.close()

	// The shop's window is open when a second start brings the slip.
	open(shop)
	p.until("the first page", at(nav.Start, ""))
	second := s.start(nil, flagData, shop, flagLang, lang, visit)
	second.ends(exitDone)
	p.until("the slip is shown", seen("close"))
	for _, part := range []string{"Ana", "Old Grey", "Is it the water?"} {
		if !says(part)(p.see()) {
			t.Errorf("the slip that was opened does not say %q", part)
		}
	}
	shot("slip-opened")
	p.press("keep")
	p.until("the slip is on the desk", func(m shown) bool { return at(nav.Desk, "")(m) && reachable("reply-write")(m) })
	shot("desk-slip")
	p.fill("reply-nitrite", number("0.3"))
	p.fill("reply-ph", number("7.2"))
	p.fill("reply-advice-"+lang, "Feed every other day.")
	shot("reply-test")
	p.fill("reply-round-why", "Until nitrite stays away.")
	p.press("reply-add-round")
	p.until("the round is proposed", reachable("drop-round.1"))
	shot("reply-round")
	p.press("reply-add-plan") // of no kind yet: the keyboard goes to what is missing
	p.until("a kind is asked for", seen("reply-kind"))
	p.keys("space")
	p.until("the list of kinds is open", func(m shown) bool { return m.top().part("reply-kind").ID == "" })
	danio := w.T(fish.Code("danio-rerio").Name(), nil)
	p.write(danio)
	shot("reply-kind")
	p.keys("Return")
	p.until("a kind is chosen", func(m shown) bool { return strings.Contains(m.top().part("reply-kind").Text, danio) })
	p.fill("reply-count", "4")
	p.fill("reply-plan-why", "They like company.")
	p.press("reply-add-plan")
	p.until("the change is proposed", reachable("drop-plan.1"))
	shot("reply-plan")
	p.press("reply-write")
	reply := s.newest(".dlreply")
	p.until("it is told where the reply is", names(reply))
	shot("reply-written")
	p.press("back")
	p.until("the desk", reachable("receive"))
	shot("desk")
	p.close()

	// At home the reply is opened by the button of the visit slip and chosen in the list.
	open(home)
	p.until("where one left off", at(nav.FirstFill, care.TankPlace))
	p.keys("ctrl+3")
	p.until("the daybook", at(nav.Daybook, ""))
	p.press("view_visit")
	p.until("the visit slip", at(nav.Visit, ""))
	p.press("visit-reply")
	p.until("the files", seen("files"))
	shot("choose")
	p.keys("End", "Return") // folders come first
	p.until("the reply", seen("reply-take"))
	for _, part := range []string{"Corner shop", tr("page.reply.heading"), "Feed every other day.", "Until nitrite stays away.", danio, "They like company."} {
		if !says(part)(p.see()) {
			t.Errorf("the opened reply does not say %q", part)
		}
	}
	shot("reply")
	p.to("reply-plan.1")
	p.keys("space") // left
	p.press("reply-take")
	p.until("it is told that something was taken", func(m shown) bool { return says(tr("page.reply.again_note"))(m) && seen("leave")(m) })
	shot("reply-taken")
	p.press("leave")
	p.until("the visit slip again", at(nav.Visit, ""))
	shot("reply-shut")
	p.keys("ctrl+3")
	p.until("the entry from the shop", func(m shown) bool {
		return at(nav.Daybook, "")(m) && says(w.T("page.day.of_shop", i18n.Args{"Kind": tr("entry.tested")}))(m)
	})
	shot("daybook")
	p.keys("ctrl+5")
	p.until("the rounds", at(nav.Rounds, ""))
	shot("rounds")
	p.close()

	handedOut(t, s, shop, visit)
	livedIn(t, s, home, reply, w)
}

// handedOut wants in the shop's folder the profile, handed out once as a file, and the
// slip with one reply; no tank and no daybook of the customer's.
func handedOut(t *testing.T, s *screen, dir, visit string) {
	t.Helper()
	ctx := context.Background()
	s.sound(dir)
	k := keep(t, dir)
	defer k.Close()
	tanks, err := k.Tanks(ctx)
	if err != nil || len(tanks) != 0 {
		t.Errorf("the shop has the tanks %+v: %v", tanks, err)
	}
	cards, err := k.Profiles(ctx)
	if err != nil || len(cards) != 1 || cards[0].Tank.Name != "Ten gallons" || len(cards[0].Failed) != 0 {
		t.Fatalf("the catalogue is %+v: %v", cards, err)
	}
	outs, err := k.HandOuts(ctx, cards[0].Tank.ID)
	if err != nil || len(outs) != 1 || outs[0].Way != keeper.ByFile || outs[0].Edition != 1 {
		t.Errorf("handed out: %+v, %v", outs, err)
	}
	v, _, err := k.OpenVisit(ctx, visit)
	if err != nil {
		t.Fatal(err)
	}
	o, err := k.DeskVisit(ctx, v.ID)
	if err != nil || o.Label != "Ana" || len(o.Visit.Pictures) != 1 || o.Visit.Case == nil || len(o.Visit.Case.Signs) != 2 || len(o.Replies) != 1 {
		t.Errorf("on the desk: %+v, %v", o, err)
	}
	if all, open, err := k.DeskCount(ctx); err != nil || all != 1 || open != 0 {
		t.Errorf("%d slips, %d without a reply: %v", all, open, err)
	}
}

// livedIn wants in the keeper's folder the tank of the profile, the case with its
// picture, and of the reply what was taken and nothing else.
func livedIn(t *testing.T, s *screen, dir, reply string, w *i18n.Words) {
	t.Helper()
	ctx := context.Background()
	s.sound(dir)
	k := keep(t, dir)
	defer k.Close()
	tanks, err := k.Tanks(ctx)
	if err != nil || len(tanks) != 1 || tanks[0].Origin != keeper.FromProfile {
		t.Fatalf("the tanks are %+v: %v", tanks, err)
	}
	tank := tanks[0].ID
	r, err := k.Record(ctx, tank)
	if a := r.Answers["heater.watts"]; err != nil || a.Measure != (quantity.Measure{Number: "75", Unit: "w"}) {
		t.Errorf("the heater is %+v: %v", a, err)
	}
	if h, ok, err := k.HandedBy(ctx, tank); err != nil || !ok || h.Shop.Name != "Corner shop" || h.Edition != 1 || len(h.Marks) != 0 {
		t.Errorf("handed over by %+v, %v", h, err)
	}
	cs, err := k.Cases(ctx, tank)
	if err != nil || len(cs) != 1 || cs[0].About != "Old Grey" || len(cs[0].Signs) != 2 {
		t.Fatalf("the cases are %+v: %v", cs, err)
	}
	if ps, err := k.Photos(ctx, tank, keeper.PhotoFilter{Sick: cs[0].ID}); err != nil || len(ps) != 1 {
		t.Errorf("%d pictures of the case: %v", len(ps), err)
	}
	days, err := k.Days(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	own, shops := 0, 0
	for _, d := range days {
		for _, e := range d.Entries {
			n, _ := e.Get(journal.NameNitrite)
			switch {
			case e.Kind != journal.Tested:
			case e.Reply == "" && n.Measure.Number == "0.75":
				own++
			case n.Measure.Number == "0.3" && e.Note == "Feed every other day.":
				shops++
				if from, ok, err := k.ReplyFrom(ctx, e); err != nil || !ok || from.Name != "Corner shop" {
					t.Errorf("the test is from %+v: %v", from, err)
				}
			}
		}
	}
	if own != 1 || shops != 1 {
		t.Errorf("%d tests of the keeper's own and %d of the shop's, want one of each: %+v", own, shops, days)
	}
	rs, err := k.Rounds(ctx, tank)
	taken := 0
	for _, x := range rs.All {
		if x.FromShop && x.Code == rounds.Test && x.Note == "Until nitrite stays away." {
			taken++
		}
	}
	if err != nil || taken != 1 {
		t.Errorf("the rounds are %+v: %v", rs.All, err)
	}
	if wishes, err := k.Wishes(ctx, tank); err != nil || len(wishes) != 0 {
		t.Errorf("the plan that was left is %+v: %v", wishes, err)
	}
	if v, _, err := k.OpenReply(ctx, reply); err != nil || !slices.Equal(v.Open(), []string{keeper.ItemPlan(0)}) {
		t.Errorf("still to be taken is %v: %v", v.Open(), err)
	}
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	out := s.must(s.binary, "slip", "check", reply, flagData, dir, flagLang, w.Language())
	again, _, _ := strings.Cut(w.T("page.reply.again", i18n.Args{"Day": "|"}), "|")
	if !strings.Contains(out, again) {
		t.Errorf("slip check does not say %q: %s", again, out)
	}
}
