package slip

// The archive: a whole daybook in one file that can be read without this program.
//
// It is a ZIP with photos/HASH.FORMAT (originals, bit for bit), tables/NAME.json
// (every table as a list of rows), csv/ and index.html for people, and, last,
// manifest.json with the SHA-256 of each other part. The rows are described in
// assets/schema/archive.schema.json. What is in csv/ and index.html is said in the
// tables too, and is never read back.
const (
	FormatArchive = "driploop-archive"
	// ArchiveVersion changes when an older program could no longer read an archive
	// rightly; ArchiveMinor when something was added that it may pass over: 1 brought
	// the stock of fish, what is wished for, pinches and bags; 2 starter profiles in work
	// what a shop proposed, visits and replies.
	ArchiveVersion = 1
	ArchiveMinor   = 2
)

// Names of parts of an archive.
const (
	FolderPhotos = "photos/"
	FolderTables = "tables/"
	FolderCSV    = "csv/"
	PartIndex    = "index.html"

	tableEnding = ".json"
)

// Row is a row of a table. Values holds strings and int64 by column; one that is
// missing is NULL. More holds what a later version has added, as JSON by name: it
// is kept and given back.
type Row struct {
	Values map[string]any
	More   map[string]string
}

// Text gives a text of the row, "" where there is none.
func (r Row) Text(column string) string {
	s, _ := r.Values[column].(string)
	return s
}

// ArchiveHead is what an archive says of itself.
type ArchiveHead struct {
	Version int
	Minor   int
	MadeBy  Maker
	// Language of index.html, a BCP 47 tag.
	Language string
	// Places reports whether pictures and rows still tell where pictures were taken.
	Places bool
}

// Original is a picture of an archive.
type Original struct {
	Hash  string // SHA-256 of the picture, as its name says
	Bytes int64
	part  entry
	sum   string // as the manifest lists it
}
