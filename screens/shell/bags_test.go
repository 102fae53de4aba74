package shell_test

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/feeding"
	"example.org/driploop/screens/homecoming"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/shell"
)

// playedIn are the languages in which a page is played through by keyboard; layouts
// are tried in all.
var playedIn = []string{"en", "es"}

// A bag from the shop into the tank by keyboard alone: entered,
// refused, afloat, changed, moved over, in the stock; then the whole way back.
func TestBagByKeyboard(t *testing.T) {
	for _, lang := range playedIn {
		p := shell.Prefs{Lang: lang, Region: "DE", Units: quantity.Metric, Text: 100, Still: true, Theme: look.Light}
		s := open(t, p)
		ctx := context.Background()
		tank := s.tankOf(t)
		s.Go(nav.Route{Place: nav.Fish, Tank: tank})
		s.hit(t, "view_homecoming", fyne.KeyReturn)
		page, ok := s.Page().(*homecoming.Page)
		if !ok {
			t.Fatalf("%T", s.Page())
		}
		s.shoot(t, lang+"-home-empty")
		s.hit(t, "bag-add", fyne.KeyReturn)
		s.fillIn(t, "name", "Danios")
		s.fillIn(t, "count", "6")
		s.fillIn(t, "volume", "500 l")
		s.fillIn(t, "temp", "21")
		s.fillIn(t, "tank_temp", "25")
		s.hit(t, "keep", fyne.KeyReturn)
		if len(page.Shown()) != 0 {
			t.Fatal("a bag of 500 L is taken")
		}
		s.shoot(t, lang+"-home-refused")
		s.fillIn(t, "volume", "1 l")
		s.shoot(t, lang+"-home-form")
		s.hit(t, "keep", fyne.KeyReturn)
		if len(page.Shown()) != 1 || !strings.Contains(page.Shown()[0].Name, "6") {
			t.Fatalf("%+v", page.Shown())
		}
		bags, err := s.k.Bags(ctx, tank)
		if err != nil {
			t.Fatal(err)
		}
		id := bags[0].ID
		s.hit(t, "bag-lights-"+id, fyne.KeySpace)
		s.hit(t, "bag-float-"+id, fyne.KeySpace)
		if b := page.Shown()[0]; b.Left == "" || !b.Steps[1].Done {
			t.Fatalf("the float has not begun: %+v", b)
		}
		s.shoot(t, lang+"-home-floats")
		s.hit(t, "bag-in-"+id, fyne.KeyReturn) // asks: the wait is not over
		s.hit(t, "bag-early", fyne.KeyReturn)
		if len(page.Shown()) != 0 {
			t.Fatal("the bag is still on its way")
		}
		if stock, err := s.k.Stock(ctx, tank); err != nil || len(stock) != 1 || stock[0].Count != 6 {
			t.Fatalf("stock %+v, %v", stock, err)
		}
		for range 4 {
			s.Undo()
		}
		if stock, _ := s.k.Stock(ctx, tank); len(stock) != 0 || len(page.Shown()) != 0 {
			t.Errorf("after undoing all: %+v, %d bags", stock, len(page.Shown()))
		}
	}
}

// The ration by keyboard alone: a pinch is weighed, a meal and
// how it ended written, and the next ration is lower.
func TestFeedingByKeyboard(t *testing.T) {
	for _, lang := range playedIn {
		p := shell.Prefs{Lang: lang, Region: "DE", Units: quantity.Metric, Text: 100, Still: true, Theme: look.Light}
		s := open(t, p)
		tank := s.tankOf(t)
		s.Go(nav.Route{Place: nav.Feeding, Tank: tank})
		s.shoot(t, lang+"-feed-empty")
		s.bag(t, tank, "danio-rerio")
		s.bag(t, tank, "corydoras-panda")
		s.Go(nav.Route{Place: nav.Feeding, Tank: tank})
		page := s.Page().(*feeding.Page)
		before := page.Shown()
		if before.Number == nil || len(before.Water) != 3 || len(before.Kinds) != 2 {
			t.Fatalf("%+v", before)
		}
		s.hit(t, "weigh", fyne.KeyReturn)
		s.fillIn(t, "food", "Granules")
		s.fillIn(t, "twenty", "50")
		s.hit(t, "keep", fyne.KeyReturn)
		if len(page.Shown().Pinches) != 0 {
			t.Fatal("a pinch of 2.5 g is taken")
		}
		s.fillIn(t, "twenty", "0.8")
		s.hit(t, "keep", fyne.KeyReturn)
		if len(page.Shown().Pinches) != 1 || page.Shown().Number.Value == before.Number.Value {
			t.Fatalf("%+v", page.Shown())
		}
		s.hit(t, "fed-some", fyne.KeyReturn)
		after := page.Shown()
		if len(after.Meals) != 1 || after.Meals[0].Left == "" || after.Verdict.Title == before.Verdict.Title {
			t.Errorf("%+v", after)
		}
		s.shoot(t, lang+"-feed")
		s.fillIn(t, "share", "90")
		s.hit(t, "share", fyne.KeyReturn)
		if page.Shown().Habits[0] != after.Habits[0] {
			t.Error("90 % of body mass a day is taken")
		}
		s.Undo()
		if len(page.Shown().Meals) != 0 {
			t.Error("the meal is there after undo")
		}
	}
}

