package durable

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

const childLock = "DRIPLOOP_TEST_LOCK"

// TestMain lets the test binary stand in for a second program that takes the
// lock, says so and waits to be killed.
func TestMain(m *testing.M) {
	if path := os.Getenv(childLock); path != "" {
		if _, err := Acquire(path); err != nil {
			fmt.Println("refused", err)
			os.Exit(3)
		}
		fmt.Println("held")
		_, _ = os.Stdin.Read(make([]byte, 1)) // ends with the parent at the latest
		os.Exit(0)
	}
	os.Exit(m.Run())
}

func TestLockExcludesAndReleases(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	l, err := Acquire(path)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Acquire(path)
	var le *LockedError
	if !errors.Is(err, ErrLocked) || !errors.As(err, &le) || le.PID != os.Getpid() || le.Path != path {
		t.Fatalf("second Acquire: %v, want ErrLocked with pid %d", err, os.Getpid())
	}
	if err := l.Release(); err != nil {
		t.Fatal(err)
	}
	if err := l.Release(); err != nil {
		t.Errorf("second Release: %v", err)
	}
	again, err := Acquire(path)
	if err != nil {
		t.Fatalf("after Release: %v", err)
	}
	if err := again.Release(); err != nil {
		t.Error(err)
	}
}

// TestLockEndsWithItsProcess (part of D2-06): a killed holder leaves nothing
// that the next start must wait for.
func TestLockEndsWithItsProcess(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	for round := range 3 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), childLock+"="+path)
		if _, err := cmd.StdinPipe(); err != nil {
			t.Fatal(err)
		}
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		line, err := bufio.NewReader(out).ReadString('\n')
		if err != nil || line != "held\n" {
			t.Fatalf("round %d: child said %q, %v", round, line, err)
		}
		_, err = Acquire(path)
		var le *LockedError
		if !errors.As(err, &le) || le.PID != cmd.Process.Pid {
			t.Errorf("round %d: %v, want held by %d", round, err, cmd.Process.Pid)
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait()
		l, err := Acquire(path)
		if err != nil {
			t.Fatalf("round %d: after kill: %v", round, err)
		}
		if err := l.Release(); err != nil {
			t.Error(err)
		}
	}
}

func TestLockWhereNoFileCanBe(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Acquire(filepath.Join(file, "lock"))
	var we *WriteError
	if !errors.As(err, &we) || we.Op != OpLock || errors.Is(err, ErrLocked) {
		t.Errorf("got %v, want *WriteError with op %q", err, OpLock)
	}
}

func TestSpaceAndWritable(t *testing.T) {
	dir := t.TempDir()
	if n, err := Free(dir); err != nil || n == 0 {
		t.Errorf("Free: %d, %v", n, err)
	}
	if _, err := Free(filepath.Join(dir, "absent")); err == nil {
		t.Error("Free of an absent folder gave a number")
	}
	if err := Writable(dir); err != nil {
		t.Error(err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 0 {
		t.Errorf("Writable left %d files", len(entries))
	}
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	var we *WriteError
	// A folder below a file can be written by no one, the system's owner included.
	if err := Writable(filepath.Join(file, "below")); !errors.As(err, &we) {
		t.Errorf("below a file: %v, want *WriteError", err)
	}
}
