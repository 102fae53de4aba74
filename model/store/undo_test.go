package store

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// history is what the walk expects of one tank: its changes, and how many of
// them stand.
type history struct {
	changes []Change
	stand   int
}

// replay makes the state that the standing changes lead to, row by row.
func (h *history) replay() map[string]Row {
	state := map[string]Row{}
	for _, c := range h.changes[:h.stand] {
		for _, o := range c.Ops {
			t, _ := tableOf("test", o.Table)
			r := o.Before
			if r == nil {
				r = o.After
			}
			id := o.Table + fmt.Sprint(t.keyOf(r))
			if o.After == nil {
				delete(state, id)
				continue
			}
			full := Row{}
			for _, c := range t.columns {
				full[c.name] = nil
			}
			maps.Copy(full, state[id])
			maps.Copy(full, o.After)
			state[id] = full
		}
	}
	return state
}

// TestUndoWalk (D2-51): after any walk of changes, undo, redo and restarts the
// rows are those that a replay of the standing changes makes.
func TestUndoWalk(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "walk")
		if err != nil {
			t.Fatal(err)
		}
		ctx := context.Background()
		s, err := Open(ctx, dir, options)
		if err != nil {
			rt.Fatal(err)
		}
		defer func() { _ = s.Close() }()
		tanks := map[string]*history{"a": {}, "b": {}}
		serial := 0
		apply := func(tank string, ops ...Op) {
			serial++
			h := tanks[tank]
			c := Change{Tank: tank, Label: fmt.Sprint("label", serial), Values: map[string]string{"n": fmt.Sprint(serial)}, At: "2026-11-25T07:10:00Z", Ops: ops}
			if err := s.Apply(ctx, c); err != nil {
				rt.Fatalf("apply: %v", err)
			}
			h.changes = append(h.changes[:h.stand:h.stand], c)
			h.stand++
		}
		rt.Repeat(map[string]func(*rapid.T){
			"": func(rt *rapid.T) {
				want := map[string]Row{}
				for _, h := range tanks {
					maps.Copy(want, h.replay())
				}
				got := map[string]Row{}
				for i := range tables {
					rows, err := s.Load(ctx, tables[i].name, nil, "")
					if err != nil {
						rt.Fatal(err)
					}
					for _, r := range rows {
						got[tables[i].name+fmt.Sprint(tables[i].keyOf(r))] = r
					}
				}
				if len(got) != len(want) {
					rt.Fatalf("%d rows, replay has %d", len(got), len(want))
				}
				for id, r := range want {
					if !maps.Equal(got[id], r) {
						rt.Fatalf("%s: %v, replay has %v", id, got[id], r)
					}
				}
			},
			"change": func(rt *rapid.T) {
				tank := rapid.SampledFrom([]string{"a", "b"}).Draw(rt, "tank")
				state := tanks[tank].replay()
				var ops []Op
				if _, ok := state["tank"+fmt.Sprint(Row{"id": tank})]; !ok {
					ops = append(ops, Op{Table: "tank", After: tankRow(tank)})
				}
				for i := range rapid.IntRange(1, 3).Draw(rt, "ops") {
					ids := slices.Sorted(maps.Keys(state))
					ids = slices.DeleteFunc(ids, func(id string) bool { return !strings.HasPrefix(id, "answer") })
					kind := rapid.IntRange(0, 2).Draw(rt, "kind")
					if kind == 0 || len(ids) == 0 {
						serial++
						ops = append(ops, Op{Table: "answer", After: Row{"tank": tank, "field": fmt.Sprintf("f%d-%d", serial, i), "kind": "number",
							"text": rapid.StringMatching(`[0-9]{0,3}[,.]?[0-9]ü?`).Draw(rt, "text"), "origin": "person", "at": "x"}})
						continue
					}
					id := rapid.SampledFrom(ids).Draw(rt, "id")
					row := state[id]
					delete(state, id) // one op a row and change
					if kind == 1 {
						ops = append(ops, Op{Table: "answer", Before: row})
					} else {
						ops = append(ops, Op{Table: "answer", Before: row, After: Row{"text": rapid.StringN(0, 5, -1).Filter(func(s string) bool { return badText(s) == "" }).Draw(rt, "new"),
							"unit": rapid.SampledFrom([]any{nil, "cm"}).Draw(rt, "unit")}})
					}
				}
				apply(tank, ops...)
			},
			"undo": func(rt *rapid.T) {
				tank := rapid.SampledFrom([]string{"a", "b"}).Draw(rt, "tank")
				h := tanks[tank]
				label, labelErr := s.UndoLabel(ctx, tank)
				c, err := s.Undo(ctx, tank)
				if h.stand == 0 {
					if !errors.Is(err, ErrNothing) || !errors.Is(labelErr, ErrNothing) {
						rt.Fatalf("undo of nothing: %v, %v", err, labelErr)
					}
					return
				}
				h.stand--
				if want := h.changes[h.stand]; err != nil || labelErr != nil || c.Label != want.Label || label.Label != want.Label ||
					!maps.Equal(c.Values, want.Values) || len(c.Ops) != len(want.Ops) {
					rt.Fatalf("undo: %v, %v: %+v, want %+v", err, labelErr, c, want)
				}
			},
			"redo": func(rt *rapid.T) {
				tank := rapid.SampledFrom([]string{"a", "b"}).Draw(rt, "tank")
				h := tanks[tank]
				label, labelErr := s.RedoLabel(ctx, tank)
				c, err := s.Redo(ctx, tank)
				if h.stand == len(h.changes) {
					if !errors.Is(err, ErrNothing) || !errors.Is(labelErr, ErrNothing) {
						rt.Fatalf("redo of nothing: %v, %v", err, labelErr)
					}
					return
				}
				if want := h.changes[h.stand]; err != nil || labelErr != nil || c.Label != want.Label || label.Label != want.Label {
					rt.Fatalf("redo: %v, %v: %+v, want %+v", err, labelErr, c, want)
				}
				h.stand++
			},
			"restart": func(rt *rapid.T) {
				if err := s.Close(); err != nil {
					rt.Fatal(err)
				}
				if s, err = Open(ctx, dir, options); err != nil {
					rt.Fatal(err)
				}
			},
		})
	})
}

