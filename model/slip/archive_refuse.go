package slip

import (
	"errors"

	"example.org/driploop/model/working"
)

// Codes of an Error about an archive. Each is the key of a message; several codes
// of a slip share one, as there is no shop to ask for another.
const (
	CodeArchiveUnread  working.Key = "refuse.archive.unreadable"
	CodeArchiveBig     working.Key = "refuse.archive.too_big"
	CodeArchiveParts   working.Key = "refuse.archive.parts"
	CodeArchiveRows    working.Key = "refuse.archive.rows" // above MaxRows
	CodeArchiveOther   working.Key = "refuse.archive.other"
	CodeArchiveDamaged working.Key = "refuse.archive.damaged"
	CodeArchiveLocked  working.Key = "refuse.archive.locked"
	CodeArchiveForm    working.Key = "refuse.archive.form"
	CodeArchiveHash    working.Key = "refuse.archive.hash"
	CodeArchiveLater   working.Key = "refuse.archive.later" // of a version that only a later program can read
	CodeArchiveRow     working.Key = "refuse.archive.row"   // a row that is not as described
	CodeArchiveLost    working.Key = "refuse.archive.lost"  // a picture that is not the one its name says
)

var ofArchive = map[working.Key]working.Key{
	CodeNotFile: CodeArchiveUnread, CodeUnreadable: CodeArchiveUnread,
	CodeTooBig: CodeArchiveBig, CodeParts: CodeArchiveParts,
	CodeNotSlip: CodeArchiveOther, CodeNoManifest: CodeArchiveOther, CodeOther: CodeArchiveOther,
	CodeEncrypted: CodeArchiveLocked, CodeHash: CodeArchiveHash,
	CodeMethod: CodeArchiveForm, CodeZIP64: CodeArchiveForm, CodeUnpacked: CodeArchiveForm, CodeRatio: CodeArchiveForm, CodeDepth: CodeArchiveForm,
	CodeNameLong: CodeArchiveForm, CodeName: CodeArchiveForm, CodeTwins: CodeArchiveForm, CodeSpecial: CodeArchiveForm, CodeNested: CodeArchiveForm,
}

// InArchive gives an error the words of an archive.
func InArchive(err error) error {
	var e *Error
	if !errors.As(err, &e) {
		return err
	}
	out := *e
	switch code, ok := ofArchive[e.Code]; {
	case ok:
		out.Code = code
	case e.Code == CodeArchiveRow || e.Code == CodeArchiveRows || e.Code == CodeArchiveLater || e.Code == CodeArchiveLost:
	default: // checksums, lengths, JSON
		out.Code = CodeArchiveDamaged
	}
	return &out
}
