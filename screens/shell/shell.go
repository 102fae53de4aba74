package shell

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"example.org/driploop/i18n"
	"example.org/driploop/i18n/toolkit"
	"example.org/driploop/model/claim"
	"example.org/driploop/model/durable"
	animal "example.org/driploop/model/fish"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/charts"
	"example.org/driploop/screens/counter"
	"example.org/driploop/screens/daybook"
	"example.org/driploop/screens/desk"
	"example.org/driploop/screens/feeding"
	"example.org/driploop/screens/firstfill"
	"example.org/driploop/screens/fish"
	"example.org/driploop/screens/homecoming"
	"example.org/driploop/screens/kinds"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/photos"
	"example.org/driploop/screens/picture"
	"example.org/driploop/screens/plan"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/rounds"
	"example.org/driploop/screens/scene"
	"example.org/driploop/screens/sick"
	"example.org/driploop/screens/slips"
	"example.org/driploop/screens/start"
	"example.org/driploop/screens/today"
	"example.org/driploop/screens/visit"
)

// Options of New.
type Options struct {
	App    fyne.App
	Keeper *keeper.Keeper
	Prefs  Prefs
	Now    func() time.Time
	// Steady is a clock that nobody sets, by which it is seen that Now's was; nil
	// where there is none.
	Steady func() time.Duration
	// Window shows the shell; nil for walks without one, which give a Canvas.
	Window fyne.Window
	Canvas func() fyne.Canvas
	// Roots lists where paths begin; nil asks the machine.
	Roots func() []string
	// Inline runs jobs at once instead of in the background.
	Inline bool
	// PaperDir is where papers go; empty is the person's documents.
	PaperDir string
	// Open is where to begin; the zero Route asks Begin.
	Open nav.Route
	// Files tells how a double click opens our files, which has the names of their kinds
	// in every language: it is asked where that is shown. It gives nil where the system
	// takes none; nil too.
	Files func() *claim.Claim
}

// Shell is the frame around the places: the bar, the page, the undo line.
type Shell struct {
	o       Options
	prefs   Prefs
	present present.Presenter
	work    func(func(context.Context) error, func(error))
	jobs    longJobs
	aside   *aside
	thumbs  *picture.Thumbs

	route   nav.Route
	moving  *moving // on the page that is shown; nil where nothing moves
	calm    bool    // the system asks for less motion
	history nav.History
	page    nav.Page
	settled bool      // the window shows the root, which can take the focus
	menuFor [2]string // see whose

	safety fyne.CanvasObject // what the panel of the safety notes holds, once it was open
	hush   func()            // ends what is read aloud; nil where nothing is

	bells   bells
	kinds   kinds.Memory
	replies slips.Memory
	visits  visit.Memory

	bar    *parts.NavBar
	toast  *parts.UndoBar
	panels []fyne.CanvasObject // the contents of those that are open, the lowest first
	banner *parts.Verdict      // why nothing can be changed, where that is so
	full   bool                // the disk was full at the last change
	looked time.Time           // when it was last tried whether it still is
	gone   *store.OpError      // how the daybook's file was taken away, where that is so
	seen   time.Time           // when that was last looked at
	clock  wall                // how the clock on the wall goes
	body   *fyne.Container
	root   *fyne.Container
}

// New makes the shell and opens where one left off: the only tank, or the start.
func New(o Options) *Shell {
	s := &Shell{o: o, prefs: o.Prefs, visits: visit.Memory{}}
	if s.o.Roots == nil {
		s.o.Roots = durable.Roots
	}
	s.work = inline
	if !o.Inline {
		s.work = newWorker().do
	}
	s.aside = newAside(o.Inline)
	s.thumbs = picture.NewThumbs(func(ctx context.Context, hash string, side int) ([]byte, error) {
		return o.Keeper.Thumb(ctx, hash, max(side, photo.ThumbSide))
	}, s.aside.run, s.aside.post)
	s.bar = parts.NewNavBar(parts.NavSpec{})
	s.bar.OnTank = s.toTank
	s.bar.OnPlace = func(code string) { s.Go(nav.Route{Place: nav.Place(code), Tank: s.route.Tank}) }
	s.bar.OnAction = s.action
	s.toast = parts.NewUndoBar()
	s.banner = parts.NewVerdict(parts.VerdictSpec{})
	s.banner.Hide()
	s.body = container.NewStack()
	s.root = container.New(&frame{}, s.body, parts.NewGround(), s.bar, s.toast, s.banner)
	s.toast.OnTurned = func() {
		if s.toast.Visible() { // a long text takes more lines
			placeToast(s.toast, s.root.Size())
		}
	}
	s.apply()
	if o.Open == (nav.Route{}) {
		o.Open = Begin(context.Background(), o.Keeper, o.Prefs)
	}
	s.Go(o.Open)
	return s
}

