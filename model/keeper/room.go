package keeper

import (
	"math"

	"example.org/driploop/model/durable"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// freeSpace asks the disk; a variable so that a test can fill it.
var freeSpace = durable.Free

// room refuses, by the code given, what needs more bytes than the disk of a folder
// has: with Accept.High what is needed and the value Free, both in MB. A disk that
// cannot say how full it is gets the benefit of the doubt. Errors: *working.Refusal.
func room(dir string, need int64, code working.Key) error {
	free, err := freeSpace(dir)
	if err != nil || need <= 0 || free >= uint64(need) {
		return nil
	}
	mb := func(n float64) quantity.Value { return quantity.Count(n / 1e6).Value() }
	r := working.Refuse("archive", code)
	r.Accept.High = mb(math.Ceil(float64(need)/1e5) * 1e5)
	r.Values = map[string]quantity.Value{"Free": mb(math.Floor(float64(free)/1e5) * 1e5)}
	return r
}

// sizeOf is how long an archive of a daybook will be at the most, bytes: its
// pictures, which do not get smaller by packing, and its rows, which do.
func (a *wholeDaybook) sizeOf() int64 {
	const (
		aRow  = 600     // names of columns, as JSON, in the table and on the page. judgement
		other = 1 << 20 // the heads, the page's own. judgement
	)
	n, seen := int64(other), map[string]bool{}
	count := func(r slip.Row) {
		n += aRow
		for _, v := range r.Values {
			if s, ok := v.(string); ok {
				n += 3 * int64(len(s)) // row, table and page
			}
		}
	}
	for name, rows := range a.rows {
		for _, r := range rows {
			count(r)
			if h := r.Text("hash"); name == "photo" && !seen[h] {
				seen[h] = true
				bytes, _ := r.Values["bytes"].(int64)
				n += max(0, bytes)
			}
		}
	}
	return n
}
