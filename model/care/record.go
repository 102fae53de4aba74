package care

import (
	"time"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Record is all that First fill knows of one tank. It is a plain value: the
// calculations read it and never change it.
type Record struct {
	Name    string
	System  quantity.System // decides only which round figures are proposed
	Region  Region
	Answers map[FieldID]Answer
	Done    map[Step]Done
	Acks    []Ack
	Entries []journal.Entry // earliest first, deleted ones left out
	Timers  []Timer
	Bags    Bags
	Kits    map[string]journal.TestKit // that readings were taken with, by id
	Lived   bool                       // animals live in it
	// First is what the plan over weeks brings home first; nil where nothing is planned.
	First *First
	// Offered are the values of the nominal sizes etc. that apply at Now.
	Now time.Time // passed in; the domain has no clock
	Ran Ran
}

// Ran is what a clock that nobody sets tells beside Now; zero where there is none.
type Ran struct {
	For time.Duration // how long the program has run
	Set time.Duration // how far Now's clock was set forward since the tank was filled, as long as the program ran
}

// Bags tells of the bags of Home-coming, which have a page of their own: with one
// of them First fill's step needs no bag of its own.
type Bags struct {
	Open   int // on their way
	Closed int // whose animals are in
}

// First is the first purchase of a plan.
type First struct {
	Kind   string // its name, in the person's words
	Adult  quantity.Length
	Count  int
	Splits bool           // its group comes in parts
	Trail  *working.Trail // of the plan
}

// Done records that a step was finished, and on which answers.
type Done struct {
	At    time.Time
	Basis map[FieldID]string // canonical text of each answer relied on
}

// Ack records a safety note or electrical check that a person acknowledged, with
// the text that stood on the screen.
type Ack struct {
	Step  Step
	Note  NoteID
	Lang  string
	Shown string
	Hash  string // of the English source of the text
	At    time.Time
}

// Acknowledged reports whether note was acknowledged in step.
func (r *Record) Acknowledged(s Step, n NoteID) (Ack, bool) {
	for i := len(r.Acks) - 1; i >= 0; i-- {
		if a := r.Acks[i]; a.Step == s && a.Note == n {
			return a, true
		}
	}
	return Ack{}, false
}

// Timer is a wait that goes on while the program is closed.
type Timer struct {
	ID      string
	Kind    TimerKind
	Bag     string // the bag of Home-coming that it waits for; empty for First fill's own
	Started time.Time
	Wait    time.Duration // how long it was set for
	// Elapsed is what had passed at Seen. It is counted by a steady clock while the
	// program runs and by the wall clock between runs, and never runs backwards
	// when the wall clock is set back.
	Elapsed time.Duration
	Seen    time.Time
	Ended   bool
	Apart
}

// Apart is what a timer owes to the wall clock: the time between runs of the
// program, of which nothing else tells. Someone may have set that clock meanwhile.
type Apart struct {
	ByWall  time.Duration `json:"by_wall,omitempty"`  // of Elapsed, counted between runs
	SetBack bool          `json:"set_back,omitempty"` // the clock stood before its last look: nothing was counted, and more has passed
}

// Unsure reports whether the wall clock has a say in how far the timer is.
func (a Apart) Unsure() bool { return a.ByWall > 0 || a.SetBack }

const (
	// apartLeast is how long a gap must be to be spoken of: a restart takes less,
	// and a clock that is corrected by the network moves by less. // judgement
	apartLeast = time.Minute
	// apartMost is the most that is counted of one gap: no bag waits for longer, and
	// a clock that went years ahead adds no years. // judgement
	apartMost = 24 * time.Hour
)

// Resumed counts the time since Seen by the wall clock, as of now: for a timer that
// no steady clock has followed. What is counted is never negative, and bounded.
func (t Timer) Resumed(now time.Time) Timer {
	gap := now.Sub(t.Seen)
	counted := min(max(gap, 0), apartMost)
	t.Elapsed, t.Seen = t.Elapsed+counted, now
	if counted >= apartLeast {
		t.ByWall += counted
	}
	t.SetBack = t.SetBack || gap <= -apartLeast
	return t
}

// TimerKind says what a timer waits for.
type TimerKind string

// The timers of First fill.
const (
	TimerFloat TimerKind = "float" // a bag floating
	TimerDrip  TimerKind = "drip"  // a bag being filled drop by drop
)

// Passed returns how much of the timer has run at now: a wall clock that was set
// back counts nothing rather than something negative.
func (t Timer) Passed(now time.Time) time.Duration {
	if d := now.Sub(t.Seen); d > 0 {
		return t.Elapsed + d
	}
	return t.Elapsed
}

// Left returns what remains at now, never negative.
func (t Timer) Left(now time.Time) time.Duration {
	if d := t.Wait - t.Passed(now); d > 0 {
		return d
	}
	return 0
}
