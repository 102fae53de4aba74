package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// Exit codes. They are stable and stand in the help.
const (
	exitDone    = 0
	exitFailed  = 1 // something went wrong, and the text says what
	exitRefused = 2 // the command or its input was not taken
	exitNoData  = 3 // the data folder could not be opened
	exitDamaged = 4 // the check found damage
)

// Env is the machine a command runs on; tests bring their own.
type Env struct {
	Getenv func(string) string
	Home   func() (string, error)
	OS     string // as runtime.GOOS
	Now    func() time.Time
	Steady func() time.Duration // see keeper.Options; nil where Now is all there is
	Locale func() (lang, region string, units quantity.System)
}

// HostEnv is the machine itself.
func HostEnv() Env {
	return Env{Getenv: os.Getenv, Home: os.UserHomeDir, OS: runtime.GOOS, Now: time.Now, Steady: steady, Locale: i18n.System}
}

// verb is what the program does without its window.
type verb struct {
	name  string
	flags []string // flags of its own
	most  int      // words it takes
	run   func(*call) int
}

// verbs in the order of the help. A further verb is one more line here, with the
// messages verb.line., verb.does. and verb.help. of its name.
func verbs() []verb {
	return []verb{
		{"reckon", []string{flagExample, flagSchema}, 1, runReckon},
		{"check", []string{flagJSON}, 0, runCheck},
		{"snapshot", nil, 2, runSnapshot},
		{"demo", nil, 0, runDemo},
		{"paper", []string{flagTank, flagSize, flagDays}, 3, runPaper},
		{"csv", []string{flagTank, flagDates, flagReport}, 2, runCSV},
		{"archive", []string{flagNoPlace}, 2, runArchive},
		{"slip", []string{flagTank, flagDays, flagCase, flagWith, flagAsk}, 4, runSlip},
		{"desk", nil, mostWords, runDesk},
		{"files", nil, 1, runFiles},
		{"photos", []string{flagTank}, mostWords, runPhotos},
		{"rounds", []string{flagTank, flagICS}, 1, runRounds},
		{"fish", []string{flagTank}, 4, runFish},
		{"tour", []string{flagSize, flagText, flagKeys}, 1, runTour},
	}
}

func verbOf(name string) (verb, bool) {
	for _, v := range verbs() {
		if v.name == name {
			return v, true
		}
	}
	return verb{}, false
}

// call is one command under way.
type call struct {
	options
	env    Env
	words  *i18n.Words
	region string
	stdin  io.Reader
	stdout io.Writer
	stderr io.Writer
}

// Run does what args ask for without a window, and says with which exit code.
// handled is false when it is the window that was asked for; the options are
// then sound, and parse gives them.
func Run(args []string, stdin io.Reader, stdout, stderr io.Writer, env Env) (code int, handled bool) {
	o, wrong := parse(args)
	if wrong == nil && !o.version && !o.help && o.verb == "" && o.unknown() == "" {
		return exitDone, false // the window's own: it reads its words beside its start
	}
	c := &call{options: o, env: env, stdin: stdin, stdout: stdout, stderr: stderr}
	c.words, c.region = speak(o, env)
	switch {
	case wrong != nil:
		return c.refuse(wrong.key, wrong.args), true
	case o.version:
		c.say("verb.version", i18n.Args{"Version": version})
		return exitDone, true
	case o.help:
		c.help()
		return exitDone, true
	case o.verb == "":
		return c.refuse("err.verb.unknown", i18n.Args{"Word": o.unknown()}), true
	}
	v, _ := verbOf(o.verb)
	return v.run(c), true
}

// unknown gives the first word that is neither a file, which the window takes, nor
// a verb; "" where there is none.
func (o options) unknown() string {
	for _, f := range o.rest {
		if o.literal {
			break
		}
		if _, err := os.Stat(f); err != nil && filepath.Ext(f) == "" && !strings.ContainsAny(f, `/\`) {
			return f
		}
	}
	return ""
}

// speak makes the words of a command: those asked for, else the machine's.
func speak(o options, env Env) (*i18n.Words, string) {
	lang, region, units := env.Locale()
	if o.lang != "" {
		lang = o.lang
	}
	if o.units != "" {
		units = quantity.System(o.units)
	}
	return i18n.Speak(lang, region, units), region
}

func (c *call) presenter() present.Presenter {
	return present.Presenter{W: c.words, Region: care.Region{Code: c.region}}
}

// say writes a message to the output, warn to where errors go.
func (c *call) say(key working.Key, args i18n.Args)  { fmt.Fprintln(c.stdout, c.words.T(key, args)) }
func (c *call) warn(key working.Key, args i18n.Args) { fmt.Fprintln(c.stderr, c.words.T(key, args)) }

// refuse says in one line what was wrong with a command.
func (c *call) refuse(key working.Key, args i18n.Args) int {
	c.warn(key, args)
	return exitRefused
}

// failed says what went wrong, in words where there are some.
func (c *call) failed(err error) int {
	fmt.Fprintln(c.stderr, c.presenter().Error(err))
	return exitFailed
}
