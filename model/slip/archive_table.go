package slip

import (
	"encoding/json"
	"regexp"
	"strings"
	"unicode/utf8"

	"example.org/driploop/model/journal"
)

// Form is what a text of a column must look like.
type Form string

// The forms.
const (
	FormText  Form = ""      // any text
	FormID    Form = "id"    // a key: letters, digits, hyphen, underscore
	FormCivil Form = "civil" // date and time by the clock on the wall
	FormHash  Form = "hash"  // SHA-256 in lower-case hexadecimal digits
	FormJSON  Form = "json"  // JSON as text
	FormWord  Form = "word"  // a short code in small letters
)

// Column of a table of an archive.
type Column struct {
	Name     string
	Whole    bool // a whole number, else a text
	Required bool
	Key      bool
	Form     Form
	// Of names the table whose key this is, which may be its own.
	Of string
}

// Table of an archive.
type Table struct {
	Name    string
	Columns []Column
}

func id(name, of string) Column {
	return Column{Name: name, Required: true, Key: true, Form: FormID, Of: of}
}
func to(name, of string) Column    { return Column{Name: name, Required: true, Form: FormID, Of: of} }
func toAny(name, of string) Column { return Column{Name: name, Form: FormID, Of: of} }
func key(name string) Column       { return Column{Name: name, Required: true, Key: true} }
func req(name string) Column       { return Column{Name: name, Required: true} }
func opt(name string) Column       { return Column{Name: name} }
func maybe(name string) Column     { return Column{Name: name, Whole: true} }
func whole(name string) Column     { return Column{Name: name, Whole: true, Required: true} }

func (c Column) as(f Form) Column { c.Form = f; return c }

// archiveTables are the tables in an order in which each row comes after those it
// refers to. An entry has no number of its own here: entries stand in the order in
// which they were written.
var archiveTables = []Table{
	{"tank", []Column{id("id", "tank"), req("name"), req("origin"), req("created"), opt("retired"), opt("deleted")}},
	{"handed", []Column{id("tank", "tank"), req("name"), req("address"), req("hours"), req("notes").as(FormJSON), opt("thumbprint"), req("at"),
		maybe("edition"), opt("plan").as(FormJSON), opt("feeding").as(FormJSON), opt("marks"), opt("later").as(FormJSON)}},
	{"draft", []Column{id("tank", "tank"), req("notes").as(FormJSON), req("feeding").as(FormJSON), opt("later").as(FormJSON)}},
	{"handout", []Column{id("id", "handout"), to("tank", "tank"), req("at"), whole("edition"), req("print").as(FormHash), req("way").as(FormWord), opt("label"), opt("deleted")}},
	{"answer", []Column{id("tank", "tank"), key("field"), req("kind"), req("text"), opt("unit"), opt("basis"), req("origin"), req("at")}},
	{"done", []Column{id("tank", "tank"), key("step"), req("at"), req("basis").as(FormJSON)}},
	{"ack", []Column{id("id", "ack"), to("tank", "tank"), req("step"), req("note"), req("lang"), req("shown"), req("source_hash"), req("at")}},
	{"kit", []Column{id("id", "kit"), req("name"), req("reading"), req("unit"), opt("basis"), opt("resolution"), req("steps").as(FormJSON), opt("deleted")}},
	{"fish", []Column{id("id", "fish"), to("tank", "tank"), req("name"), opt("species"), whole("count"), opt("since"), opt("gone"), opt("deleted"),
		maybe("males"), opt("length_text"), opt("length_unit"), opt("length_at"), opt("source"), opt("price")}},
	{"wish", []Column{id("id", "wish"), to("tank", "tank"), req("species").as(FormWord), whole("count"), maybe("males"), req("added"), opt("deleted")}},
	{"pinch", []Column{id("id", "pinch"), req("food"), req("text"), req("unit"), req("at"), opt("deleted")}},
	{"sick", []Column{id("id", "sick"), to("tank", "tank"), toAny("fish", "fish"), req("about"), opt("many"), req("opened"), req("zone"), opt("closed"), opt("outcome"), opt("note"), opt("deleted")}},
	{"sick_sign", []Column{id("sick", "sick"), key("sign"), key("seen"), opt("gone")}},
	{"visit", []Column{id("id", "visit"), to("tank", "tank"), req("label"), req("first"), req("last"), toAny("sick", "sick"), req("at")}},
	{"reply", []Column{id("id", "reply"), to("tank", "tank"), req("visit").as(FormID), req("name"), req("address"), req("hours"), opt("thumbprint"), req("made"), req("at")}},
	{"reply_taken", []Column{id("reply", "reply"), key("item"), req("at")}},
	{"entry", []Column{id("id", "entry"), to("tank", "tank"), req("kind").as(FormWord), req("at").as(FormCivil), req("zone"), opt("note"), opt("step"), opt("deleted"), opt("edited"), toAny("sick", "sick"), toAny("reply", "reply")}},
	{"entry_value", []Column{id("entry", "entry"), key("name"), req("text"), opt("unit"), opt("basis"), req("qualifier"), toAny("kit", "kit")}},
	{"fish_change", []Column{id("entry", "entry"), id("fish", "fish"), whole("change"), req("why").as(FormWord)}},
	{"bag", []Column{id("id", "bag"), to("tank", "tank"), req("name"), opt("species"), maybe("count"), req("way").as(FormWord), req("given").as(FormJSON), req("steps").as(FormJSON),
		req("opened"), req("zone"), opt("closed"), toAny("entry", "entry"), opt("deleted")}},
	{"entry_past", []Column{id("entry", "entry"), {Name: "n", Whole: true, Required: true, Key: true}, req("at"), req("was").as(FormJSON)}},
	{"photo", []Column{id("id", "photo"), to("tank", "tank"), toAny("entry", "entry"), toAny("fish", "fish"), req("hash").as(FormHash), req("format").as(FormWord),
		whole("bytes"), whole("width"), whole("height"), whole("orientation"), whole("turned"), opt("taken"), opt("zone"), req("taken_from"),
		opt("latitude"), opt("longitude"), req("name"), opt("caption"), opt("white"), req("added"), opt("problem"), opt("deleted")}},
	{"mark", []Column{id("id", "mark"), to("photo", "photo"), req("kind").as(FormWord), req("points").as(FormJSON), opt("words"), opt("text"), opt("unit")}},
	{"round", []Column{id("id", "round"), to("tank", "tank"), req("code").as(FormWord), opt("title"), req("rule"), req("start"), opt("paused"), opt("note"), opt("deleted"), opt("origin")}},
	{"round_done", []Column{id("round", "round"), key("due"), req("state"), opt("reason"), toAny("entry", "entry"), req("at")}},
	{"away", []Column{id("id", "away"), to("tank", "tank"), req("first"), req("last"), opt("who"), opt("note"), opt("deleted")}},
	{"timer", []Column{id("id", "timer"), to("tank", "tank"), req("kind"), req("started"), opt("due"), opt("ended"), opt("detail"), whole("elapsed_ms"), req("last_seen"), toAny("bag", "bag")}},
}

