package main

import (
	"database/sql"
	"encoding/json"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets the scripts call the program as driploop; what the window would
// do is only named.
func TestMain(m *testing.M) {
	if args := os.Getenv(childArgs); args != "" {
		narrowChild(args)
		return
	}
	testscript.Main(m, map[string]func(){
		"driploop": func() {
			code, handled := Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, HostEnv())
			if !handled {
				os.Stdout.WriteString("window\n")
			}
			if missing := unsaid(); len(missing) > 0 {
				os.Stderr.WriteString("missing: " + missing[0] + "\n")
				code = 99
			}
			os.Exit(code)
		},
	})
}

// The verbs as a person calls them, in English and Spanish. Every script runs in
// a folder of its own; "code N COMMAND" wants just that exit code.
func TestScripts(t *testing.T) {
	scripts, err := filepath.Glob("testdata/script/*.txt")
	if err != nil || len(scripts) < 8 {
		t.Fatalf("%d scripts (%v), want at least 8", len(scripts), err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("LANG", "en_GB.UTF-8")
			e.Setenv("LC_ALL", "")
			e.Setenv(dataVariable, filepath.Join(e.WorkDir, "data"))
			photos, err := filepath.Abs(filepath.Join("..", "testdata", "photos"))
			e.Setenv("PHOTOS", photos)
			return err
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"code":     wantCode,
			"sql":      runSQL,
			"jsonlike": jsonLike,
		},
	})
}

var exitStatus = regexp.MustCompile(`exit status (\d+)`)

// wantCode runs driploop and compares its exit code: code 2 reckon nothing.
func wantCode(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) < 1 {
		ts.Fatalf("usage: code N ARGS")
	}
	got := "0"
	if err := ts.Exec("driploop", args[1:]...); err != nil {
		got = err.Error()
		if m := exitStatus.FindStringSubmatch(err.Error()); m != nil {
			got = m[1]
		}
	}
	if got != args[0] {
		ts.Fatalf("exit code %s, want %s: driploop %v", got, args[0], args[1:])
	}
}

// runSQL changes a database behind the program's back: sql FILE STATEMENT.
func runSQL(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: sql FILE STATEMENT")
	}
	u := url.URL{Scheme: "file", Path: filepath.ToSlash(ts.MkAbs(args[0])), RawQuery: "mode=rw"}
	db, err := sql.Open("sqlite3", u.String())
	ts.Check(err)
	defer db.Close()
	_, err = db.Exec(args[1])
	ts.Check(err)
}

// jsonLike wants the last output to be one JSON value.
func jsonLike(ts *testscript.TestScript, _ bool, _ []string) {
	if !json.Valid([]byte(ts.ReadFile("stdout"))) {
		ts.Fatalf("the output is not JSON")
	}
}
