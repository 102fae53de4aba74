package rounds

import (
	"bytes"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/driploop/model/journal"
)

// Calendar is rounds as an iCalendar object, with texts in one language.
type Calendar struct {
	Lang   string // BCP 47, of the texts
	Name   string
	Made   time.Time
	Events []Event
}

// Event is one round in a calendar.
type Event struct {
	ID          string        // UID, the same for ever
	First       journal.Civil // an occurrence of Rule
	Rule        Rule
	Except      []journal.Civil // occurrences that do not take place
	Summary     string
	Description string
	Alarm       string // what the alarm says, at the time itself
}

// Layouts of RFC 5545 section 3.3.5: floating is form 1, without a zone, so that a
// time is the same by the wall wherever the person is.
const (
	floating = "20060102T150405"
	instant  = "20060102T150405Z"
	// How long an event is shown. Judgement: it is to be seen, not to block a day.
	eventLasts = "PT15M"
	// How often a subscriber is asked to look again. Judgement.
	refresh = "PT1H"
)

// ICS writes c by RFC 5545, with the name and refresh interval of RFC 7986. An
// event whose first time cannot be read is left out.
func (c Calendar) ICS() []byte {
	w := &content{lang: c.Lang}
	w.line("BEGIN", "VCALENDAR")
	w.line("VERSION", "2.0")
	w.line("PRODID", "-//Driploop//Rounds//"+strings.ToUpper(c.Lang))
	w.line("CALSCALE", "GREGORIAN")
	w.line("METHOD", "PUBLISH")
	w.words("NAME", c.Name)
	w.line("REFRESH-INTERVAL;VALUE=DURATION", refresh)
	for _, e := range c.Events {
		w.event(e, c.Made)
	}
	w.line("END", "VCALENDAR")
	return w.b.Bytes()
}

// content writes content lines.
type content struct {
	b    bytes.Buffer
	lang string
}

func (w *content) event(e Event, made time.Time) {
	first, err := e.First.Parse()
	if err != nil {
		return
	}
	w.line("BEGIN", "VEVENT")
	w.line("UID", e.ID)
	w.line("DTSTAMP", made.UTC().Format(instant))
	w.line("DTSTART", first.Format(floating))
	w.line("DURATION", eventLasts)
	if !e.Rule.Single() && !e.Rule.IsZero() {
		w.line("RRULE", e.Rule.floating())
	}
	for _, d := range e.Except {
		if t, err := d.Parse(); err == nil {
			w.line("EXDATE", t.Format(floating))
		}
	}
	w.words("SUMMARY", e.Summary)
	if e.Description != "" {
		w.words("DESCRIPTION", e.Description)
	}
	w.line("TRANSP", "TRANSPARENT")
	w.line("BEGIN", "VALARM")
	w.line("ACTION", "DISPLAY")
	w.line("TRIGGER", "PT0S")
	w.words("DESCRIPTION", e.Alarm)
	w.line("END", "VALARM")
	w.line("END", "VEVENT")
}

// floating is a rule whose end is a floating time, as its start is: RFC 5545
// section 3.3.10 asks for the same kind.
func (r Rule) floating() string {
	parts := strings.Split(r.text, ";")
	for i, part := range parts {
		if strings.HasPrefix(part, "UNTIL=") {
			if parts[i] = strings.TrimSuffix(part, "Z"); len(part) == len("UNTIL=20261224") {
				parts[i] += "T235959" // a day is meant whole
			}
		}
	}
	return strings.Join(parts, ";")
}

// words writes a text in the calendar's language.
func (w *content) words(name, text string) { w.line(name+";LANGUAGE="+w.lang, escape(text)) }

// line writes a content line, folded at 75 octets and never inside a character.
// Source: RFC 5545 section 3.1.
func (w *content) line(name, value string) {
	const most = 75
	s, room := name+":"+value, most
	for len(s) > room {
		cut := room
		for !utf8.RuneStart(s[cut]) {
			cut--
		}
		w.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], most-1 // the space counts
	}
	w.b.WriteString(s + "\r\n")
}

// escape writes a text by RFC 5545 section 3.3.11. Control characters have no
// place in one.
func escape(s string) string {
	s = strings.ReplaceAll(strings.ToValidUTF8(s, ""), "\r\n", "\n")
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(s)
}
