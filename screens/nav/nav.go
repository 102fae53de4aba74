package nav

import (
	"context"
	"io"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/model/care"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/screens/picture"
	"example.org/driploop/screens/present"
)

// Place is a part of the program.
type Place string

// The places.
const (
	Start     Place = "start" // no tank yet, or the choice among tanks
	FirstFill Place = "first_fill"
	Today     Place = "today"
	Daybook   Place = "daybook"
	Charts    Place = "charts"   // what was measured, over time; a view of the daybook
	Photos    Place = "photos"   // the pictures; a view of the daybook
	Sick      Place = "sick"     // a fish that looks wrong; a view of the daybook
	Visit     Place = "visit"    // the slip for the shop or the veterinarian; a view of the daybook
	Fish      Place = "fish"     // what lives in the tank
	Kinds     Place = "kinds"    // the catalogue of animals, or one kind; a view of the fish
	Together  Place = "together" // whether all get on and have room; a view of the fish
	Plan      Place = "plan"     // what is to come, over weeks; a view of the fish
	Rounds    Place = "rounds"   // what recurs
	// Views of the fish: what they are fed, and the bags on their way.
	Feeding    Place = "feeding"
	HomeComing Place = "homecoming"
	// The shop's side: the starter profiles, or one of them. Draft is First fill as a
	// profile answers it, DraftRounds its care plan.
	Counter     Place = "counter"
	Desk        Place = "desk" // the visit slips that came; a view of the counter
	Draft       Place = "draft"
	DraftRounds Place = "draft_rounds"
)

// Places lists the places of the bar at the top, in order.
func Places() []Place { return []Place{FirstFill, Today, Daybook, Fish, Rounds, Counter} }

// views are the views of the places of the bar that have several.
var views = map[Place][]Place{
	Daybook: {Daybook, Charts, Photos, Sick, Visit},
	Fish:    {Fish, Kinds, Together, Plan, Feeding, HomeComing},
	Counter: {Counter, Desk},
}

// under are places that no row of views leads to.
var under = map[Place]Place{Draft: Counter, DraftRounds: Counter}

// Views lists the views of a place of the bar, in order, itself first. Each stands
// under that place in the bar.
func Views(of Place) []Place { return views[of] }

// InBar is the place of the bar under which a place stands.
func (p Place) InBar() Place {
	if bar, ok := under[p]; ok {
		return bar
	}
	for bar, vs := range views {
		if slices.Contains(vs, p) {
			return bar
		}
	}
	return p
}

// Route is a place with its argument.
type Route struct {
	Place Place
	Tank  string
	Step  care.Step // of First fill; empty is where it stands
	Entry string    // of the daybook
	Case  string    // of Sick; empty lists them. Of Visit the case it is about. With Write, the case that the entry belongs to
	// Write is the kind of entry to write at once in the daybook, Ask the reading
	// to begin with.
	Write journal.Kind
	Ask   string
	// Round and Due name the late occurrence of a round that the entry to be written
	// does, and from whose day the coming ones are counted.
	Round string
	Due   journal.Civil
	// Photos are the pictures to open side by side, one to four ids with commas
	// between them; empty shows the wall.
	Photos string
	// Species is the kind of the catalogue to show, Fish the id of a fish or a group.
	Species string
	Fish    string
	// Profile is the starter profile in work that Counter, Draft and DraftRounds show;
	// Tank stays that of the shop's own.
	Profile string
	// Slip is the visit slip of the desk to open; empty lists them.
	Slip string
}

// Record is the tank or the profile whose changes are taken back here, "" for those
// of the lists of both.
func (r Route) Record() string {
	switch {
	case r.Profile != "":
		return r.Profile
	case r.Place.InBar() == Counter:
		return ""
	}
	return r.Tank
}

// Page is what a place shows.
type Page interface {
	// Object is the page's root, made once.
	Object() fyne.CanvasObject
	// Refresh shows the record as it now is.
	Refresh()
	// Focus puts the keyboard where work begins.
	Focus()
}

// Ticker is a Page that changes with time.
type Ticker interface {
	Tick(now time.Time)
}

// Painter is a Page with a drawing that can be painted beside other work before
// it is first asked for.
type Painter interface {
	PaintAhead()
}

// Dropper is a Page that takes the files dropped on the window for itself, such
// as a case. It reports false when it does not want them.
type Dropper interface {
	Dropped(paths []string) bool
}