// Begin is where one left off. It reads the record of that tank and works it
// out, so that the page finds it done; it needs no window.
func Begin(ctx context.Context, k *keeper.Keeper, p Prefs) nav.Route {
	k.SetRegion(p.presenter().Region)
	tanks, err := k.Tanks(ctx)
	if err != nil || len(tanks) == 0 {
		return nav.Route{Place: nav.Start}
	}
	t := tanks[len(tanks)-1]
	for i := len(tanks) - 1; i >= 0; i-- {
		if tanks[i].Retired.IsZero() {
			t = tanks[i]
			break
		}
	}
	td, err := k.Today(ctx, t.ID)
	if err == nil && !td.Next.All && td.Day == 0 {
		return nav.Route{Place: nav.FirstFill, Tank: t.ID}
	}
	return nav.Route{Place: nav.Today, Tank: t.ID}
}

// Root is what the window shows.
func (s *Shell) Root() fyne.CanvasObject { return s.root }

// Route is where one is.
func (s *Shell) Route() nav.Route { return s.route }

// Page is the page that is shown.
func (s *Shell) Page() nav.Page { return s.page }

// Prefs are the preferences in force.
func (s *Shell) Prefs() Prefs { return s.prefs }

// apply puts the preferences into force: theme, the toolkit's own words, ours.
func (s *Shell) apply() {
	s.present = s.prefs.presenter()
	s.present.Kit = s.o.Keeper.KitOf
	s.o.Keeper.SetRegion(s.present.Region)
	s.o.Keeper.SetNames(s.present.KindNames)
	scene.Prefer(s.prefs.Lang)
	parts.SayTooLong(func(most int) string {
		return s.present.W.T("refuse.paste_long", i18n.Args{"Most": s.present.W.Number(float64(most), 6)})
	})
	if th, err := look.New(s.prefs.Look()); err == nil {
		s.o.App.Settings().SetTheme(th)
	}
	s.warn()
	if err := toolkit.Use(s.prefs.Lang); err != nil {
		fyne.LogError("toolkit words", err)
	}
}

// SetPrefs changes the preferences at once, keeps them and shows everything anew.
func (s *Shell) SetPrefs(p Prefs) {
	before := s.prefs
	s.prefs = p
	s.apply()
	s.showMenu()
	s.open(s.route)
	if s.o.Keeper.ReadOnly() != nil {
		return
	}
	s.work(func(ctx context.Context) error { return p.save(ctx, s.o.Keeper, before) }, func(err error) {
		if err != nil {
			s.fail(err)
		}
	})
}

// Go shows another place.
func (s *Shell) Go(r nav.Route) {
	s.history.Push(r)
	s.toast.Close()
	s.open(r)
}

// Back shows the place before this one.
func (s *Shell) Back() {
	if r, ok := s.history.Back(); ok {
		s.open(r)
	}
}