// Tables lists the tables of an archive, each after those it refers to.
func Tables() []Table { return archiveTables }

// Parent gives the column that says whose row a row is: of a tank, else of a row
// that is. A kit is nobody's, nor is a tank; it reports false then.
func (t Table) Parent() (Column, bool) {
	for _, c := range t.Columns {
		if c.Of == "tank" && t.Name != "tank" {
			return c, true
		}
	}
	for _, c := range t.Columns {
		if c.Of != "" && c.Of != t.Name && c.Required {
			return c, true
		}
	}
	return Column{}, false
}

// KeyOf writes the key of a row as JSON.
func (t Table) KeyOf(r Row) string {
	var k []any
	for _, c := range t.Columns {
		if c.Key {
			k = append(k, r.Values[c.Name])
		}
	}
	b, err := json.Marshal(k)
	if err != nil { // strings and whole numbers have no such fault
		return ""
	}
	return string(b)
}

var (
	idForm   = regexp.MustCompile(`^[A-Za-z0-9_-]{1,64}$`)
	hashForm = regexp.MustCompile(`^[0-9a-f]{64}$`)
	wordForm = regexp.MustCompile(`^[a-z0-9_.-]{1,40}$`)
)

// takes reports whether a text may stand in the column.
func (c Column) takes(s string) bool {
	if len(s) > MaxCell || strings.IndexByte(s, 0) >= 0 || !utf8.ValidString(s) {
		return false
	}
	switch c.Form {
	case FormID:
		return idForm.MatchString(s)
	case FormHash:
		return hashForm.MatchString(s)
	case FormWord:
		return wordForm.MatchString(s)
	case FormJSON:
		return json.Valid([]byte(s))
	case FormCivil:
		_, err := journal.Civil(s).Parse()
		return err == nil
	}
	return true
}

// IsHash reports whether s is written as the SHA-256 of a picture.
func IsHash(s string) bool { return hashForm.MatchString(s) }