// Deps is what a page is given.
type Deps struct {
	Keeper  *keeper.Keeper
	Present present.Presenter
	Now     func() time.Time
	// Go shows another place.
	Go func(Route)
	// Work runs a job off the window's thread, jobs in order, and then on the
	// thread with its error. A failure that the page does not handle is for Fail.
	Work func(job func(context.Context) error, then func(error))
	// Fail tells of an error in the person's words.
	Fail func(error)
	// Say tells that something was done, with a way back where there is one.
	Say func(text, action string, do func())
	// Changed says that the record has changed, so that bar and menu follow.
	Changed func()
	// Canvas is where the page's focus lives.
	Canvas func() fyne.Canvas
	// Dialog shows a panel over the page; close it by the function returned. What
	// ends it, such as its buttons, goes into the foot, which stays in view while
	// the content scrolls.
	Dialog func(title string, content fyne.CanvasObject, foot ...fyne.CanvasObject) (shut func())
	// DialogBack is Dialog with what Escape does in place of closing it.
	DialogBack func(title string, content fyne.CanvasObject, back func(), foot ...fyne.CanvasObject) (shut func())
	// Showing reports whether a panel with that content is open.
	Showing func(content fyne.CanvasObject) bool
	// Print makes a paper of a tank and tells where it is.
	Print func(kind, tank string)
	// Pictures takes pictures into the daybook of a tank: the files and folders
	// given, or with none those that the person chooses. It shows how far it is,
	// tells what became of them, and then calls then, which may be nil.
	Pictures func(tank string, o keeper.AddOptions, paths []string, then func(keeper.Added))
	// Paste does the same with what was copied: names of files, or a picture.
	Paste func(tank string, o keeper.AddOptions, then func(keeper.Added))
	// Thumbs are small pictures, made beside the window.
	Thumbs *picture.Thumbs
	// Aside runs what may take seconds beside the window and beside Work, and then
	// back on the window's thread. ctx ends with the program.
	Aside func(job func(ctx context.Context), then func())
	// HandFile hands a starter profile out as a file, HandSheets as printed sheets, one
	// for each label; both say where it is and then call then.
	HandFile   func(profile string, then func())
	HandSheets func(profile string, labels []string, then func())
	// Save writes a file beside the person's documents and says where.
	Save func(name string, write func(context.Context, io.Writer) error)
	// PrintCase does so of a case.
	PrintCase func(tank, id string)
	// LookVisit shows a visit slip as whoever it is handed to will see it. SaveVisit
	// writes it beside the person's documents, PrintVisit as a paper; both show how far
	// it is and tell where it is.
	LookVisit, SaveVisit, PrintVisit func(tank string, a keeper.VisitAsk)
	// AnswerVisit writes a reply slip beside the person's documents, keeps it with its
	// visit slip where that lies on the desk, tells where it is, and then calls then.
	AnswerVisit func(r slip.Reply, then func())
	// PrintReply does so as a paper; PrintAgain makes the paper of a reply that lies on
	// the desk.
	PrintReply func(r slip.Reply, then func())
	PrintAgain func(reply string)
	// ReceiveVisits takes visit slips onto the desk: the files given, or with none those
	// that the person chooses. It tells what became of them and then calls then.
	ReceiveVisits func(paths []string, then func())
	// OpenReply asks for a reply slip and shows what can be taken of it.
	OpenReply func()
	// Calendar writes the rounds as a calendar file and tells where it is;
	// CalendarPath is where one that is kept up to date is proposed.
	Calendar func(tank string)
	// PrintCare makes the care calendar of the coming days as a paper and tells where it is.
	PrintCare    func(tank string, days int)
	CalendarPath func(tank string) string
	// Still reports whether no motion is wanted: by the person, or by the system.
	Still func() bool
	// Beat asks to be told, a few times a second while the window is in front, how
	// many seconds the page has moved for. The last who asked on a page is told. Nil
	// where nothing moves.
	Beat func(step func(seconds float64))
}

// History is where one has been, the newest last.
type History struct {
	past []Route
}

// Push adds a route unless it is where one is.
func (h *History) Push(r Route) {
	if n := len(h.past); n > 0 && h.past[n-1] == r {
		return
	}
	h.past = append(h.past, r)
	if len(h.past) > depth {
		h.past = h.past[len(h.past)-depth:]
	}
}

// Back drops the present route and returns the one before it.
func (h *History) Back() (Route, bool) {
	if len(h.past) < 2 {
		return Route{}, false
	}
	h.past = h.past[:len(h.past)-1]
	return h.past[len(h.past)-1], true
}

// depth is how many places are remembered. Judgement.
const depth = 50
