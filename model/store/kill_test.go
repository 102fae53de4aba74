package store

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/drill"
)

// program is a child process of a drill.
type program struct {
	cmd   *exec.Cmd
	lines *bufio.Scanner
}

func start(t testing.TB, mode, dir string) *program {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childMode+"="+mode, childDir+"="+dir)
	if _, err := cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd.Stderr = os.Stderr
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill() })
	return &program{cmd, bufio.NewScanner(out)}
}

// line reads what the program says next, "" at its end.
func (p *program) line() string {
	if !p.lines.Scan() {
		return ""
	}
	return p.lines.Text()
}

// kill ends the program without warning and returns the last entry it had
// acknowledged.
func (p *program) kill(t testing.TB) (acked int) {
	t.Helper()
	if err := p.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for p.lines.Scan() {
		if n := ack(t, p.lines.Text()); n > acked {
			acked = n
		}
	}
	_ = p.cmd.Wait()
	return acked
}

func ack(t testing.TB, line string) (n int) {
	t.Helper()
	if line == "open" {
		return 0
	}
	if _, err := fmt.Sscanf(line, "ack %d", &n); err != nil {
		t.Fatalf("child said %q", line)
	}
	return n
}

// TestKilledWhileWriting (D2-01): what was acknowledged is there, and nothing
// is there by half.
func TestKilledWhileWriting(t *testing.T) {
	dir := ""
	random := rand.New(rand.NewPCG(1, 2))
	told, total := 0, 0 // entries of the folders before, and of this one
	for round := range killRounds {
		if round%aFolder == 0 { // a daybook that grows for ever takes ever longer to check
			if dir != "" {
				_ = os.RemoveAll(dir)
			}
			dir, told, total = t.TempDir(), told+total, 0
			s := open(t, dir)
			addTank(t, s, "t1")
			mustClose(t, s)
		}
		p := start(t, "write", dir)
		if said := p.line(); said != "open" {
			t.Fatalf("round %d: child said %q", round, said)
		}
		acked := 0
		if round%4 < 2 { // however slow the machine is, there is something to be lost
			acked = ack(t, p.line())
		}
		time.Sleep(time.Duration(10+random.IntN(71)) * time.Millisecond)
		acked = max(acked, p.kill(t))
		s := open(t, dir)
		have := entriesOK(t, s)
		// Half of the rounds leave the log as the kill left it for the next child.
		if round%2 == 0 {
			mustClose(t, s)
		} else {
			abandon(s)
		}
		if have < acked || have < total {
			t.Fatalf("round %d: %d entries, %d acknowledged, %d before", round, have, acked, total)
		}
		total = have
	}
	if told += total; told < killRounds/2 {
		t.Errorf("only %d entries in %d rounds: the drill wrote too little to show anything", told, killRounds)
	}
	drill.Tally(t, "D2-01", fmt.Sprintf("kills while writing, %d entries told as kept", told), killRounds, 0)
}

// aFolder is how many kills one folder goes through.
const aFolder = 100

// abandon leaves a folder as a kill would, as far as one's own process can.
func abandon(s *Store) {
	_ = s.db.Close()
	s.letGo()
	_ = s.lock.Release()
}

// TestKilledAtFirstStart kills the program while it makes the folder.
func TestKilledAtFirstStart(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range killRounds {
		dir := filepath.Join(t.TempDir(), "data")
		p := start(t, "hold", dir)
		time.Sleep(time.Duration(random.IntN(40_000)) * time.Microsecond)
		p.kill(t)
		s := open(t, dir)
		addTank(t, s, "t1")
		if r, err := s.Verify(t.Context()); err != nil || !r.OK() || r.Version != newest {
			t.Fatalf("verify: %+v, %v", r, err)
		}
		mustClose(t, s)
		left, err := filepath.Glob(filepath.Join(dir, ".driploop-tmp-*"))
		if err != nil || len(left) > 0 {
			t.Errorf("left over: %v, %v", left, err)
		}
	}
	drill.Tally(t, "D2-01", "kills at the first start", killRounds, 0)
}