// bag brings a bag of six of a kind home through the keeper.
func (s stage) bag(t *testing.T, tank, species string) {
	t.Helper()
	ctx := context.Background()
	a, err := s.k.BagDefaults(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	a.Name, a.Species, a.Count = species, species, quantity.Measure{Number: strconv.Itoa(6), Unit: "piece"}
	id, err := s.k.OpenBag(ctx, tank, a)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.k.CloseBag(ctx, tank, id, true); err != nil {
		t.Fatal(err)
	}
}

// Both pages at 150 % in the smaller window, dark too, with a drip and a long trip.
func TestFishPagesAtLargeText(t *testing.T) {
	for _, lang := range i18n.Languages() {
		for _, theme := range []look.Variant{look.Light, look.Dark} {
			if theme == look.Dark && !slices.Contains(playedIn, lang) {
				continue // the layout knows no theme
			}
			p := shell.Prefs{Lang: lang, Region: "US", Units: quantity.US, Text: 150, Still: true, Theme: theme}
			s := open(t, p)
			s.w.Resize(fyne.NewSize(1024, 700))
			ctx := context.Background()
			tank := s.tankOf(t)
			s.bag(t, tank, "danio-rerio")
			for i, hours := range []string{"1", "20"} {
				a, err := s.k.BagDefaults(ctx, tank)
				if err != nil {
					t.Fatal(err)
				}
				a.Name, a.Count, a.Way, a.Hours = "Amano shrimp", quantity.Measure{Number: "5", Unit: "piece"}, care.WayDrip, quantity.Measure{Number: hours, Unit: "h"}
				id, err := s.k.OpenBag(ctx, tank, a)
				if err != nil {
					t.Fatal(err)
				}
				if step := []care.BagStep{care.BagDrip, care.BagFloat}[i]; s.k.TickBag(ctx, tank, id, step, true) != nil {
					t.Fatal(step)
				}
			}
			for _, place := range []nav.Place{nav.HomeComing, nav.Feeding} {
				s.Go(nav.Route{Place: place, Tank: tank})
				name := lang + "-" + string(place) + "-" + strconv.Itoa(int(theme))
				s.shoot(t, name)
				outside(t, name, s.w)
			}
		}
	}
}

// A notice is given once when the wait of a bag is over, and names no animal.
func TestNoticeOfABag(t *testing.T) {
	now := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	ctx := context.Background()
	s := openIn(t, t.TempDir(), shell.Options{Prefs: english(), Now: func() time.Time { return now }})
	tank := s.tankOf(t)
	ask, err := s.k.BagDefaults(ctx, tank)
	if err != nil {
		t.Fatal(err)
	}
	ask.Name, ask.Count = "Neons", quantity.Measure{Number: "6", Unit: "piece"}
	id, err := s.k.OpenBag(ctx, tank, ask)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.k.TickBag(ctx, tank, id, care.BagFloat, true); err != nil {
		t.Fatal(err)
	}
	tick := func() { s.Tick(now) }
	test.AssertNotificationSent(t, nil, tick)
	now = now.Add(time.Hour)
	words := i18n.Speak("en", "US", quantity.US)
	test.AssertNotificationSent(t, fyne.NewNotification(words.T("page.bag.notice", nil), words.N("page.bag.notice_ready", 1, nil)), tick)
	now = now.Add(time.Minute)
	test.AssertNotificationSent(t, nil, tick)
}

// What is fed says the ration only where the animals of the tank have one: nothing is
// reckoned for snails, which live on what they find.
func TestFedSaysARationWhereThereIsOne(t *testing.T) {
	s := open(t, shell.Prefs{Lang: "en", Region: "DE", Units: quantity.Metric, Text: 100, Still: true, Theme: look.Light})
	tank := s.tankOf(t)
	says := func() bool {
		s.Go(nav.Route{Place: nav.Daybook, Tank: tank})
		s.hit(t, "feed", fyne.KeyReturn)
		defer s.hit(t, "cancel", fyne.KeyReturn)
		return s.shows("The ration of a meal")
	}
	s.bag(t, tank, "planorbella-duryi")
	if says() {
		t.Error("a ration is said for snails alone")
	}
	s.bag(t, tank, "danio-rerio")
	if !says() {
		t.Error("no ration is said for danios")
	}
}
