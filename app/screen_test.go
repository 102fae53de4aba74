//go:build e2e && linux

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// How long a test of the window waits before it fails, and how often it looks.
const (
	patience = time.Minute
	glance   = 15 * time.Millisecond
)

// eventually looks until look is satisfied. look says what is still lacking, ""
// for nothing.
func eventually(t testing.TB, look func() string) {
	t.Helper()
	lacks := ""
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(glance) {
		if lacks = look(); lacks == "" {
			return
		}
	}
	t.Fatalf("waited %v: %s", patience, lacks)
}

// screen is a virtual display with a window manager on it.
type screen struct {
	t       testing.TB
	display string
	home    string // of everything that runs on it
	binary  string // the program, where everybody may run it
	pinger  *pinger
}

// managerPatience is how long one window manager may take to begin.
const managerPatience = 5 * time.Second

// newScreen starts a display on a free number. It goes with the test.
func newScreen(t testing.TB) *screen {
	t.Helper()
	binary := os.Getenv("DRIPLOOP_BIN")
	if binary == "" {
		t.Fatal("DRIPLOOP_BIN names no program: run make window")
	}
	s := &screen{t: t, home: openTemp(t), binary: binary}
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	x := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1440x960x24", "-nolisten", "tcp", "-ac")
	x.ExtraFiles = []*os.File{write} // the server chooses the number and writes it here
	s.begin(x)
	write.Close()
	if err := read.SetReadDeadline(time.Now().Add(patience)); err != nil {
		t.Fatal(err)
	}
	number, err := bufio.NewReader(read).ReadString('\n') // to its end, or the server takes the closed pipe ill
	read.Close()
	if err != nil {
		t.Fatalf("the display does not start: %v", err)
	}
	s.display = ":" + strings.TrimSpace(number)
	var asked time.Time
	eventually(t, func() string {
		// It gives up where the display is slow to answer, and one that is not the
		// first ends by itself.
		if time.Since(asked) > managerPatience {
			s.begin(exec.Command("openbox", "--sm-disable"))
			asked = time.Now()
		}
		// The window manager says that it is there by a property of the root.
		if _, err := s.x("xdotool", "get_desktop"); err != nil {
			return "no window manager: " + err.Error()
		}
		return ""
	})
	s.pinger = newPinger(t, s.display)
	return s
}

// openTemp is a folder for this test that other accounts may enter.
func openTemp(t testing.TB) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "driploop-window-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	return dir
}

// env is what everything on the screen runs with: nothing of the person's own
// settings, no bus, no other display.
func (s *screen) env() []string {
	return []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + s.home, "XDG_CONFIG_HOME=" + s.home, "XDG_CACHE_HOME=" + s.home,
		"XDG_DATA_HOME=" + s.home, "XDG_RUNTIME_DIR=" + s.home,
		"DISPLAY=" + s.display, "LIBGL_ALWAYS_SOFTWARE=1", "LANG=en_US.UTF-8",
	}
}

// begin starts a process that ends with the test, however the test ends.
func (s *screen) begin(c *exec.Cmd) {
	s.t.Helper()
	c.Env = s.env()
	c.Dir = s.home
	if c.SysProcAttr == nil {
		c.SysProcAttr = &syscall.SysProcAttr{}
	}
	c.SysProcAttr.Pdeathsig = syscall.SIGKILL
	if err := c.Start(); err != nil {
		s.t.Fatal(err)
	}
	done := make(chan struct{})
	go func() { _ = c.Wait(); close(done) }()
	s.t.Cleanup(func() {
		_ = c.Process.Kill()
		<-done
	})
}

// x runs a tool on the screen and gives its output.
func (s *screen) x(name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Env = s.env()
	var out, said bytes.Buffer
	c.Stdout, c.Stderr = &out, &said
	if err := c.Run(); err != nil {
		return "", fmt.Errorf("%s %s: %w: %s", name, strings.Join(args, " "), err, said.String())
	}
	return strings.TrimSpace(out.String()), nil
}

func (s *screen) must(name string, args ...string) string {
	s.t.Helper()
	out, err := s.x(name, args...)
	if err != nil {
		s.t.Fatal(err)
	}
	return out
}

