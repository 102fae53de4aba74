package desk

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// ack is a slip that the desk said it had kept.
type ack struct {
	id, sum string
}

// write takes slips in until stop says so, and gives what was kept and how long
// each took.
func write(ctx context.Context, where, counter string, seed int, stop func(n int) bool, tell func(ack)) ([]time.Duration, error) {
	d, err := Open(ctx, where, counter)
	if err != nil {
		return nil, err
	}
	defer d.Close()
	var took []time.Duration
	for n := 0; !stop(n); n++ {
		file := bytes.Repeat([]byte(fmt.Sprintf("%s %d;", counter, n)), 200+(seed*7+n*13)%3000)
		v := visit(n)
		v.ID = fmt.Sprintf("%s-%06d", counter, n)
		began := time.Now()
		if _, err := d.Receive(ctx, v, file, noon.Add(time.Duration(n)*time.Millisecond)); err != nil {
			return took, err
		}
		if n%3 == 0 {
			if err := d.Answer(ctx, v.ID, "re-"+v.ID, file[:100], noon); err != nil {
				return took, err
			}
		}
		if n%7 == 6 { // lists while it writes, as a counter does
			if _, err := d.List(ctx, Query{Words: "danios " + counter, Open: true, Limit: 50}); err != nil {
				return took, err
			}
		}
		took = append(took, time.Since(began))
		tell(ack{v.ID, hashed(file)})
	}
	return took, nil
}

// lost counts the slips that were kept and are not there, or are another.
func lost(t testing.TB, where string, acks []ack) int {
	t.Helper()
	d := open(t, where)
	n := 0
	for _, a := range acks {
		if v, err := d.Visit(t.Context(), a.id); err != nil || v.SHA256 != a.sum {
			n++
			t.Errorf("%s is lost: %v", a.id, err)
		}
	}
	return n
}

// Many counters write at once and nothing is lost.
func TestManyCountersAtOnce(t *testing.T) {
	counters, each, length := 4, 8, time.Duration(0)
	if drill.Listed() {
		counters, each, length = 20, 0, time.Minute
	}
	everywhere(t, func(t *testing.T, p place) {
		where := p.fresh(t)
		var all sync.WaitGroup
		var mu sync.Mutex
		var acks []ack
		var took []time.Duration
		end := time.Now().Add(length)
		for c := range counters {
			all.Go(func() {
				ds, err := write(context.Background(), where, fmt.Sprintf("counter%02d", c), c, func(n int) bool {
					return n >= each && !time.Now().Before(end)
				}, func(a ack) { mu.Lock(); acks = append(acks, a); mu.Unlock() })
				mu.Lock()
				defer mu.Unlock()
				took = append(took, ds...)
				if err != nil {
					t.Errorf("counter %d: %v", c, err)
				}
			})
		}
		all.Wait()
		if len(acks) < counters*each {
			t.Errorf("%d slips were kept", len(acks))
		}
		slices.Sort(took)
		t.Logf("%s: %d counters, %d slips; a slip takes %v in the middle, %v at 95 in 100", p.name, counters, len(acks),
			took[len(took)/2].Round(time.Microsecond), took[len(took)*95/100].Round(time.Microsecond))
		drill.Tally(t, "desk", fmt.Sprintf("%s: slips of %d counters at once", p.name, counters), len(acks), lost(t, where, acks))
	})
}

const (
	childWhere = "DRIPLOOP_DESK_WHERE"
	childName  = "DRIPLOOP_DESK_NAME"
)

// TestMain runs the counter that is killed, in its own process.
func TestMain(m *testing.M) {
	if where := os.Getenv(childWhere); where != "" {
		_, err := write(context.Background(), where, os.Getenv(childName), 1, func(int) bool { return false }, func(a ack) { fmt.Println(a.id, a.sum) })
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// A counter that is killed loses nothing that it was told is kept, and leaves no
// reply without its slip.
func TestAKilledCounterLosesNothing(t *testing.T) {
	kills := drill.Count(5, 200)
	everywhere(t, func(t *testing.T, p place) {
		where := p.fresh(t)
		var acks []ack
		for k := range kills {
			acks = append(acks, killed(t, where, fmt.Sprintf("killed%03d", k), 3+k%9)...)
		}
		n := lost(t, where, acks)
		d := open(t, where)
		var orphans int
		if err := d.db.QueryRow("SELECT count(*) FROM desk_reply WHERE slip NOT IN (SELECT id FROM desk_slip)").Scan(&orphans); err != nil || orphans > 0 {
			t.Errorf("%d replies without a slip, %v", orphans, err)
		}
		if len(acks) < kills {
			t.Errorf("%d slips were kept before %d kills: the drill shows nothing", len(acks), kills)
		}
		drill.Tally(t, "desk", p.name+": counters killed while writing", kills, n+orphans)
	})
}

// killed starts a counter and kills it in the midst, after it told of some slips.
func killed(t *testing.T, where, name string, after int) []ack {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childWhere+"="+where, childName+"="+name)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	var acks []ack
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if id, sum, ok := strings.Cut(lines.Text(), " "); ok && len(sum) == 64 {
			acks = append(acks, ack{id, sum})
		}
		if len(acks) == after {
			_ = cmd.Process.Kill()
		}
	}
	_ = cmd.Wait()
	return acks
}

// A server that falls and rises again has lost nothing; the desk says that it
// cannot be reached, and works on once it can.
func TestAServerThatFallsLosesNothing(t *testing.T) {
	if !drill.Listed() {
		return // the drill alone starts a server
	}
	s := startServer(t)
	where := s.fresh()
	d := open(t, where)
	var acks []ack
	falls := 5
	for f := range falls {
		for n := range 20 {
			v := visit(n)
			v.ID = fmt.Sprintf("fall%d-%d", f, n)
			take(t, d, v, v.ID, noon)
			acks = append(acks, ack{v.ID, hashed([]byte(v.ID))})
		}
		s.stop("immediate")
		if _, err := d.List(t.Context(), Query{}); code(err) != CodeReach {
			t.Errorf("while it is down: %v, want %s", err, CodeReach)
		}
		s.start()
	}
	drill.Tally(t, "desk", "PostgreSQL: the server falls", falls, lost(t, where, acks))
}
