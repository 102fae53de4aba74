package desk

import (
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// server is a PostgreSQL of the system's packages, started for the drill alone.
type server struct {
	t         testing.TB
	bin, data string
	port      int
	as        *user.User // who runs it: it refuses to run as root
}

const password = "frog spawn/17"

func startServer(t testing.TB) *server {
	t.Helper()
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin")
	if len(found) == 0 {
		at, err := exec.LookPath("initdb")
		if err != nil {
			t.Fatal("PostgreSQL is not installed: the drill needs it")
		}
		found = []string{filepath.Dir(at)}
	}
	slices.Sort(found)
	dir, err := os.MkdirTemp("", "desk") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	s := &server{t: t, bin: found[len(found)-1], data: filepath.Join(dir, "data"), port: freePort(t)}
	secret := filepath.Join(dir, "secret")
	if err := os.WriteFile(secret, []byte(password), 0o644); err != nil {
		t.Fatal(err)
	}
	if os.Getuid() == 0 {
		if s.as, err = user.Lookup("postgres"); err != nil {
			t.Fatal(err)
		}
		uid, _ := strconv.Atoi(s.as.Uid)
		if err := os.Chown(dir, uid, -1); err != nil {
			t.Fatal(err)
		}
	}
	s.run("initdb", "-D", s.data, "-U", "counter", "--auth=scram-sha-256", "--pwfile="+secret, "-E", "UTF8", "--no-locale", "--no-sync")
	s.start()
	t.Cleanup(func() { s.stop("fast") })
	return s
}

func freePort(t testing.TB) int {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}

func (s *server) run(name string, args ...string) {
	s.t.Helper()
	cmd := exec.Command(filepath.Join(s.bin, name), args...)
	cmd.Dir = filepath.Dir(s.data)
	if s.as != nil {
		asUser(cmd, s.as)
	}
	log, err := os.CreateTemp("", "desk-log")
	if err != nil {
		s.t.Fatal(err)
	}
	defer os.Remove(log.Name())
	cmd.Stdout, cmd.Stderr = log, log // a file: a pipe would stay open with the server
	if err := cmd.Run(); err != nil {
		said, _ := os.ReadFile(log.Name())
		s.t.Fatalf("%s: %v\n%s", name, err, said)
	}
}

func (s *server) start() {
	s.t.Helper()
	s.run("pg_ctl", "-D", s.data, "-w", "-l", filepath.Join(filepath.Dir(s.data), "log"), "-o",
		fmt.Sprintf("-p %d -c listen_addresses=127.0.0.1 -c unix_socket_directories='' -c max_connections=60", s.port), "start")
}

func (s *server) stop(how string) {
	s.t.Helper()
	s.run("pg_ctl", "-D", s.data, "-w", "-m", how, "stop")
}

// fresh makes an empty database and gives its address.
func (s *server) fresh() string {
	s.t.Helper()
	name := "desk" + strconv.FormatInt(time.Now().UnixNano(), 36)
	d, err := Open(s.t.Context(), s.address("postgres"), "maker")
	if err != nil {
		s.t.Fatal(err)
	}
	defer d.Close()
	if _, err := d.db.Exec("CREATE DATABASE " + name); err != nil {
		s.t.Fatal(err)
	}
	return s.address(name)
}

func (s *server) address(database string) string {
	return fmt.Sprintf("postgres://counter:%s@127.0.0.1:%d/%s", strings.ReplaceAll(strings.ReplaceAll(password, " ", "%20"), "/", "%2F"), s.port, database)
}

// files are the folders in which the server keeps tables.
func (s *server) files() string { return filepath.Join(s.data, "base") }
