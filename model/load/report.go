package load

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Grading of uses, judgement: steady up to 0.7, wait up to 1, act beyond.
const (
	waitFrom       = 0.7
	waitFromRating = 0.8 // of a maker's rating
)

// report gathers an assessment.
type report struct{ Assessment }

func (r *report) find(f working.Finding) { r.Findings = append(r.Findings, f) }

func (r *report) cure(code working.Key) working.Finding { return working.Find(working.Steady, code) }

func (r *report) offer(f working.Finding) {
	for _, have := range r.Cures {
		if have.Code == f.Code {
			return
		}
	}
	r.Cures = append(r.Cures, f)
}

func (r *report) caution(codes ...working.Key) {
	for _, c := range codes {
		r.Cautions = append(r.Cautions, working.Find(working.Wait, c))
	}
}

// add grades a check by its use and keeps it.
func (r *report) add(name working.Key, demand, capacity quantity.Value, tr *working.Trail) working.Check {
	return r.addGraded(name, demand, capacity, waitFrom, tr)
}

func (r *report) addGraded(name working.Key, demand, capacity quantity.Value, wait float64, tr *working.Trail) working.Check {
	use := demand.X / capacity.X
	if tr != nil {
		tr.Step("u", "q.load.use", "u = E_d/R_d", quantity.Ratio(use).Value(), working.Algebra)
		tr.Cites(working.Ours)
	}
	c := working.Graded(working.Check{Name: name, Use: use, Demand: demand, Capacity: capacity, Trail: tr}, wait)
	r.Checks = append(r.Checks, c)
	return c
}

// done sorts the checks and takes the gravest state.
func (r *report) done() Assessment {
	r.Checks = working.Governing(r.Checks)
	r.State = working.WorstOf(r.Findings)
	for _, c := range r.Checks {
		r.State = working.Worst(r.State, c.State)
	}
	return r.Assessment
}
