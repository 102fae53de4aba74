package paper

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/xml"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"text/template"

	"codeberg.org/go-pdf/fpdf"

	"example.org/driploop/assets"
)

// Papers are PDF/A-2b (ISO 19005-2): they can be read in decades by what they hold
// themselves. The type is embedded anyway; here is what the form asks for beside.

//go:embed lasting.xmp
var metadataText string

var metadata = template.Must(template.New("").Parse(metadataText))

// lasting gives a document the meaning of its colours, and what it is in XMP
// (ISO 16684-1), the same that stands in its information dictionary.
func (in *Input) lasting(doc *fpdf.Fpdf, title, program string) error {
	const colours = "sRGB"
	doc.AddOutputIntent(fpdf.OutputIntentType{SubtypeIdent: fpdf.OutputIntent_GTS_PDFA1, OutputConditionIdentifier: colours, Info: colours, ICCProfile: assets.SRGB()})
	var b bytes.Buffer
	err := metadata.Execute(&b, map[string]string{"Mark": "\ufeff", "Title": inXML(title), "Program": inXML(program), "Language": inXML(in.Presenter.W.Language()), "Made": in.made().Format("2006-01-02T15:04:05")})
	doc.SetXmpMetadata(b.Bytes())
	return err
}

func inXML(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a strings.Builder takes all
	return b.String()
}

var trailerOf = regexp.MustCompile(`/Info (\d+) 0 R\n>>\nstartxref\n`)

// signedOff mends the trailer of a document of ours: it gets an identifier, which the
// form asks for, and names its information dictionary, where the library names the
// colour profile behind it. Nothing lies behind the trailer that counts bytes.
func signedOff(pdf []byte) ([]byte, error) {
	at := trailerOf.FindAllSubmatchIndex(pdf, -1)
	if len(at) == 0 {
		return nil, fmt.Errorf("paper: the document has no trailer")
	}
	last := at[len(at)-1]
	number, err := strconv.Atoi(string(pdf[last[2]:last[3]]))
	if err != nil {
		return nil, err
	}
	information := number - 1
	if !bytes.Contains(pdf, fmt.Appendf(nil, "\n%d 0 obj\n<<\n/Producer", information)) {
		return nil, fmt.Errorf("paper: object %d is not the information dictionary", information)
	}
	sum := sha256.Sum256(pdf)
	id := sum[:16]
	out := append([]byte{}, pdf[:last[0]]...)
	out = fmt.Appendf(out, "/Info %d 0 R\n/ID [<%x> <%x>]\n>>\nstartxref\n", information, id, id)
	return append(out, pdf[last[1]:]...), nil
}
