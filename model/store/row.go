package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"
)

// MaxText is the longest text a column takes, in bytes. It is a guard against
// runaway input; what a person may type is limited further up. // judgement
const MaxText = 1 << 20

// Row is a row of a table, or part of one: column name to value. A value is a
// string in a TEXT column, an int64 in an INTEGER column, or nil for NULL. The
// schema has no other kind of column: numbers are kept as typed, as text.
type Row map[string]any

// Op is the change of one row. Before nil is an insert, After nil a delete,
// both an update.
//
//   - Insert: After names every required column; others left out are NULL.
//     entry.seq may be left out: the next number is given.
//   - Update: Before names the key and every column that After names. Columns
//     named only in Before stay as they are but must still have that value.
//     The key cannot be changed.
//   - Delete: Before names every column, as Load gives them.
type Op struct {
	Table  string `json:"table"`
	Before Row    `json:"before"`
	After  Row    `json:"after"`
}

// Change is what a person sees as one step.
type Change struct {
	Tank   string            // whose history it enters; "" for what belongs to no tank
	Label  string            // message key of what was done
	Values map[string]string // values for the label's text
	At     string            // UTC, RFC 3339
	Ops    []Op
	Silent bool // keep it out of the undo history (a timer's tick)
}

// check refuses columns and values that the table does not take.
func (t *table) check(op string, r Row) error {
	for name, v := range r {
		c := t.column(name)
		if c == nil {
			return &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: name, Reason: ReasonColumn}
		}
		if err := c.check(op, t.name, v); err != nil {
			return err
		}
	}
	return nil
}

// check refuses a value that the column does not take.
func (c *column) check(op, table string, v any) error {
	refuse := func(reason string) error {
		return &OpError{Code: CodeRefused, Op: op, Table: table, Column: c.name, Reason: reason}
	}
	switch v := v.(type) {
	case nil:
		if c.required {
			return refuse(ReasonMissing)
		}
	case string:
		if c.kind != text {
			return refuse(ReasonType)
		}
		if reason := badText(v); reason != "" {
			return refuse(reason)
		}
	case int64:
		if c.kind != integer {
			return refuse(ReasonType)
		}
	default:
		return refuse(ReasonType)
	}
	return nil
}

// badText gives the reason why a text is not taken, "" when it is.
func badText(s string) string {
	switch {
	case len(s) > MaxText:
		return ReasonLong
	case !utf8.ValidString(s) || strings.IndexByte(s, 0) >= 0:
		return ReasonText
	}
	return ""
}

// need refuses a row that lacks one of the columns that pick chooses.
func (t *table) need(op string, r Row, pick func(column) bool) error {
	for _, c := range t.columns {
		if _, ok := r[c.name]; !ok && pick(c) {
			return &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: c.name, Reason: ReasonMissing}
		}
	}
	return nil
}

// keyOf gives the key columns of a row.
func (t *table) keyOf(r Row) Row {
	k := Row{}
	for _, c := range t.columns {
		if c.key {
			k[c.name] = r[c.name]
		}
	}
	return k
}

// complete checks an Op and fills in what it leaves unsaid, so that its inverse
// is its two rows exchanged. The caller's rows are not touched.
func (o Op) complete(op string) (Op, *table, error) {
	t, err := tableOf(op, o.Table)
	if err != nil {
		return o, nil, err
	}
	if err := t.check(op, o.Before); err != nil {
		return o, nil, err
	}
	if err := t.check(op, o.After); err != nil {
		return o, nil, err
	}
	out := Op{Table: o.Table}
	switch {
	case o.Before == nil && o.After == nil:
		return o, nil, &OpError{Code: CodeRefused, Op: op, Table: t.name, Reason: ReasonEmpty}
	case o.Before == nil:
		if err := t.need(op, o.After, func(c column) bool { return c.required }); err != nil {
			return o, nil, err
		}
		out.After = Row{}
		for _, c := range t.columns {
			out.After[c.name] = o.After[c.name] // left out is NULL
		}
	case o.After == nil:
		if err := t.need(op, o.Before, func(column) bool { return true }); err != nil {
			return o, nil, err
		}
		out.Before = copyRow(o.Before)
	default:
		if err := t.need(op, o.Before, func(c column) bool { return c.key }); err != nil {
			return o, nil, err
		}
		out.Before, out.After = copyRow(o.Before), copyRow(o.Before)
		for name, v := range o.After {
			if _, ok := o.Before[name]; !ok {
				return o, nil, &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: name, Reason: ReasonNoBefore}
			}
			if t.column(name).key && v != o.Before[name] {
				return o, nil, &OpError{Code: CodeRefused, Op: op, Table: t.name, Column: name, Reason: ReasonKey}
			}
			out.After[name] = v
		}
		if len(out.Before) == len(t.keyOf(out.Before)) {
			return o, nil, &OpError{Code: CodeRefused, Op: op, Table: t.name, Reason: ReasonEmpty}
		}
	}
	return out, t, nil
}

func copyRow(r Row) Row {
	out := make(Row, len(r))
	for k, v := range r {
		out[k] = v
	}
	return out
}

// inverse gives the Ops that take ops back, in the order to run them.
func inverse(ops []Op) []Op {
	out := make([]Op, 0, len(ops))
	for i := len(ops) - 1; i >= 0; i-- {
		out = append(out, Op{Table: ops[i].Table, Before: ops[i].After, After: ops[i].Before})
	}
	return out
}

// decodeOps reads the ops column of the undo table. Whole numbers come back as
// int64, not as the float64 that JSON would give.
func decodeOps(s string) ([]Op, error) {
	d := json.NewDecoder(bytes.NewReader([]byte(s)))
	d.UseNumber()
	var ops []Op
	if err := d.Decode(&ops); err != nil {
		return nil, err
	}
	for _, o := range ops {
		for _, r := range []Row{o.Before, o.After} {
			for name, v := range r {
				n, ok := v.(json.Number)
				if !ok {
					continue
				}
				i, err := n.Int64()
				if err != nil {
					return nil, fmt.Errorf("%s.%s: %w", o.Table, name, err)
				}
				r[name] = i
			}
		}
	}
	return ops, nil
}
