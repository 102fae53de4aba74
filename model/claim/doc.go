// Package claim has the system open our kinds of files with this program on a double
// click, for the person who is signed in, and takes that back.
//
// Contract:
//
//   - [Claim.Make] writes all of it or nothing, [Claim.TakeBack] takes away what Make
//     wrote and nothing else; [Claim.State] tells which of the two stands, and where
//     the system's records of it are. No administrator is needed and nothing outside
//     the person's own records is touched.
//   - On Linux and the BSDs it is a type for each kind of file (Shared MIME-info
//     Database 0.22), an entry that is in no menu (Desktop Entry Specification 1.5)
//     and an icon (Icon Theme Specification 0.13); on Windows the keys of file types
//     below HKEY_CURRENT_USER\Software\Classes. On macOS the bundle alone says what a
//     program opens, so that [Can] is false there.
//   - Nothing of a file is read here: a kind is known by its ending, and by how it
//     begins where that tells it.
package claim
