package fish

import (
	"slices"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Verdict is whether animals fit.
type Verdict uint8

// The verdicts, mildest first.
const (
	Steady Verdict = iota // they fit
	Wait                  // with care, or later
	No                    // they do not
)

// verdictIn is the verdict that a state shows.
func verdictIn(s working.State) Verdict {
	switch s {
	case working.Act:
		return No
	case working.Wait:
		return Wait
	}
	return Steady
}

// String is the stable name of v.
func (v Verdict) String() string { return [...]string{"steady", "wait", "no"}[min(v, No)] }

// State is how v is shown.
func (v Verdict) State() working.State {
	return [...]working.State{working.Steady, working.Wait, working.Act}[min(v, No)]
}

// Rule is what a clash is about.
type Rule string

// The rules, in the order in which they are told: the law, the size, the water, who
// is eaten, who fights, who is at ease, and when.
const (
	Law           Rule = "law"
	TankSize      Rule = "tank_size"
	Temperature   Rule = "temperature"
	Acidity       Rule = "ph"
	Hardness      Rule = "hardness"
	Salt          Rule = "salt"
	ColdAndWarm   Rule = "cold_warm"
	Eaten         Rule = "eaten"
	Invertebrates Rule = "invertebrates"
	Fins          Rule = "fins"
	Rivals        Rule = "rivals"
	Aggression    Rule = "aggression"
	Alike         Rule = "alike"
	OwnKindOnly   Rule = "own_kind"
	GroupSize     Rule = "group_size"
	Sexes         Rule = "sexes"
	Pace          Rule = "pace"
	Levels        Rule = "levels"
	TankAge       Rule = "tank_age"
)

// Rules lists the rules in the order in which they are told.
func Rules() []Rule {
	return []Rule{Law, TankSize, Temperature, Acidity, Hardness, Salt, ColdAndWarm, Eaten, Invertebrates, Fins, Rivals, Aggression, Alike, OwnKindOnly,
		GroupSize, Sexes, Pace, Levels, TankAge}
}

// OfKind reports whether a rule is about which kinds live together in which tank,
// so that another kind may not run against it; the others are cured by number,
// sexes or time.
func (r Rule) OfKind() bool {
	switch r {
	case GroupSize, Sexes, Rivals, Levels, TankAge, Law:
		return false
	}
	return true
}

var orderOf = func() map[Rule]int {
	m := map[Rule]int{}
	for i, r := range Rules() {
		m[r] = i
	}
	return m
}()

// Clash is a rule that an animal runs against, with another or with the tank. A
// clash that is Steady is worth knowing and changes no verdict.
type Clash struct {
	Rule     Rule             `json:"rule"`
	Verdict  Verdict          `json:"verdict"`
	A        Code             `json:"a"`
	B        Code             `json:"b,omitempty"` // empty where it is the tank
	Today    bool             `json:"today"`       // at today's sizes; else at adult ones
	Measured quantity.Value   `json:"measured"`    // the number that clashed; missing where it is no number
	Limit    quantity.Value   `json:"limit"`
	Says     working.Key      `json:"says"` // the code of Finding
	Finding  *working.Finding `json:"finding"`
	Advises  working.Key      `json:"advises"` // the code of Cure
	Cure     *working.Finding `json:"cure"`    // one thing to do about it
	// Now says that it is milder at today's sizes, nil where it is not or where they
	// are not known.
	Now *working.Finding `json:"now,omitempty"`
}

// Together is whether a stock gets on.
type Together struct {
	Verdict  Verdict           `json:"verdict"`
	Today    Verdict           `json:"today"`   // the same at today's sizes alone
	Clashes  []Clash           `json:"clashes"` // the gravest first, then in the order of Rules
	Findings []working.Finding `json:"-"`       // what stands over them all
}

// Judge says whether all of a stock, what is planned included, gets on with each
// other and with the home, by every rule, at adult sizes and at today's. An empty
// stock is steady. Errors: *working.Refusal.
func Judge(h Home, lots []Lot) (Together, error) {
	if err := h.Accept(); err != nil {
		return Together{}, err
	}
	if err := acceptLots("lots", lots); err != nil {
		return Together{}, err
	}
	j := judgeAll(h, kindsOf(lots))
	t := Together{Verdict: j.worst, Clashes: make([]Clash, 0, len(j.notes))}
	for _, i := range j.order() {
		c := j.explain(j.notes[i])
		t.Clashes = append(t.Clashes, c)
		now := c.Verdict
		if c.Now != nil {
			now = verdictIn(c.Now.State)
		}
		t.Today = max(t.Today, now)
	}
	t.Findings = append(t.Findings, working.Find(t.Verdict.State(), [...]working.Key{"find.fish.together_steady", "find.fish.together_wait", "find.fish.together_no"}[t.Verdict]))
	return t, nil
}

func codeOf(k *kind) Code {
	if k == nil {
		return ""
	}
	return k.Code
}

// order gives the places of the notes in the order in which they are told: by
// verdict, rule and animals, each in so many bits of one number, since a crowd has
// hundreds of notes. Kinds are at most MaxLots.
func (j *judge) order() []int {
	keys := make([]uint64, len(j.notes))
	for i := range j.notes {
		n := &j.notes[i]
		b := 0
		if n.b != nil {
			b = n.b.at + 1
		}
		keys[i] = uint64(No-n.verdict)<<62 | uint64(orderOf[n.rule])<<56 | uint64(n.a.at)<<48 | uint64(b)<<40 | uint64(i)
	}
	slices.Sort(keys)
	out := make([]int, len(keys))
	for i, k := range keys {
		out[i] = int(k & (1<<40 - 1))
	}
	return out
}

// note is a clash in short, before it is put into findings.
type note struct {
	rule     Rule
	verdict  Verdict
	a, b     *kind
	says     working.Key
	x, limit float64 // in the unit that explain knows for says
	today    bool
}

// judge goes through the rules.
type judge struct {
	home  Home
	kinds []kind
	notes []note
	worst Verdict
	quiet bool // only the verdict is wanted
}

func (j *judge) note(n note) {
	j.worst = max(j.worst, n.verdict)
	if n.verdict == No && n.b != nil {
		n.a.hard++
		n.b.hard++
	}
	if !j.quiet {
		j.notes = append(j.notes, n)
	}
}

func judgeAll(h Home, kinds []kind) *judge {
	for i := range kinds {
		kinds[i].at = i
	}
	j := &judge{home: h, kinds: kinds}
	j.run()
	return j
}

// verdictOf is the verdict alone.
func verdictOf(h Home, kinds []kind) Verdict {
	j := &judge{home: h, kinds: kinds, quiet: true}
	j.run()
	return j.worst
}

func (j *judge) run() {
	for i := range j.kinds {
		k := &j.kinds[i]
		j.byItself(k)
		j.rivals(k)
	}
	for i := range j.kinds {
		for n := i + 1; n < len(j.kinds); n++ {
			a, b := &j.kinds[i], &j.kinds[n]
			j.pair(a, b)
			j.pair(b, a)
			j.bothWays(a, b)
		}
	}
	j.water()
	j.levels()
}
