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

// Confirmable is what is kept when a safety note or an electrical check is
// confirmed: the whole text as it stands on the screen, in the words of the region,
// the language that it is in, and the hash of its English source, by which it can be
// told later which wording was confirmed.
func (p Presenter) Confirmable(n care.NoteID) (text, lang, hash string) {
	if x, ok := care.NoteOf(n); ok {
		note := p.Note(x)
		return note.Shown(), note.Lang, i18n.NoteHash(english, string(n))
	}
	check := working.Find(working.Steady, working.Key("tick."+string(n)))
	en := Presenter{W: i18n.Speak(english, p.Region.Code, quantity.Metric), Region: p.Region}
	h := sha256.Sum256([]byte(en.Say(check)))
	return p.Say(check), p.W.Language(), hex.EncodeToString(h[:6])
}