// picture is what the X server shows of a window, or of "root".
func (s *screen) picture(window string) image.Image {
	s.t.Helper()
	out := s.must("import", "-window", window, "png:-")
	img, err := png.Decode(strings.NewReader(out))
	if err != nil {
		s.t.Fatalf("picture of window %s: %v", window, err)
	}
	return img
}

// active is the window that has the keyboard and the process that it belongs to; "" for
// none. Of a window that was closed last the display goes on to tell the number.
func (s *screen) active() (window string, pid int) {
	s.t.Helper()
	window, err := s.x("xdotool", "getactivewindow")
	if err != nil {
		return "", 0
	}
	said, err := s.x("xdotool", "getwindowpid", window)
	if err != nil {
		return "", 0
	}
	if pid, err = strconv.Atoi(said); err != nil {
		return "", 0
	}
	return window, pid
}

// program is the program itself with its window on the screen.
type program struct {
	*screen
	cmd    *exec.Cmd
	atMap  string
	atErr  string
	done   chan struct{}
	window string // the X server's number of it
}

// launch starts the program and waits for its window.
func (s *screen) launch(args ...string) *program {
	s.t.Helper()
	return s.launchAs(nil, args...)
}

// launchAs does so under another account.
func (s *screen) launchAs(as *syscall.Credential, args ...string) *program {
	s.t.Helper()
	p := s.start(as, args...)
	p.window = p.front("")
	return p
}

// start starts the program and does not wait for a window.
func (s *screen) start(as *syscall.Credential, args ...string) *program {
	s.t.Helper()
	dir := openTemp(s.t)
	p := &program{screen: s, atMap: filepath.Join(dir, "map"), atErr: filepath.Join(dir, "err"), done: make(chan struct{})}
	if as != nil {
		if err := os.Chmod(dir, 0o777); err != nil {
			s.t.Fatal(err)
		}
	}
	said, err := os.Create(p.atErr)
	if err != nil {
		s.t.Fatal(err)
	}
	defer said.Close()
	p.cmd = exec.Command(s.binary, args...)
	p.cmd.Env = append(s.env(), mapVariable+"="+p.atMap)
	p.cmd.Dir = s.home
	p.cmd.Stderr, p.cmd.Stdout = said, said
	p.cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL, Credential: as}
	if err := p.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	go func() { _ = p.cmd.Wait(); close(p.done) }()
	s.t.Cleanup(func() {
		if s.t.Failed() {
			s.t.Logf("the program wrote: %s", p.said())
		}
		_ = p.cmd.Process.Kill()
		<-p.done
	})
	return p
}

// front waits until a window of the program other than the one given has the
// keyboard, and gives it.
func (p *program) front(other string) string {
	p.t.Helper()
	found := ""
	eventually(p.t, func() string {
		select {
		case <-p.done:
			p.t.Fatalf("the program has ended, code %d: %s", p.cmd.ProcessState.ExitCode(), p.said())
		default:
		}
		active, pid := p.active()
		if pid != p.cmd.Process.Pid || active == other {
			return "the program's window has not the keyboard"
		}
		found = active
		return ""
	})
	return found
}

// said is what the program wrote to its output and to where errors go.
func (p *program) said() string {
	raw, err := os.ReadFile(p.atErr)
	if err != nil {
		return err.Error()
	}
	return string(raw)
}

// kill ends the program in the middle of what it does.
func (p *program) kill() {
	_ = p.cmd.Process.Signal(syscall.SIGKILL)
	<-p.done
}

// ends waits for the end of the program and wants an exit code.
func (p *program) ends(code int) {
	p.t.Helper()
	select {
	case <-p.done:
	case <-time.After(patience):
		p.t.Fatalf("the program does not end: %s", p.said())
	}
	if got := p.cmd.ProcessState.ExitCode(); got != code {
		p.t.Fatalf("exit code %d, want %d: %s", got, code, p.said())
	}
}

// close closes the window as a window manager does, and wants a quiet end.
func (p *program) close() {
	p.t.Helper()
	p.keys("alt+F4")
	p.ends(exitDone)
	p.quiet()
}

