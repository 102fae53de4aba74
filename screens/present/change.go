package present

import (
	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// ChangeLines writes what a planned water change takes and does: hot and cold
// water, conditioner, and what the next test should show of each reading.
func (p Presenter) ChangeLines(c keeper.ChangePlan) []Line {
	w := p.W
	var out []Line
	add := func(key working.Key, value string) { out = append(out, Line{Name: w.T(key, nil), Value: value}) }
	each := func(one, all working.Key) working.Key {
		if c.PerBucket {
			return one
		}
		return all
	}
	if c.Hot > 0 {
		add(each("page.change.hot_bucket", "page.change.hot_all"), w.Quantity(c.Hot.Value()))
	}
	if c.Cold > 0 {
		add(each("page.change.cold_bucket", "page.change.cold_all"), w.Quantity(c.Cold.Value()))
	}
	if t := c.Treated; t != nil {
		add("page.change.dose", w.T("page.change.dose_for", i18n.Args{"Dose": t.Whole, "Water": t.Water.Value()}))
		if t.Buckets > 1 {
			add("page.change.dose_bucket", w.Quantity(t.PerBucket))
		}
	}
	for _, x := range c.Predicted {
		name := w.T(working.Key("reading."+x.Name), nil)
		value := w.T("page.change.predicted", i18n.Args{"Now": x.Now, "After": x.After, "Range": w.Range(x.Low, x.High)})
		if x.Basis != quantity.BasisNone {
			name += " " + w.T(working.Key("word.basis."+string(x.Basis)), nil)
		}
		out = append(out, Line{Name: name, Value: value})
	}
	return out
}
