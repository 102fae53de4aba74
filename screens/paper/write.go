package paper

import (
	"bytes"
	"fmt"
	"io"

	"codeberg.org/go-pdf/fpdf"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// SetUpSheet writes the set-up sheet: the tank to scale with its loads, the
// limits that were checked, doses, the work of all steps in order with boxes to
// tick, the safety notes, the record of what was done and confirmed, and the
// working behind the main figures. Errors: those of w.
func SetUpSheet(w io.Writer, in Input) error { return write(w, Sheet, in, true) }

// KitList writes the kit list: each item with its size for this tank, the
// reason, boxes for have and buy, prices as far as they are known, and the
// totals. Errors: those of w.
func KitList(w io.Writer, in Input) error { return write(w, Kit, in, true) }

// pages lays a document out. What ends in safety notes is set closer where that saves
// a page: a last page with two of them is printed for nothing.
func pages(kind Kind, in *Input) ([]*page, Size) {
	ps, size := laid(kind, in, usual)
	switch kind {
	case Home, CareCalendar, Profile:
		for _, s := range []setting{closer, closest} {
			if fewer, _ := laid(kind, in, s); len(fewer) < len(ps) {
				ps = fewer
			}
		}
	}
	return ps, size
}

// laid lays a document out.
func laid(kind Kind, in *Input, s setting) ([]*page, Size) {
	f := newFlow(in.Size)
	f.setting = s
	if kind == CareCalendar {
		f.size = f.size.turned()
	}
	if kind == VisitSlip {
		ps := visitPages(in)
		f.feet(in, kind, ps)
		return ps, f.size
	}
	if kind == Neighbour {
		ps := neighbourPages(in)
		f.feet(in, kind, ps)
		return ps, f.size
	}
	f.title(in, kind)
	switch kind {
	case Kit:
		f.kit(in)
	case Case:
		f.sickFish(in)
	case Stocking:
		f.stocking(in)
	case Home:
		f.homecoming(in)
	case CareCalendar:
		f.careCalendar(in)
	case Profile:
		f.profileSheet(in)
	case ReplySlip:
		f.replySlip(in)
	default:
		f.sheet(in)
	}
	ps := f.lay()
	f.feet(in, kind, ps)
	return ps, f.size
}

// write makes the document in memory, so that out gets all of it or nothing.
func write(out io.Writer, kind Kind, in Input, compressed bool) error {
	ps, size := pages(kind, &in)
	return in.bind(out, kind, ps, size, compressed)
}

// bind writes pages as one document.
func (in *Input) bind(out io.Writer, kind Kind, ps []*page, size Size, compressed bool) error {
	doc := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: size.W, Ht: size.H}})
	doc.SetCompression(compressed)
	doc.SetCatalogSort(true) // the same input gives the same bytes
	doc.SetCreationDate(in.made())
	doc.SetModificationDate(in.made())
	doc.SetAutoPageBreak(false, 0)
	w := in.Presenter.W
	title, program := clean(w.T("paper.file_title", i18n.Args{"Title": Title(kind, w), "Tank": in.Record.Name})), w.T("paper.program", nil)
	doc.SetTitle(title, true)
	doc.SetCreator(program, true)
	doc.SetProducer(program, true)
	if err := in.lasting(doc, title, program); err != nil {
		return err
	}
	doc.SetLang(w.Language())
	pdf := scene.NewPDF(doc)
	colours := look.PaletteOf(theme.VariantLight)
	// A text in the document's own fill colour is written without a colour, and
	// would take that of the drawing before it. No role of the palette is this one.
	doc.SetFillColor(1, 2, 3)
	n := 0
	for _, p := range ps {
		doc.AddPage()
		for _, g := range p.prints {
			n++
			name, opt := fmt.Sprintf("%05d", n), fpdf.ImageOptions{ImageType: "JPG"}
			doc.RegisterImageOptionsReader(name, opt, bytes.NewReader(g.jpeg))
			doc.ImageOptions(name, g.x, g.y, g.w, g.h, false, opt, 0, "")
		}
		pdf.DrawAt(p.scene, plain, colours)
		for _, g := range p.figures {
			pdf.DrawAt(g.scene, g.at, colours)
		}
	}
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		return err
	}
	whole, err := signedOff(b.Bytes())
	if err != nil {
		return err
	}
	_, err = out.Write(whole)
	return err
}
