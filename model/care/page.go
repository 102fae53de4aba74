package care

import (
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Page is one step of First fill as it stands: what is asked, what it comes to,
// what was checked, what is still open. Windows, paper and the command line all
// show this one value.
type Page struct {
	Step  Step
	State StepState
	// Waits says what a shut step waits for; Changed names the answers that
	// reopened a finished one.
	Waits   []working.Finding
	Changed []FieldID

	Fields   []FieldView
	Headline *Headline
	Checks   []working.Check // governing first
	Verdict  *Verdict
	Cautions []working.Finding // said whatever the verdict is
	Lines    []Line            // further figures, one a row
	Ticks    []TickView
	Notes    []Note
	Kit      []KitItem
	Curve    *Curve
	Steady   *Steadiness
	Trails   []*working.Trail

	// Carry is the verb on the button that finishes the step; Blocked says what
	// it still waits for.
	Carry   working.Key
	Blocked []working.Finding
}

// FieldView is a field with what stands in it.
type FieldView struct {
	Field   *Field
	Answer  Answer // given, or proposed when Given is false
	Given   bool
	Refused *working.Refusal // what is wrong with it, alone or beside the other answers
}

// Headline is the one number that matters on a page.
type Headline struct {
	Name   working.Key
	Value  quantity.Value
	Text   working.Key // instead of a value where the headline is a word
	Spread *working.Spread
	State  working.State
	Means  []working.Finding // in everyday terms
}

// Verdict is the judgement on a page with what to do about it.
type Verdict struct {
	State working.State
	Title working.Finding
	Lines []working.Finding
}

// Line is a further figure with its name.
type Line struct {
	Name   working.Key
	Value  quantity.Value
	Spread *working.Spread
	Note   *working.Finding
	State  working.State
}

// TickView is something to do with one's hands, ticked off by the person.
type TickView struct {
	ID   FieldID
	Text working.Finding // the message with its figures
	Set  bool
	// Confirm holds for the electrical checks: each is kept with the text shown.
	Confirm bool
	// Ready is false while the tick must wait, and Until says for what.
	Ready bool
	Until *working.Finding
}

// KitItem is a line of the kit list.
type KitItem struct {
	ID     string
	Name   working.Key
	Size   working.Finding // what size for this tank
	Why    working.Finding
	Have   bool
	HaveID FieldID
	Price  quantity.Value // unknown when no price was given
	Cost   FieldID        // the field of the price
	State  working.State
}

// Curve is a computed course over time, with its likely range.
type Curve struct {
	Name   working.Key
	Time   []time.Duration
	Middle []quantity.Value
	Low    []quantity.Value
	High   []quantity.Value
	Marks  []Mark
	// Usual is the span of the common advice, drawn beside the curve.
	Usual [2]time.Duration
	Timer *Timer
}

// Mark is a moment worth naming on a curve.
type Mark struct {
	At   time.Duration
	Text working.Finding
}

// Steadiness is how the temperature has held.
type Steadiness struct {
	Target   quantity.Temperature
	Band     quantity.TemperatureDifference
	Readings []TemperatureReading
	Since    time.Time     // when the present steady run began; zero if there is none
	Held     time.Duration // between the first and the last reading of the run
	Need     time.Duration
	Ready    bool
}

// TemperatureReading is one reading of the thermometer.
type TemperatureReading struct {
	EntryID string
	At      time.Time
	T       quantity.Temperature
	InBand  bool
}