// quiet wants that nothing was written, known chatter of the toolkit apart.
func (p *program) quiet() {
	p.t.Helper()
	for _, part := range strings.Split(p.said(), "Fyne error:") {
		first, _, _ := strings.Cut(strings.TrimSpace(part), "\n")
		if _, err := time.Parse("2006/01/02 15:04:05", first); first == "" || err == nil || slices.Contains(chatter, first) {
			continue
		}
		p.t.Errorf("the program wrote: %s", part)
	}
}

// chatter is what the toolkit logs and no person need know: that the file of
// preferences, which is not used, is empty; that there is no folder for videos.
var chatter = []string{"Preferences load error:", "Getting favorite locations"}

// keys presses keys one after another and waits until the program has handled them.
func (p *program) keys(names ...string) {
	p.t.Helper()
	p.must("xdotool", append([]string{"key", "--delay", "8"}, names...)...)
	p.settle()
}

// write types a text, and waits likewise.
func (p *program) write(text string) {
	p.t.Helper()
	p.must("xdotool", "type", "--delay", "8", text)
	p.settle()
}

// click presses the mouse on the middle of a part, and waits likewise.
func (p *program) click(x shownPart) {
	p.t.Helper()
	p.must("xdotool", "mousemove", "--window", p.window, strconv.Itoa(x.X+x.W/2), strconv.Itoa(x.Y+x.H/2), "click", "1")
	p.settle()
}

// see asks the program where one is and what it shows.
func (p *program) see() shown {
	p.t.Helper()
	var m shown
	if err := os.Remove(p.atMap); err != nil && !os.IsNotExist(err) {
		p.t.Fatal(err)
	}
	if err := p.cmd.Process.Signal(syscall.SIGUSR1); err != nil {
		p.t.Fatalf("the program has ended: %v: %s", err, p.said())
	}
	eventually(p.t, func() string {
		raw, err := os.ReadFile(p.atMap)
		if err != nil {
			return "no map: " + err.Error()
		}
		if err := json.Unmarshal(raw, &m); err != nil {
			return "map: " + err.Error()
		}
		return ""
	})
	return m
}

// until waits until the map is as wanted.
func (p *program) until(what string, is func(shown) bool) shown {
	p.t.Helper()
	var m shown
	eventually(p.t, func() string {
		if m = p.see(); is(m) {
			return ""
		}
		raw, _ := json.Marshal(m)
		return "not yet: " + what + ": " + string(raw)
	})
	return m
}

// to goes to a part with Tab, from where the focus is. All that was pressed before has
// been handled, so that a focus it sees is not one that only passes.
func (p *program) to(id string) {
	p.t.Helper()
	eventually(p.t, func() string {
		m := p.see()
		w := m.top()
		if w.focused().ID == id {
			return ""
		}
		steps := -1
		for n := 1; n <= len(w.Parts) && steps < 0; n++ {
			if w.Parts[(w.Focus+n)%len(w.Parts)].ID == id {
				steps = n
			}
		}
		if steps < 0 {
			return "no part " + id + " among " + fmt.Sprint(w.Parts)
		}
		tabs := make([]string, steps)
		for i := range tabs {
			tabs[i] = "Tab"
		}
		p.keys(tabs...)
		if got := p.see().top().focused().ID; got != id { // the page has changed under way
			return "Tab leads to " + got + ", not to " + id
		}
		return ""
	})
}

// top is the window opened last.
func (m shown) top() shownWindow {
	if len(m.Windows) == 0 {
		return shownWindow{Focus: -1}
	}
	return m.Windows[len(m.Windows)-1]
}

func (w shownWindow) focused() shownPart {
	if w.Focus < 0 || w.Focus >= len(w.Parts) {
		return shownPart{}
	}
	return w.Parts[w.Focus]
}

// part is the part with an ID, or an empty one.
func (w shownWindow) part(id string) shownPart {
	for _, p := range w.Parts {
		if p.ID == id {
			return p
		}
	}
	return shownPart{}
}

// all is every text of a window in one.
func (w shownWindow) all() string { return strings.Join(w.Texts, " ") }

// contents are the files of a folder with what is in them, the lock apart, which
// whoever opens the folder takes for a moment.
func contents(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "lock" {
			return err
		}
		raw, err := os.ReadFile(at)
		out[at] = string(raw)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}
