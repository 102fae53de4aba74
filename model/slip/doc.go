// Package slip reads and writes the files that people hand to each other: the
// starter profile, from a shop to a keeper; the visit slip, from a keeper to a shop or
// a veterinarian; the reply, from the shop to the keeper; and the archive.
//
// Contract:
//
//   - A slip is a ZIP of few, plain parts: manifest.json (format, version, who
//     made it, the SHA-256 of each other part), a body in JSON and, of a visit,
//     pictures as JPEG. The schemas stand in assets/schema.
//   - A slip comes from a stranger. Reading trusts no number in it: every length
//     is compared with what is there, bytes are counted while they are unpacked,
//     and whatever is not exactly as described is refused. Nothing is written to
//     disk while reading and no part's name is ever used as a path.
//   - A refusal is an *Error: a code with a message in every language, the part
//     and the field it is about. A slip is taken whole or not at all.
//   - What a later version of the program has added is left out and named in a
//     finding; what is understood is given. Members that a later version added, and
//     answers of fields that are not known, are kept and written again as they came.
//   - Writing is reproducible: the same slip gives the same bytes.
//   - A visit holds private things (where pictures were taken, notes, prices) only
//     where it says so itself; Check refuses any other.
//
// Nouns: a Part is one file inside a slip; a Profile is what a shop proposes for
// a tank: answers of First fill, notes and its address. A profile can hold only
// what Settable lists: never a tick of something done with one's hands, a plug,
// a confirmation or a setting.
//
// Units: sizes are bytes; measures are kept as typed, with unit and basis.
// Validity: limits.go. Sources: the container is that of PKWARE's APPNOTE 6.3,
// narrowed to plain files stored or deflated, without ZIP64, encryption,
// comments, gaps or overlaps.
package slip
