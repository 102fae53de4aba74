package paper

import (
	_ "embed"
	"html/template"
	"io"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/present"
)

//go:embed archive.html
var archiveHTML string

// The template escapes everything by where it stands.
var archiveForm = template.Must(template.New("archive").Parse(archiveHTML))

// Archive writes the page of an archive: plain HTML that any browser shows without
// this program, with no script and nothing from elsewhere. Pictures are those that
// lie beside it. Errors: those of w.
func Archive(w io.Writer, p present.Presenter, c keeper.Contents) error {
	return archiveForm.Execute(w, p.Archive(c))
}
