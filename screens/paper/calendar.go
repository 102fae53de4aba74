package paper

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// CalendarName is the name proposed for the file of a tank's rounds.
const CalendarName = "rounds" + keeper.CalendarEnding

// WriteCalendar writes the rounds of a tank as an iCalendar file (RFC 5545, with
// the name and refresh interval of RFC 7986) in the person's language: one event
// a round with its rule, at floating times, so that it is at the same hour by the
// wall wherever the person is. An event is known by its round's id for ever.
// Errors: those of the keeper and of out.
func WriteCalendar(ctx context.Context, k *keeper.Keeper, tank string, p present.Presenter, now time.Time, out io.Writer) error {
	all, err := k.CalendarRounds(ctx, tank)
	if err != nil {
		return err
	}
	record, err := k.Record(ctx, tank)
	if err != nil {
		return err
	}
	w := p.W
	c := &calendar{lang: w.Language()}
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//Driploop//Rounds//"+strings.ToUpper(w.Language()))
	c.line("CALSCALE", "GREGORIAN")
	c.line("METHOD", "PUBLISH")
	c.words("NAME", w.T("paper.calendar", i18n.Args{"Tank": record.Name}))
	c.line("REFRESH-INTERVAL;VALUE=DURATION", "PT1H")
	for _, r := range all {
		c.event(r, p, record.Name, now)
	}
	c.line("END", "VCALENDAR")
	_, err = out.Write(c.b.Bytes())
	return err
}

// calendar writes content lines.
type calendar struct {
	b    bytes.Buffer
	lang string
}

const (
	floating = "20060102T150405" // form 1 of RFC 5545 section 3.3.5: no zone
	instant  = "20060102T150405Z"
	// How long an event is shown. Judgement: it is to be seen, not to block a day.
	eventLasts = "PT15M"
)

func (c *calendar) event(r keeper.CalendarRound, p present.Presenter, tank string, now time.Time) {
	first, err := r.First.Parse()
	if err != nil {
		return
	}
	name := p.RoundName(r.Round)
	c.line("BEGIN", "VEVENT")
	c.line("UID", r.ID)
	c.line("DTSTAMP", now.UTC().Format(instant))
	c.line("DTSTART", first.Format(floating))
	c.line("DURATION", eventLasts)
	if !r.Rule.Single() {
		c.line("RRULE", floatingRule(r.Rule))
	}
	for _, d := range r.Except {
		if t, err := d.Parse(); err == nil {
			c.line("EXDATE", t.Format(floating))
		}
	}
	c.words("SUMMARY", p.W.T("paper.event", i18n.Args{"Name": name, "Tank": tank}))
	if text := describe(r.Round, p); text != "" {
		c.words("DESCRIPTION", text)
	}
	c.line("TRANSP", "TRANSPARENT")
	c.line("BEGIN", "VALARM")
	c.line("ACTION", "DISPLAY")
	c.line("TRIGGER", "PT0S")
	c.words("DESCRIPTION", name)
	c.line("END", "VALARM")
	c.line("END", "VEVENT")
}

// describe is what an event says: its repetition, and the note.
func describe(r rounds.Round, p present.Presenter) string {
	text := p.Repeats(r.Rule, r.Start)
	if r.Note != "" {
		text += "\n" + r.Note
	}
	if key := working.Key("page.rounds.event_" + string(r.Code)); p.W.Has(key) {
		text += "\n" + p.W.T(key, nil)
	}
	return text
}

// floatingRule is a rule whose end is a floating time, as its start is: RFC 5545
// section 3.3.10 asks for the same kind.
func floatingRule(r rounds.Rule) string {
	parts := r.Parts()
	for i, part := range parts {
		if strings.HasPrefix(part, "UNTIL=") {
			parts[i] = strings.TrimSuffix(part, "Z")
		}
	}
	return strings.Join(parts, ";")
}

// words writes a text in the person's language.
func (c *calendar) words(name, text string) { c.line(name+";LANGUAGE="+c.lang, escapeText(text)) }

// line writes a content line, folded at 75 octets and never inside a character.
// Source: RFC 5545 section 3.1.
func (c *calendar) line(name, value string) {
	const most = 75
	s, room := name+":"+value, most
	for len(s) > room {
		cut := room
		for !utf8.RuneStart(s[cut]) {
			cut--
		}
		c.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], most-1 // the space counts
	}
	c.b.WriteString(s + "\r\n")
}

// escapeText writes a text by RFC 5545 section 3.3.11. Control characters have no
// place in one.
func escapeText(s string) string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(s)
}

// CalendarList is the rounds of a tank in lines of text, the soonest first: when,
// what, how often.
func CalendarList(v keeper.Rounds, p present.Presenter, now time.Time) []string {
	var out []string
	for _, d := range p.Rounds(v, now).All {
		line := fmt.Sprintf("%s\t%s\t%s", d.When, d.Name, d.Text)
		if d.Note != "" {
			line += "\t" + d.Note
		}
		out = append(out, line)
	}
	return out
}
