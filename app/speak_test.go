package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
)

// A verb speaks the language that the person has set in the window; the command
// line overrules it.
func TestVerbsSpeakAsSet(t *testing.T) {
	dir := t.TempDir()
	k, err := keeper.Open(context.Background(), dir, keeper.Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	if err := k.SetSetting(context.Background(), "language", "es"); err != nil {
		t.Fatal(err)
	}
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	env := envOf("linux", "", nil)
	env.Locale = func() (string, string, quantity.System) { return "en", "US", quantity.US }
	env.Now = time.Now
	for want, args := range map[string][]string{
		"está en orden": {"check", flagData, dir},
		"in order":      {"check", flagData, dir, "--lang", "en"},
	} {
		var out, errs bytes.Buffer
		if code, handled := Run(args, strings.NewReader(""), &out, &errs, env); code != exitDone || !handled || !strings.Contains(out.String(), want) {
			t.Errorf("%v: code %d, %q, %q, want %q", args, code, out.String(), errs.String(), want)
		}
	}
}