// TestTwoInstances (D2-06): of two started at once one opens; after its kill
// the next start succeeds at once.
func TestTwoInstances(t *testing.T) {
	for round := range twoRounds {
		dir := t.TempDir()
		a, b := start(t, "hold", dir), start(t, "hold", dir)
		opened, refused := 0, 0
		var holder *program
		for _, p := range []*program{a, b} {
			switch said := p.line(); {
			case said == "open":
				opened++
				holder = p
			case strings.HasPrefix(said, "refused") && strings.Contains(said, CodeLocked):
				refused++
			default:
				t.Fatalf("round %d: child said %q", round, said)
			}
		}
		if opened != 1 || refused != 1 {
			t.Fatalf("round %d: %d opened, %d refused", round, opened, refused)
		}
		oe := wantOpenErrorLive(t, dir)
		if oe.PID != holder.cmd.Process.Pid {
			t.Errorf("round %d: held by %d, want %d", round, oe.PID, holder.cmd.Process.Pid)
		}
		_ = a.cmd.Process.Kill()
		_ = b.cmd.Process.Kill()
		_, _ = a.cmd.Process.Wait()
		_, _ = b.cmd.Process.Wait()
		mustClose(t, open(t, dir))
	}
	drill.Tally(t, "D2-06", "pairs started at once, the one that writes killed", twoRounds, 0)
}

// TestPowerLossImages (D2-02): a log cut off anywhere, or with a byte changed,
// gives the entries up to some point and no further.
func TestPowerLossImages(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	addTank(t, s, "t1")
	mustClose(t, s)
	p := start(t, "write", dir)
	for {
		if n := ack(t, p.line()); n >= 40 {
			break
		}
	}
	p.kill(t)
	main := readFile(t, filepath.Join(dir, FileName))
	log := readFile(t, filepath.Join(dir, FileName+"-wal"))
	// Source: SQLite file format, 4.1: 32 bytes of header, then frames of 24 bytes
	// and a page; the page size stands at byte 8.
	frame := 24 + int(binary.BigEndian.Uint32(log[8:]))
	frames := (len(log) - 32) / frame
	if frames < 100 {
		t.Fatalf("a log of %d frames shows too little", frames)
	}
	type image struct {
		name string
		log  []byte
	}
	var images []image
	for f := 0; f <= frames; f += logEdgeStep {
		for d := -1; d <= 1; d++ {
			at := min(32+f*frame+d, len(log))
			images = append(images, image{fmt.Sprintf("cut at frame %d%+d", f, d), log[:at]})
		}
	}
	random := rand.New(rand.NewPCG(5, 6))
	for range logRandom {
		at := random.IntN(len(log))
		images = append(images, image{fmt.Sprintf("cut at %d", at), log[:at]})
		at = random.IntN(len(log))
		flipped := append([]byte(nil), log...)
		flipped[at] ^= 0xff
		images = append(images, image{fmt.Sprintf("flip at %d", at), flipped})
	}
	images = append(images, image{"whole, index dropped", log})
	most := 0
	for i, img := range images {
		dir := filepath.Join(t.TempDir(), fmt.Sprint(i))
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
		writeFile(t, filepath.Join(dir, FileName), main)
		writeFile(t, filepath.Join(dir, FileName+"-wal"), img.log)
		s, err := Open(t.Context(), dir, options)
		if err != nil {
			t.Fatalf("%s: %v", img.name, err)
		}
		most = max(most, entriesOK(t, s))
		mustClose(t, s)
		_ = os.RemoveAll(dir)
	}
	if most < 40 {
		t.Errorf("the whole log gave %d entries, want at least 40", most)
	}
	drill.Tally(t, "D2-02", fmt.Sprintf("images of a power cut, a log of %d frames", frames), len(images), 0)
}

// wantOpenErrorLive expects the folder to be held; the file is live, so it is
// not looked at.
func wantOpenErrorLive(t testing.TB, dir string) *OpenError {
	t.Helper()
	_, err := Open(t.Context(), dir, options)
	oe, ok := err.(*OpenError)
	if !ok || oe.Code != CodeLocked {
		t.Fatalf("got %v, want %s", err, CodeLocked)
	}
	return oe
}

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	data, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func writeFile(t testing.TB, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// copyByOtherProgram copies a file that this process may have open: closing a
// second handle here would drop SQLite's locks.
func copyByOtherProgram(t testing.TB, from, to string) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childMode+"=copy", childDir+"="+from, childTo+"="+to)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("copy: %v: %s", err, out)
	}
}
