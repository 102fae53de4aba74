package paper

import (
	"errors"

	"example.org/driploop/i18n"
	"example.org/driploop/model/code"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// codesOf are the codes that carry the file of a slip. Errors: *slip.Error where there
// would be too many.
func codesOf(file []byte) ([]code.Matrix, error) {
	texts, err := slip.Codes(file)
	if err != nil {
		return nil, err
	}
	var out []code.Matrix
	for _, t := range texts {
		m, err := code.Encode(t)
		if err != nil {
			return nil, err
		}
		out = append(out, m)
	}
	return out, nil
}

// codesOrNone are those codes, and none where there would be too many: then the paper
// says that the file has to go along.
func codesOrNone(file []byte) ([]code.Matrix, error) {
	all, err := codesOf(file)
	var long *slip.Error
	if errors.As(err, &long) && long.Code == slip.CodeSheetLong {
		return nil, nil
	}
	return all, err
}

// The codes, in millimetres. A camera at arm's length tells modules of half a
// millimetre apart; these are larger. // judgement, by the pictures of the tests
const (
	codeSide = 84.0
	codeOne  = 104.0 // of a single one
	codeGap  = 8.0
)

const (
	codesInRow  = 2
	rowsOnePage = 2 // with what stands above them, on the lower of the two sizes of paper
)

// codes sets codes two in a row below how they are read, and other lines; or, where
// there are none, that the file has to go along.
func (f *flow) codes(in *Input, all []code.Matrix, read working.Key, others ...string) {
	w := in.Presenter.W
	s := &stack{x: f.left(), w: f.width()}
	if len(all) == 0 {
		s.text(w.T("paper.codes.none", i18n.Args{"High": slip.MaxCodes}), strongFont)
	} else {
		s.text(w.T(read, nil), strongFont)
	}
	if len(all) > 1 {
		s.text(w.N("paper.codes.several", float64(len(all)), nil), noteInk)
	}
	for _, l := range others {
		s.text(l, noteInk)
	}
	s.gap(1.5)
	side := codeSide
	if len(all) == 1 {
		side = codeOne
	}
	for i := 0; i < len(all); i += codesInRow {
		if i > 0 && i%(codesInRow*rowsOnePage) == 0 {
			f.add(s.block(4))
			s = &stack{x: f.left(), w: f.width()}
		}
		row := all[i:min(i+codesInRow, len(all))]
		wide := float64(len(row))*side + float64(len(row)-1)*codeGap
		from := f.left() + (f.width()-wide)/2
		s.put(side+noteFont.lead(), func(p *page, y float64) {
			for j, m := range row {
				x := from + float64(j)*(side+codeGap)
				p.code(x, y, side, m)
				of := w.T("paper.page", i18n.Args{"Page": i + j + 1, "Pages": len(all)})
				p.text(x+(side-noteFont.width(of))/2, y+side-1, of, noteFont)
			}
		})
		s.gap(2)
	}
	f.add(s.block(4))
}

// code draws the modules of a code into a square with its quiet zone.
func (p *page) code(x, y, side float64, m code.Matrix) {
	k := side / float64(m.Side+2*code.Quiet)
	style := scene.Style{Fill: look.Ink}
	for row := range m.Side {
		for from := 0; from < m.Side; {
			to := from
			for to < m.Side && m.Dark(to, row) {
				to++
			}
			if to > from { // a run of dark modules is one piece, or a viewer shows seams in it
				p.rect(x+k*float64(from+code.Quiet), y+k*float64(row+code.Quiet), k*float64(to-from), k*1.02, 0, style)
			}
			from = to + 1
		}
	}
}
