package main

import (
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Names of the options.
const (
	flagData    = "--data"
	flagLang    = "--lang"
	flagDesk    = "--desk"
	flagUnits   = "--units"
	flagHelp    = "--help"
	flagVersion = "--version"
	flagJSON    = "--json"
	flagExample = "--example"
	flagSchema  = "--schema"
	flagSize    = "--size"
	flagText    = "--text"
	flagKeys    = "--keys"
	flagTank    = "--tank"
	flagICS     = "--ics"
	flagNoPlace = "--without-place"
	flagDates   = "--dates"
	flagReport  = "--report"
	flagDays    = "--days"
	flagCase    = "--case"
	flagWith    = "--with"
	flagAsk     = "--ask"
)

// options are a command line that was understood.
type options struct {
	verb    string   // "" for the window
	rest    []string // words of the verb, or files for the window
	data    string   // data folder as given, or ""
	desk    string   // where the visit desk is, or ""
	lang    string   // a language that is offered or being written, or ""
	units   string   // a system of units, or ""
	help    bool
	version bool
	own     map[string]bool   // options of the verb that stand alone
	value   map[string]string // options of the verb that have a value
	literal bool              // "--" came before the first word: the words are files
}

// mistake is what was wrong with a command line, as a message.
type mistake struct {
	key  working.Key
	args i18n.Args
}

func wrong(key working.Key, word string) *mistake {
	return &mistake{key, i18n.Args{"Word": word, "Languages": strings.Join(i18n.Languages(), ", "), "Units": strings.Join(systems(), ", ")}}
}

func systems() []string {
	var out []string
	for _, s := range quantity.Systems() {
		out = append(out, string(s))
	}
	return out
}

// parse reads a command line: options anywhere, a verb first among the words, and
// nothing but words behind "--", which are files where no verb came before.
func parse(args []string) (options, *mistake) {
	o := options{own: map[string]bool{}, value: map[string]string{}}
	var first *mistake
	note := func(m *mistake) {
		if first == nil {
			first = m
		}
	}
	var words, own []string
	for i := 0; i < len(args); i++ {
		a := args[i]
		if a == "--" {
			o.literal = len(words) == 0
			words = append(words, args[i+1:]...)
			break
		}
		if !strings.HasPrefix(a, "-") || a == "-" {
			words = append(words, a)
			continue
		}
		name, value, has := strings.Cut(a, "=")
		switch name {
		case flagData, flagDesk, flagLang, flagUnits, flagSize, flagText, flagKeys, flagTank, flagDates, flagReport, flagICS, flagDays, flagCase, flagWith, flagAsk:
			if !has {
				if i++; i < len(args) && !strings.HasPrefix(args[i], "--") {
					value, has = args[i], true
				} else {
					i--
				}
			}
			if !has || value == "" {
				note(wrong("err.verb.needs_value", name))
				continue
			}
			note(o.set(name, value))
			if name != flagData && name != flagDesk && name != flagLang && name != flagUnits {
				own = append(own, name)
			}
		case "-h", flagHelp, flagVersion, flagJSON, flagExample, flagSchema, flagNoPlace:
			if has {
				note(wrong("err.verb.no_value", name))
			}
			switch name {
			case "-h", flagHelp:
				o.help = true
			case flagVersion:
				o.version = true
			default:
				own = append(own, name)
			}
		default:
			note(wrong("err.verb.option", name))
		}
	}
	note(o.take(words, own))
	return o, first
}

// set keeps the value of an option.
func (o *options) set(name, value string) *mistake {
	switch name {
	case flagData:
		o.data = value
	case flagDesk:
		o.desk = value
	case flagLang:
		if !i18n.Offered(value) && !i18n.Draft(value) {
			return wrong("err.verb.lang", value)
		}
		o.lang = value
	case flagUnits:
		if !slices.Contains(systems(), value) {
			return wrong("err.verb.units", value)
		}
		o.units = value
	default:
		o.value[name] = value
	}
	return nil
}

// take tells verb and words apart and holds them to what the verb takes.
func (o *options) take(words, own []string) *mistake {
	o.rest = words
	var v verb
	if len(words) > 0 && !o.literal {
		var ok bool
		if v, ok = verbOf(words[0]); ok {
			o.verb, o.rest = v.name, words[1:]
		}
	}
	for _, name := range own {
		if !slices.Contains(v.flags, name) {
			return wrong("err.verb.option", name)
		}
		o.own[name] = true
	}
	if o.verb != "" && len(o.rest) > v.most {
		return wrong("err.verb.extra", o.rest[v.most])
	}
	return nil
}
