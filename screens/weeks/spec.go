package weeks

import (
	"math"
	"strconv"

	"example.org/driploop/i18n"
	"example.org/driploop/model/fish"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
	"example.org/driploop/screens/scene"
)

// Spec is a plan as it is to be drawn.
type Spec struct {
	Now   float64 // of what the tank carries, used today; 1 is all
	Today string
	Week  func(n int) string // names the n-th week from today
	Full  string             // label of the line of all that the tank carries
	Green string             // of the line up to which it is comfortable
	Steps []Step             // in order of Week
	Paper bool               // for print: white animals
}

// Step is one purchase.
type Step struct {
	Week    float64 // from today, 0 or more
	Date    string
	State   working.State
	Word    string // of the state
	Use     float64
	Percent string
	Animals []Animal
}

// Animal is a number of one kind.
type Animal struct {
	Code   fish.Code
	Length float64 // of an adult, mm
	Text   string
}

// MostDrawn is how many steps are drawn; later ones are left to the list below.
// Judgement: more do not keep apart.
const MostDrawn = 8

// From is the drawing of a plan.
func From(p present.Plan, w *i18n.Words, paper bool) Spec {
	s := Spec{Now: p.Now, Today: p.Today, Full: w.Percent(1), Green: w.Percent(green), Paper: paper,
		Week: func(n int) string {
			return w.T("page.plan.week", i18n.Args{"Week": w.Number(float64(n), 4)})
		}}
	for _, x := range p.Steps[:min(len(p.Steps), MostDrawn)] {
		st := Step{Week: x.Week, Date: x.Short, State: x.State, Word: x.Word, Use: x.Use, Percent: x.Percent}
		for _, a := range x.Animals {
			st.Animals = append(st.Animals, Animal{Code: a.Code, Length: float64(a.Length) * 1000, Text: a.Text})
		}
		s.Steps = append(s.Steps, st)
	}
	return s
}

// green is the use up to which a tank is comfortable: fish.Capacity.
const green = 0.7

// last is how many weeks are drawn: a little beyond the last step, four at least.
func (s Spec) last() float64 {
	w := 4.0
	for _, x := range s.Steps {
		w = math.Max(w, math.Ceil(x.Week+0.5))
	}
	return w
}

// ID is the part of the drawing that a step is.
func ID(step int) scene.ID { return scene.ID("step-" + strconv.Itoa(step)) }

// StepOf is the step that a part of the drawing is; false for another part.
func StepOf(id scene.ID) (int, bool) {
	const prefix = "step-"
	if len(id) <= len(prefix) {
		return 0, false
	}
	n, err := strconv.Atoi(string(id[len(prefix):]))
	return n, err == nil
}
