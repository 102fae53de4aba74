package parts

import "example.org/driploop/screens/look"

// DayCell is one day of a DayStrip.
type DayCell struct {
	Weekday string
	Day     string
	Lines   []string // what the day holds, each a few words
	Note    string   // a soft line below them
	Strong  bool     // today
	Off     bool     // a day away: on a darker ground, with its Note
}

// DayStrip is the coming days side by side, a week in a line, or fewer where
// they do not fit.
type DayStrip struct {
	part
	days []DayCell
}

// NewDayStrip gives a strip of days.
func NewDayStrip(days []DayCell) *DayStrip {
	s := &DayStrip{days: days}
	s.begin(s)
	return s
}

// Set shows other days.
func (s *DayStrip) Set(days []DayCell) {
	if !same(days, s.days) {
		s.days = days
		s.update()
	}
}

func (s *DayStrip) leastWidth() float32 { return 200 }

const (
	stripWeek  = 7
	stripLeast = 84 // judgement: a word of nine letters
	stripPad   = 6
	stripGap   = 4
)

func (s *DayStrip) draw(p *pen, width float32) float32 {
	n := stripWeek
	for n > 2 && (width-stripGap*float32(n-1))/float32(n) < stripLeast*p.k {
		n--
	}
	w := (width - stripGap*float32(n-1)) / float32(n)
	y := float32(0)
	for i := 0; i < len(s.days); i += n {
		row := s.days[i:min(i+n, len(s.days))]
		if i > 0 {
			y += stripGap
		}
		tall := float32(0)
		for _, d := range row {
			tall = max(tall, s.cell(newPen(p.w, nil), d, 0, 0, w))
		}
		for j, d := range row {
			x := float32(j) * (w + stripGap)
			b := box{fill: look.Sheet, stroke: look.Rule, width: 1, radius: sheetRadius}
			if d.Off {
				b.fill = look.Track
			}
			if d.Strong {
				b.stroke, b.width = look.Ink, 1.4
			}
			p.rect(x, y, w, tall, b)
			s.cell(p, d, x, y, w)
		}
		y += tall
	}
	return y
}

// cell draws the texts of a day and gives the height that they need.
func (s *DayStrip) cell(p *pen, d DayCell, x, y, w float32) float32 {
	in, top := stripPad*p.k, y+stripPad*p.k*0.6
	p.text(d.Weekday, x+in, top, noteSoft)
	p.right(d.Day, x+w-in, top, bodyBold)
	end := top + p.line(bodyBold)
	for _, l := range d.Lines {
		end = p.wrapped(l, x+in, end, w-2*in, noteSoft.in(look.Ink))
	}
	if d.Note != "" {
		end = p.wrapped(d.Note, x+in, end, w-2*in, noteSoft)
	}
	return end - y + stripPad*p.k*0.6
}
