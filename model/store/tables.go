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

func req(name string) column { return column{name: name, kind: text, required: true} }
func opt(name string) column { return column{name: name, kind: text} }
func key(name string) column { return column{name: name, kind: text, required: true, key: true} }

// tables is the whitelist that statements are made from. setting and undo are
// absent: they have methods of their own, so that no Change taken from a file
// can reach them. A test holds the list against the schema.
var tables = []table{
	{"tank", []column{key("id"), req("name"), req("origin"), req("created"), opt("retired"), opt("deleted")}},
	{"answer", []column{key("tank"), key("field"), req("kind"), req("text"), opt("unit"), opt("basis"), req("origin"), req("at")}},
	{"done", []column{key("tank"), key("step"), req("at"), req("basis")}},
	{"ack", []column{key("id"), req("tank"), req("step"), req("note"), req("lang"), req("shown"), req("source_hash"), req("at")}},
	{"entry", []column{key("id"), req("tank"), req("kind"), req("at"), req("zone"), {name: "seq", kind: integer, required: true},
		opt("note"), opt("step"), opt("deleted"), opt("edited")}},
	{"entry_value", []column{key("entry"), key("name"), req("text"), opt("unit"), opt("basis"), req("qualifier")}},
	{"timer", []column{key("id"), req("tank"), req("kind"), req("started"), opt("due"), opt("ended"), opt("detail"),
		{name: "elapsed_ms", kind: integer, required: true, counter: true},
		{name: "last_seen", kind: text, required: true, counter: true}}},
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
