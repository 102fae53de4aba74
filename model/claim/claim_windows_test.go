package claim

import (
	"os/exec"
	"strings"
	"testing"
)

// reg asks the system's own tool for a key, "" where it is not there.
func reg(key string) string {
	out, err := exec.Command("reg", "query", `HKCU\`+classes+key, "/ve").Output()
	if err != nil {
		return ""
	}
	return string(out)
}

// What Make writes the system's own tool finds; TakeBack takes it away, gives an
// ending back to whom it belonged to, and leaves one that somebody has taken since.
func TestThereAndBack(t *testing.T) {
	c := sample("")
	c.Program[0] = `C:\Program Files\Tank\tank.exe`
	if err := write(".tktwo", "", "Before.1"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = free(".tktwo") })
	if s, err := c.State(); err != nil || s.Made || s.Some || len(s.Places) != 4 {
		t.Fatalf("before: %+v %v", s, err)
	}
	for range 2 { // twice is as once
		if err := c.Make(); err != nil {
			t.Fatal(err)
		}
	}
	for key, want := range map[string]string{".tkone": "Tank.one", "Tank.one": "One <thing>", `Tank.one\DefaultIcon`: `"C:\Program Files\Tank\tank.exe",0`,
		`Tank.two\shell\open\command`: `"C:\Program Files\Tank\tank.exe" --data "/home/x y" -- "%1"`} {
		if got := reg(key); !strings.Contains(got, want) {
			t.Errorf("%s is %q, want %q", key, got, want)
		}
	}
	if s, err := c.State(); err != nil || !s.Made || !s.Some {
		t.Errorf("made: %+v %v", s, err)
	}
	if err := c.TakeBack(); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{".tkone", "Tank.one", "Tank.two"} {
		if got := reg(key); got != "" {
			t.Errorf("%s is still %q", key, got)
		}
	}
	if got := reg(".tktwo"); !strings.Contains(got, "Before.1") {
		t.Errorf("the ending of before is %q", got)
	}
	if err := c.Make(); err != nil {
		t.Fatal(err)
	}
	if err := write(".tkone", "", "Since.1"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = free(".tkone") })
	if err := c.TakeBack(); err != nil || !strings.Contains(reg(".tkone"), "Since.1") {
		t.Errorf("the ending taken since is %q, %v", reg(".tkone"), err)
	}
}
