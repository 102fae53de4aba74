package reckon

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
)

// outside is a record of what other programs answer: testdata/outside/NAME.py made
// NAME.json, and a drill makes it again.
type outside struct {
	Command, Date, Method string
	Versions              map[string]string
	Checks                []outsideCheck
}

type outsideCheck struct {
	Calculation string
	Input       json.RawMessage
	Answers     []outsideAnswer
	// Of units.py.
	Unit quantity.UnitCode
	X    float64
	Base float64
	Rel  float64
}

// outsideAnswer is a number at a place of the output: "result", the path of a
// value, or "working." with the question and the symbol of a step.
type outsideAnswer struct {
	At   string
	Want float64
	Abs  float64
	Rel  float64
}

// records are the scripts, with the number of answers that each must give.
var records = map[string]int{"units": 107, "water": 266, "nitrogen": 1338, "cooling": 64, "beams": 72}

func readRecord(t *testing.T, raw []byte, name string) outside {
	t.Helper()
	var o outside
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	if err := d.Decode(&o); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if o.Command == "" || o.Date == "" || o.Method == "" || len(o.Versions) < 2 {
		t.Errorf("%s: no command, date, method or versions: %+v", name, o)
	}
	return o
}

func recorded(t *testing.T, name string) outside {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(testdata, "outside", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	return readRecord(t, raw, name)
}

// numberAt finds a number in the output of a calculation.
func numberAt(out any, at string) (float64, error) {
	if rest, ok := strings.CutPrefix(at, "working."); ok {
		i := strings.LastIndex(rest, ".")
		for _, tr := range out.(map[string]any)["working"].([]any) {
			if tr.(map[string]any)["ask"] != rest[:i] {
				continue
			}
			for _, s := range tr.(map[string]any)["steps"].([]any) {
				if step := s.(map[string]any); step["symbol"] == rest[i+1:] {
					return numberAt(step, "value.value")
				}
			}
		}
		return 0, fmt.Errorf("no step %s", at)
	}
	for _, name := range strings.Split(at, ".") {
		switch x := out.(type) {
		case map[string]any:
			out = x[name]
		case []any:
			i, err := strconv.Atoi(name)
			if err != nil || i < 0 || i >= len(x) {
				return 0, fmt.Errorf("no item %s of %s", name, at)
			}
			out = x[i]
		}
	}
	x, ok := out.(float64)
	if !ok {
		return 0, fmt.Errorf("no number at %s", at)
	}
	return x, nil
}

// hold compares every answer of a record with what run gives, and returns how many
// there were and how far the worst is within its tolerance.
func (o outside) hold(t *testing.T, name string, run func(calculation string, input []byte) []byte) (answers int, worst float64) {
	t.Helper()
	for i, c := range o.Checks {
		if c.Unit != "" {
			answers++
			off := math.Abs(quantity.MustUnit(c.Unit).ToBase(c.X)-c.Base) / (c.Rel * max(1e-300, math.Abs(c.Base), math.Abs(c.X)*c.tiny()))
			worst = max(worst, off)
			if !(off <= 1) {
				t.Errorf("%s.json check %d (%s): %g %s: want %.15g, got %.15g", name, i, o.Command, c.X, c.Unit, c.Base, quantity.MustUnit(c.Unit).ToBase(c.X))
			}
			continue
		}
		raw := run(c.Calculation, c.Input)
		var out any
		if err := json.Unmarshal(raw, &out); err != nil {
			t.Fatalf("%s.json check %d: %v in %.200s", name, i, err, raw)
		}
		for _, a := range c.Answers {
			answers++
			got, err := numberAt(out, a.At)
			if err != nil {
				t.Fatalf("%s.json check %d: %s: %v in %.400s", name, i, c.Calculation, err, raw)
			}
			off := math.Abs(got-a.Want) / (a.Abs + a.Rel*math.Abs(a.Want))
			worst = max(worst, off)
			if !(off <= 1) {
				t.Errorf("%s.json check %d (%s): %s, %s: want %.10g, got %.10g, %.3g of the tolerance", name, i, o.Command, c.Calculation, a.At, a.Want, got, off)
			}
		}
	}
	return answers, worst
}

// tiny is one for units whose zero is not that of their base, where an answer near
// zero has the rounding of what was asked.
func (c outsideCheck) tiny() float64 {
	if quantity.MustUnit(c.Unit).Offset != 0 || c.Unit == "degc" {
		return 1
	}
	return 0
}

// Every record is held by the calculations, and every unit is in the record of units.
func TestAnswersOfOtherPrograms(t *testing.T) {
	for name, least := range records {
		o := recorded(t, name)
		n, worst := o.hold(t, name, func(calculation string, input []byte) []byte {
			c, ok := Get(calculation)
			if !ok {
				t.Fatalf("%s.json: no calculation %s", name, calculation)
			}
			_, raw := answer(t, c, input)
			return raw
		})
		if n < least {
			t.Errorf("%s.json: %d answers, want at least %d", name, n, least)
		}
		t.Logf("%s.json of %s, %v: %d answers, the worst at %.2g of its tolerance", name, o.Date, o.Versions, n, worst)
	}
	asked := map[quantity.UnitCode]bool{}
	for _, c := range recorded(t, "units").Checks {
		asked[c.Unit] = true
	}
	ours := []quantity.UnitCode{"ph"} // a number that no other program converts
	for _, k := range quantity.Kinds() {
		for _, u := range quantity.UnitsOf(k) {
			if !asked[u.Code] && !slices.Contains(ours, u.Code) {
				t.Errorf("units.json: unit %s was not asked", u.Code)
			}
		}
	}
}

// In a drill the scripts run again; they answer as they did, and the program
// itself, from the command line, is held to the fresh answers.
func TestOtherProgramsAgain(t *testing.T) {
	if !drill() {
		return
	}
	program := os.Getenv("DRIPLOOP_BIN")
	if program == "" {
		program = filepath.Join("..", "..", "bin", "driploop")
	}
	for name := range records {
		fresh := readRecord(t, script(t, name), name)
		old := recorded(t, name)
		if len(fresh.Checks) != len(old.Checks) {
			t.Errorf("%s.py gives %d checks, the record has %d", name, len(fresh.Checks), len(old.Checks))
			continue
		}
		for i := range old.Checks {
			f, o := fresh.Checks[i], old.Checks[i]
			alike(t, name, i, f.Base, o.Base, 0)
			for j := range min(len(f.Answers), len(o.Answers)) {
				alike(t, name, i, f.Answers[j].Want, o.Answers[j].Want, 0.1*(o.Answers[j].Abs+o.Answers[j].Rel*math.Abs(o.Answers[j].Want)))
			}
		}
		n, worst := fresh.hold(t, name, func(calculation string, input []byte) []byte {
			c := exec.Command(program, "--data", t.TempDir(), "reckon", calculation)
			c.Stdin = bytes.NewReader(input)
			out, err := c.Output()
			if err != nil {
				t.Fatalf("%s reckon %s: %v\n%s", program, calculation, err, out)
			}
			return out
		})
		t.Logf("%s.py, %v: %d answers, the worst at %.2g of its tolerance", name, fresh.Versions, n, worst)
	}
	if now := script(t, "frames"); !sameNumbers(t, now) {
		t.Error("frames.py answers otherwise than frames.json")
	}
}

func alike(t *testing.T, name string, i int, fresh, old, within float64) {
	t.Helper()
	if math.Abs(fresh-old) > within+1e-12*math.Abs(old) {
		t.Errorf("%s.py check %d: %.12g now, %.12g in the record", name, i, fresh, old)
	}
}

// python is the one that Debian's packages belong to, where there is one.
func python() string {
	const debian = "/usr/bin/python3"
	if _, err := os.Stat(debian); err == nil {
		return debian
	}
	return "python3"
}

// script runs a script of testdata/outside.
func script(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	c := exec.Command(python(), append([]string{name + ".py"}, args...)...)
	c.Dir = filepath.Join(testdata, "outside")
	c.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1")
	var wrong bytes.Buffer
	c.Stderr = &wrong
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s.py: %v\n%s", name, err, wrong.String())
	}
	return out
}

// sameNumbers reports whether a run of frames.py has the answers of its record,
// which package frame is held to, to six figures.
func sameNumbers(t *testing.T, now []byte) bool {
	t.Helper()
	type record struct {
		Checks []struct{ Want map[string]float64 }
	}
	var fresh, old record
	raw, err := os.ReadFile(filepath.Join(testdata, "outside", "frames.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &old); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(now, &fresh); err != nil || len(fresh.Checks) != len(old.Checks) {
		return false
	}
	for i, c := range old.Checks {
		for what, want := range c.Want {
			if got, ok := fresh.Checks[i].Want[what]; !ok || !(math.Abs(got-want) <= 1e-6*math.Abs(want)+1e-9) {
				return false
			}
		}
	}
	return true
}