// TestUndoConflict: what was changed outside the history is not overwritten by
// taking back what was before it.
func TestUndoConflict(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	ctx := context.Background()
	c := change("t1", Op{Table: "tank", Before: Row{"id": "t1", "name": "Tank t1"}, After: Row{"name": "Shown"}})
	c.Silent = true
	if err := s.Apply(ctx, c); err != nil {
		t.Fatal(err)
	}
	before := dump(t, s.db)
	var ce *ConflictError
	if _, err := s.Undo(ctx, "t1"); !errors.As(err, &ce) || ce.Found["name"] != "Shown" {
		t.Errorf("got %v, want a conflict", err)
	}
	if dump(t, s.db) != before {
		t.Error("a conflict left something")
	}
}

// TestTimerTicksDoNotBlockUndo: the silent count of a timer is no conflict.
func TestTimerTicksDoNotBlockUndo(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	ctx := context.Background()
	timer := Row{"id": "w1", "tank": "t1", "kind": "acclimate", "started": "2026-11-25T07:10:00Z", "elapsed_ms": int64(0), "last_seen": "2026-11-25T07:10:00Z"}
	if err := s.Apply(ctx, change("t1", Op{Table: "timer", After: timer})); err != nil {
		t.Fatal(err)
	}
	tick := change("t1", Op{Table: "timer", Before: timer, After: Row{"elapsed_ms": int64(9_007_199_254_740_993), "last_seen": "2026-11-25T07:11:00Z"}})
	tick.Silent = true
	if err := s.Apply(ctx, tick); err != nil {
		t.Fatal(err)
	}
	rows, err := s.Load(ctx, "timer", map[string]any{"elapsed_ms": int64(9_007_199_254_740_993)}, "")
	if err != nil || len(rows) != 1 {
		t.Fatalf("after the tick: %v, %v", rows, err)
	}
	// A whole number beyond what JSON's double would hold survives the history.
	if err := s.Apply(ctx, change("t1", Op{Table: "timer", Before: rows[0]})); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Undo(ctx, "t1"); err != nil {
		t.Fatal(err)
	}
	back, err := s.Load(ctx, "timer", nil, "")
	if err != nil || len(back) != 1 || !maps.Equal(back[0], rows[0]) {
		t.Fatalf("after undo: %v (%v), want %v", back, err, rows[0])
	}
	if _, err := s.Undo(ctx, "t1"); err != nil {
		t.Errorf("undo of the start: %v", err)
	}
	if rows, _ := s.Load(ctx, "timer", nil, ""); len(rows) != 0 {
		t.Errorf("left: %v", rows)
	}
}

// TestUndoDepth: the oldest changes of a tank go, never those of another.
func TestUndoDepth(t *testing.T) {
	s := open(t, t.TempDir())
	addTank(t, s, "t1")
	addTank(t, s, "t2")
	ctx := context.Background()
	// t2 has one change taken back, older than all that follows.
	if err := s.Apply(ctx, entryChange("t2", 1)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Undo(ctx, "t2"); err != nil {
		t.Fatal(err)
	}
	for n := range UndoDepth + 5 {
		if err := s.Apply(ctx, entryChange("t1", n+1)); err != nil {
			t.Fatal(err)
		}
	}
	for tank, want := range map[string]int64{"t1": UndoDepth, "t2": 2} {
		if n, err := number(ctx, s.db, "SELECT count(*) FROM undo WHERE tank = ?", tank); err != nil || n != want {
			t.Errorf("%s: %d undo rows (%v), want %d", tank, n, err, want)
		}
	}
	if c, err := s.Redo(ctx, "t2"); err != nil || c.Label != "entry.added" {
		t.Errorf("redo in the other tank: %+v, %v", c, err)
	}
	undone := 0
	for {
		if _, err := s.Undo(ctx, "t1"); err != nil {
			if !errors.Is(err, ErrNothing) {
				t.Error(err)
			}
			break
		}
		undone++
	}
	if rows, _ := s.Load(ctx, "entry", map[string]any{"tank": "t1"}, ""); undone != UndoDepth || len(rows) != 5 {
		t.Errorf("%d taken back, %d entries left; want %d, 5", undone, len(rows), UndoDepth)
	}
}