func (s *Shell) open(r nav.Route) {
	s.route, s.moving = r, nil
	d := s.deps()
	switch r.Place {
	case nav.FirstFill:
		p := firstfill.New(d, r.Tank, r.Step)
		s.route.Step = p.Step()
		s.page = p
	case nav.Today:
		s.page = today.New(d, r.Tank)
	case nav.Daybook:
		p := daybook.New(d, r.Tank, r.Entry)
		s.page = p
		if r.Write != "" {
			defer p.WriteFor(r) // over the page, once it stands
		}
	case nav.Fish:
		p := fish.New(d, r.Tank, r.Fish)
		s.page = p
		if r.Write != "" {
			defer p.Write(r.Write)
		}
	case nav.Plan:
		s.page = plan.New(d, r.Tank)
	case nav.Feeding:
		s.page = feeding.New(d, r.Tank)
	case nav.HomeComing:
		s.page = homecoming.New(d, r.Tank)
	case nav.Rounds:
		s.page = rounds.New(d, r.Tank)
	case nav.Counter:
		if r.Profile == "" {
			s.page = counter.New(d, r.Tank)
		} else {
			s.page = counter.NewProfile(d, r.Tank, r.Profile)
		}
	case nav.Desk:
		if r.Slip == "" {
			s.page = desk.New(d, r.Tank)
		} else {
			s.page = desk.NewSlip(d, r.Tank, r.Slip, &s.replies)
		}
	case nav.Draft:
		p := firstfill.NewDraft(d, r.Tank, r.Profile, r.Step)
		s.route.Step = p.Step()
		s.page = p
	case nav.DraftRounds:
		s.page = rounds.NewPlan(d, r.Tank, r.Profile)
	case nav.Sick:
		s.page = sick.New(d, r.Tank, r.Case)
	case nav.Visit:
		s.page = visit.New(d, r.Tank, r.Case, s.visits)
	case nav.Charts:
		s.page = charts.New(d, r.Tank)
	case nav.Photos:
		s.page = photos.New(d, r)
	case nav.Kinds:
		if r.Species == "" {
			s.page = kinds.New(d, r.Tank, &s.kinds)
		} else {
			s.page = kinds.NewKind(d, r.Tank, animal.Code(r.Species))
		}
	case nav.Together:
		s.page = kinds.NewTogether(d, r.Tank)
	default:
		s.page = start.New(d, s.Example, s.openProfile)
	}
	s.showBar()
	if s.settled && s.menuFor != s.whose() { // else its shortcuts would be those of where one was
		s.showMenu()
	}
	s.body.Objects = []fyne.CanvasObject{s.page.Object()}
	s.body.Refresh()
	s.root.Refresh()
	if !s.page.Object().Size().IsZero() { // before the window has one, Settled does it
		s.page.Refresh() // now that it has its size
	}
	if s.settled {
		s.page.Focus()
	}
}

func (s *Shell) deps() nav.Deps {
	return nav.Deps{Keeper: s.o.Keeper, Present: s.present, Now: s.o.Now, Go: s.Go, Work: s.work, Fail: s.fail, Say: s.say, Changed: s.changed,
		Canvas: s.canvas, Dialog: s.dialog, DialogBack: s.dialogBack, Showing: func(o fyne.CanvasObject) bool { return slices.Contains(s.panels, o) },
		Print: s.print, PrintCase: s.printCase, Calendar: s.calendar, PrintCare: s.printCare, HandFile: s.handFile, HandSheets: s.handSheets, CalendarPath: s.calendarPath, Still: s.still, Beat: s.beat(),
		Pictures: s.pictures, Paste: s.paste, Thumbs: s.thumbs, Aside: s.aside.do, LookVisit: s.lookVisit, SaveVisit: s.saveVisit, PrintVisit: s.printVisit, AnswerVisit: s.answerVisit, PrintReply: s.printReply, PrintAgain: s.printAgain, ReceiveVisits: s.receiveVisits, OpenReply: s.openReply, Save: func(name string, write func(context.Context, io.Writer) error) { s.put(name, write) }}
}

func (s *Shell) canvas() fyne.Canvas {
	switch {
	case s.o.Window != nil:
		return s.o.Window.Canvas()
	case s.o.Canvas != nil:
		return s.o.Canvas()
	}
	return nil
}

// changed follows the record: what can be undone, the tank's name and volume.
func (s *Shell) changed() {
	s.showBar()
	s.keepCalendars()
	s.showMenu()
}

