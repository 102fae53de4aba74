package present

import (
	"crypto/sha256"
	"encoding/hex"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// DrawingLabels are the words on the elevation.
type DrawingLabels struct {
	Length, Height, StandHeight string
	Sag, Temperature, Hand      string
	NoLoop                      string
}

// DrawingLabels writes the words on the elevation.
func (p Presenter) DrawingLabels(c care.Picture) DrawingLabels {
	if !c.Known {
		return DrawingLabels{}
	}
	l, _, h := c.Tank.Outer()
	d := DrawingLabels{Length: p.W.For(l.Value(), i18n.Tank), Height: p.W.For(h.Value(), i18n.Tank),
		NoLoop: p.W.T("page.fill.no_loop", nil), Hand: p.W.T("page.fill.hand", nil)}
	if c.StandHeight > 0 {
		d.StandHeight = p.W.For(c.StandHeight.Value(), i18n.Tank)
	}
	if c.Temperature.Known() {
		d.Temperature = p.W.Quantity(c.Temperature)
	}
	if c.ShowLoads && c.Sag.Known() {
		d.Sag = p.W.T("page.fill.sag", i18n.Args{"Sag": p.W.For(c.Sag, i18n.Thickness)})
	}
	return d
}

// Mass writes a mass in the person's units.
func (p Presenter) Mass(m quantity.Mass) string { return p.W.Quantity(m.Value()) }

// Scale writes the scale of a drawing.
func (p Presenter) Scale(n float64) string {
	return p.W.T("page.fill.scale", i18n.Args{"N": p.W.Number(n, 2)})
}

// SourceHash is the hash of a note's English text, kept with a confirmation so
// that it can be told which wording was confirmed.
func (p Presenter) SourceHash(n care.NoteID) string {
	en := Presenter{W: i18n.Speak("en", p.Region.Code, quantity.Metric), Region: p.Region}
	h := sha256.Sum256([]byte(en.NoteText(n)))
	return hex.EncodeToString(h[:8])
}

// NoteText is the whole text of a note, or of an electrical check, as shown.
func (p Presenter) NoteText(n care.NoteID) string {
	for _, x := range care.Notes() {
		if x.ID == n {
			return p.Note(x).Shown()
		}
	}
	return p.Say(working.Find(working.Steady, working.Key("tick."+string(n))))
}
