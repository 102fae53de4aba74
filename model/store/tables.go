package store

// kind is the type a column of a STRICT table takes.
type kind string

const (
	text    kind = "TEXT"
	integer kind = "INTEGER"
)

// column is one column that a statement may name.
type column struct {
	name     string
	kind     kind
	required bool // NOT NULL
	key      bool // part of the primary key
	// counter marks a column that is written silently while its row lives: it is
	// no part of the check that a row is as it was, or a timer that has ticked
	// could never be undone.
	counter bool
}

// table is one table that Apply and Load may touch.
type table struct {
	name    string
	columns []column
}

func req(name string) column   { return column{name: name, kind: text, required: true} }
func opt(name string) column   { return column{name: name, kind: text} }
func whole(name string) column { return column{name: name, kind: integer, required: true} }
func maybe(name string) column { return column{name: name, kind: integer} }
func key(name string) column   { return column{name: name, kind: text, required: true, key: true} }

// tables is the whitelist that statements are made from. setting and undo are
// absent: they have methods of their own, so that no Change taken from a file
// can reach them; thumb and entry_text hold only what can be made again. A test holds the list against the schema.
var tables = []table{
	{"tank", []column{key("id"), req("name"), req("origin"), req("created"), opt("retired"), opt("deleted")}},
	{"handed", []column{key("tank"), req("name"), req("address"), req("hours"), req("notes"), opt("thumbprint"), req("at"), maybe("edition"), opt("plan"), opt("feeding"), opt("marks"), opt("later")}},
	{"draft", []column{key("tank"), req("notes"), req("feeding"), opt("later")}},
	{"handout", []column{key("id"), req("tank"), req("at"), whole("edition"), req("print"), req("way"), opt("label"), opt("deleted")}},
	{"answer", []column{key("tank"), key("field"), req("kind"), req("text"), opt("unit"), opt("basis"), req("origin"), req("at")}},
	{"done", []column{key("tank"), key("step"), req("at"), req("basis")}},
	{"ack", []column{key("id"), req("tank"), req("step"), req("note"), req("lang"), req("shown"), req("source_hash"), req("at")}},
	{"entry", []column{key("id"), req("tank"), req("kind"), req("at"), req("zone"), {name: "seq", kind: integer, required: true},
		opt("note"), opt("step"), opt("deleted"), opt("edited"), opt("sick"), opt("reply")}},
	{"entry_value", []column{key("entry"), key("name"), req("text"), opt("unit"), opt("basis"), req("qualifier"), opt("kit")}},
	{"entry_past", []column{key("entry"), {name: "n", kind: integer, required: true, key: true}, req("at"), req("was")}},
	{"fish", []column{key("id"), req("tank"), req("name"), opt("species"), whole("count"), opt("since"), opt("gone"), opt("deleted"),
		maybe("males"), opt("length_text"), opt("length_unit"), opt("length_at"), opt("source"), opt("price")}},
	{"fish_change", []column{key("entry"), key("fish"), whole("change"), req("why")}},
	{"wish", []column{key("id"), req("tank"), req("species"), whole("count"), maybe("males"), req("added"), opt("deleted")}},
	{"pinch", []column{key("id"), req("food"), req("text"), req("unit"), req("at"), opt("deleted")}},
	{"bag", []column{key("id"), req("tank"), req("name"), opt("species"), maybe("count"), req("way"), req("given"), req("steps"), req("opened"), req("zone"),
		opt("closed"), opt("entry"), opt("deleted")}},
	{"sick", []column{key("id"), req("tank"), opt("fish"), req("about"), opt("many"), req("opened"), req("zone"), opt("closed"), opt("outcome"), opt("note"), opt("deleted")}},
	{"sick_sign", []column{key("sick"), key("sign"), key("seen"), opt("gone")}},
	{"visit", []column{key("id"), req("tank"), req("label"), req("first"), req("last"), opt("sick"), req("at")}},
	{"reply", []column{key("id"), req("tank"), req("visit"), req("name"), req("address"), req("hours"), opt("thumbprint"), req("made"), req("at")}},
	{"reply_taken", []column{key("reply"), key("item"), req("at")}},
	{"kit", []column{key("id"), req("name"), req("reading"), req("unit"), opt("basis"), opt("resolution"), req("steps"), opt("deleted")}},
	{"photo", []column{key("id"), req("tank"), opt("entry"), opt("fish"), req("hash"), req("format"), whole("bytes"), whole("width"), whole("height"),
		whole("orientation"), whole("turned"), opt("taken"), opt("zone"), req("taken_from"), opt("latitude"), opt("longitude"), req("name"),
		opt("caption"), opt("white"), req("added"), opt("problem"), opt("deleted")}},
	{"mark", []column{key("id"), req("photo"), req("kind"), req("points"), opt("words"), opt("text"), opt("unit")}},
	{"round", []column{key("id"), req("tank"), req("code"), opt("title"), req("rule"), req("start"), opt("paused"), opt("note"), opt("deleted"), opt("origin")}},
	{"round_done", []column{key("round"), key("due"), req("state"), opt("reason"), opt("entry"), req("at")}},
	{"away", []column{key("id"), req("tank"), req("first"), req("last"), opt("who"), opt("note"), opt("deleted")}},
	{"kept", []column{key("tbl"), key("row"), key("name"), req("value")}},
	{"timer", []column{key("id"), req("tank"), req("kind"), req("started"), opt("due"), opt("ended"), {name: "detail", kind: text, counter: true},
		{name: "elapsed_ms", kind: integer, required: true, counter: true},
		{name: "last_seen", kind: text, required: true, counter: true}, opt("bag")}},
}

// tableOf finds a table of the whitelist.
func tableOf(op, name string) (*table, error) {
	for i := range tables {
		if tables[i].name == name {
			return &tables[i], nil
		}
	}
	return nil, &OpError{Code: CodeRefused, Op: op, Table: name, Reason: ReasonTable}
}

// column finds a column of the table, nil when there is none.
func (t *table) column(name string) *column {
	for i := range t.columns {
		if t.columns[i].name == name {
			return &t.columns[i]
		}
	}
	return nil
}

// ColumnInfo is what is to be known of a column from outside.
type ColumnInfo struct {
	Name     string
	Whole    bool // INTEGER, else TEXT
	Required bool
	Key      bool
}

// Tables lists the tables that Apply and Load may touch, with their columns.
func Tables() map[string][]ColumnInfo {
	out := make(map[string][]ColumnInfo, len(tables))
	for _, t := range tables {
		for _, c := range t.columns {
			out[t.name] = append(out[t.name], ColumnInfo{c.name, c.kind == integer, c.required, c.key})
		}
	}
	return out
}
