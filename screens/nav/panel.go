package nav

import (
	"example.org/driploop/model/care"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/present"
)

var severities = map[care.Severity]parts.Severity{care.Danger: parts.Danger, care.Warning: parts.Warning, care.Caution: parts.Caution, care.Notice: parts.Notice}

// Panel is a safety note as its panel shows it.
func Panel(n present.Note) parts.SafetySpec {
	return parts.SafetySpec{Severity: severities[n.Severity], Word: n.Signal, Hazard: n.Hazard, Consequence: n.Consequence, Avoidance: []string{n.Avoid}}
}

var states = map[working.State]parts.State{working.Steady: parts.Steady, working.Wait: parts.Wait, working.Act: parts.Act}

// State is a state as the parts show it.
func State(s working.State) parts.State { return states[s] }
