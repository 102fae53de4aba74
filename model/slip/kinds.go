package slip

// FileKind is a kind of file that people hand to each other, as a file manager knows
// it.
type FileKind struct {
	Format string // as its manifest says
	Ending string // with its dot
	// Media is its type: of the vendor tree, as a ZIP (RFC 6838, RFC 6839).
	Media string
	// First reports whether the manifest is the first part, so that the file shows
	// what it is by how it begins.
	First bool
}

// Endings of the files.
const (
	EndingProfile = ".dlprofile"
	EndingVisit   = ".dlvisit"
	EndingReply   = ".dlreply"
	EndingArchive = ".dlarchive"
)

// FileKinds lists them.
func FileKinds() []FileKind {
	return []FileKind{
		{FormatProfile, EndingProfile, "application/vnd.driploop.profile+zip", true},
		{FormatVisit, EndingVisit, "application/vnd.driploop.visit+zip", true},
		{FormatReply, EndingReply, "application/vnd.driploop.reply+zip", true},
		{FormatArchive, EndingArchive, "application/vnd.driploop.archive+zip", false},
	}
}