// whose is what the menu goes by: the tank, and the record whose changes are taken back.
func (s *Shell) whose() [2]string { return [2]string{s.route.Tank, s.route.Record()} }

// showMenu makes the menu anew.
func (s *Shell) showMenu() {
	s.menuFor = s.whose()
	if s.o.Window != nil {
		s.o.Window.SetMainMenu(s.Menu())
	}
}

func (s *Shell) say(text, action string, do func()) { s.toast.Say(text, action, do) }

// fail tells of an error in the person's words; nothing is swallowed.
func (s *Shell) fail(err error) {
	if err == nil {
		return
	}
	if isFull(err) {
		s.full = true
		s.warn()
	}
	if gone := isGone(err); gone != nil && s.gone != nil {
		if len(s.panels) > 0 { // a line at the foot cannot be reached from a panel
			s.offerPutBack()
			return
		}
		what := working.Key("page.gone.heading")
		if s.over() {
			what = "page.gone.over_heading"
		}
		s.say(s.present.Error(err), s.t(what), s.offerPutBack)
		return
	} else if gone != nil {
		s.setGone(gone)
		return
	}
	words, ok := s.present.W.Problem(err)
	if !ok {
		words = s.present.Error(err)
	}
	if nav.Retired(err) && s.route.Tank != "" {
		s.offerReuse(words)
		return
	}
	s.say(words, "", nil)
}

// Undo takes back the tank's latest change.
func (s *Shell) Undo() { s.walk(s.o.Keeper.Undo, "page.today.undone") }

// Redo makes it again.
func (s *Shell) Redo() { s.walk(s.o.Keeper.Redo, "page.today.redone") }

// PaintAhead has the drawing of the page painted beside what follows, which is the
// making of the window. The root has the size then that the window will have.
func (s *Shell) PaintAhead() {
	if p, ok := s.page.(nav.Painter); ok {
		p.PaintAhead()
	}
}

// Tick tells the page that time has passed.
func (s *Shell) Tick(now time.Time) {
	s.seeClock()
	s.ring()
	s.tryAgain(now)
	s.seeGone(now)
	if t, ok := s.page.(nav.Ticker); ok {
		t.Tick(now)
	}
}

// ExampleWords are the words of the example tank.
func ExampleWords(p present.Presenter) keeper.Words {
	return keeper.Words{System: p.W.System(), Name: p.W.T("example.name", nil), Fish: p.W.T("example.fish", nil), Notice: p.W.T("example.notice", nil), Snail: p.KindName("planorbella-duryi"),
		Shown: p.Confirmable}
}

// quiet holds for an undo with nothing to undo, of which nobody needs to hear.
func quiet(err error) bool { return errors.Is(err, store.ErrNothing) }

// Key acts on a key typed while nothing has the focus.
func (s *Shell) Key(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyF1 {
		s.ShowSafety()
		return
	}
	if k, ok := s.page.(interface{ Key(*fyne.KeyEvent) bool }); ok {
		k.Key(ev)
	}
}

// Settled is called once the window has its size: the page draws for it.
func (s *Shell) Settled() {
	s.settled = true
	s.menuFor = s.whose() // the window has shown it
	s.keepCalendars()     // another computer may have changed the daybook
	s.page.Refresh()
	s.page.Focus()
}

// Finish waits for the jobs under way, so that the keeper can be closed.
func (s *Shell) Finish() {
	s.aside.finish()
	if s.o.Inline {
		return
	}
	s.jobs.end()
	done := make(chan struct{})
	s.work(func(context.Context) error { close(done); return nil }, func(error) {})
	<-done
}

// TakeFile offers a file for taking: an archive, a table, a reply, or else a starter
// profile. A visit slip is shown.
func (s *Shell) TakeFile(path string) {
	switch strings.ToLower(filepath.Ext(path)) {
	case archiveEnding:
		s.takeArchive(path)
	case tableEnding:
		s.takeTable(path)
	case replyEnding:
		s.takeReply(path)
	case visitEnding:
		s.showVisit(path)
	default:
		s.Take(path)
	}
}
