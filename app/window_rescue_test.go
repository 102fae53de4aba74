//go:build e2e && linux

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
)

// A damaged daybook is brought back from its newest copy by keyboard: the window of
// the trouble says what that would lose, does it, and opens the daybook.
func TestWindowRescue(t *testing.T) {
	for _, lang := range windowLanguages {
		t.Run(lang, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			s.must(s.binary, "demo", flagData, dir, flagLang, lang)
			s.must(s.binary, "snapshot", flagData, dir)
			file := filepath.Join(dir, store.FileName)
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for i := 4096; i < len(raw); i += 512 { // the head stays: it is ours, and damaged
				raw[i] ^= 0xff
			}
			put(t, file, string(raw))
			words := i18n.Speak(lang, "US", quantity.US)

			p := s.launch(flagData, dir, flagLang, lang)
			p.trouble(lang, map[string]string{"en": "The daybook is damaged", "es": "El diario está dañado"}[lang])
			p.to("rescue")
			if got, want := p.see().top().focused().Text, words.T("page.copies.back", nil); got != want {
				t.Errorf("the button says %q, want %q", got, want)
			}
			p.keys("Return")
			p.until("it is brought back", func(m shown) bool { return m.top().part("again").ID != "" })
			lookAt(p.turned(nil)).written(t)
			p.to("again")
			p.keys("Return")
			p.ends(exitNoData)
			pid := 0 // of the program that was started anew
			eventually(t, func() string {
				if _, n := s.active(); n != 0 && n != p.cmd.Process.Pid {
					pid = n
					s.must("xdotool", "key", "alt+F4")
				}
				switch {
				case pid == 0:
					return "the daybook is not opened"
				case syscall.Kill(pid, 0) == nil:
					return "it does not end"
				}
				return ""
			})
			s.sound(dir)
			aside, err := store.Aside(dir)
			if err != nil || len(aside) != 1 {
				t.Fatalf("set aside: %v, %v", aside, err)
			}
			if kept, err := os.ReadFile(aside[0].Path); err != nil || string(kept) != string(raw) {
				t.Errorf("what was damaged is not what is set aside: %v", err)
			}
		})
	}
}

// A daybook that is deleted under the open window is told within seconds and put back
// by keyboard; one that is moved and moved back goes on by itself.
func TestWindowTakenAway(t *testing.T) {
	for _, lang := range windowLanguages {
		t.Run(lang, func(t *testing.T) {
			s := newScreen(t)
			dir := filepath.Join(openTemp(t), "data")
			words := i18n.Speak(lang, "US", quantity.US)
			says := func(key working.Key) func(shown) bool {
				return func(m shown) bool {
					return strings.Contains(strings.Join(strings.Fields(m.top().all()), " "), words.T(key, nil))
				}
			}
			p := s.launch(flagData, dir, flagLang, lang, flagUnits, string(quantity.US))
			p.begin()
			p.length("24 in")
			if err := os.Rename(dir, dir+" moved"); err != nil {
				t.Fatal(err)
			}
			p.until("the move is told", func(m shown) bool { return m.top().focused().ID == "put-back" })
			lookAt(p.turned(nil)).written(t)
			p.keys("Escape")
			p.until("the page is read on", func(m shown) bool { return says("page.gone.banner")(m) && m.top().part("tank.length").ID != "" })
			if err := os.Rename(dir+" moved", dir); err != nil {
				t.Fatal(err)
			}
			p.until("it is back", func(m shown) bool { return !says("page.gone.banner")(m) })
			p.length("25 in")

			if err := os.RemoveAll(dir); err != nil {
				t.Fatal(err)
			}
			p.until("the loss is told", func(m shown) bool { return m.top().focused().ID == "put-back" })
			p.keys("Return")
			p.until("it is put back", says("page.gone.done"))
			p.length("26 in")
			if at := p.see().Place; at != string(nav.FirstFill) {
				t.Errorf("the page is %s", at)
			}
			p.close()
			s.sound(dir)
			if l := recordOf(t, dir).Answers["tank.length"].Measure; l.Number != "26" || l.Unit != "in" {
				t.Errorf("the store holds %q %s, want 26 in", l.Number, l.Unit)
			}
		})
	}
}
