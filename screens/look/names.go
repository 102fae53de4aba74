package look

import "fyne.io/fyne/v2"

// Name is the role of a colour. It is a Fyne theme colour name, so that canvas
// objects and rich text take it as it is. The zero value "" means no colour.
type Name = fyne.ThemeColorName

// Grounds: what things are drawn on.
const (
	Paper Name = "look.paper" // the page
	Sheet Name = "look.sheet" // cards, fields, panels laid on the page
	Tint  Name = "look.tint"  // ground of a chosen row or an active filter
	Track Name = "look.track" // the empty part of a bar or slider
	Water Name = "look.water" // water in drawings; the filled part of the dipstick
)

// Inks: text, lines and marks.
const (
	Ink     Name = "look.ink"     // text and outlines
	SoftInk Name = "look.softink" // secondary text, dimension lines
	Rule    Name = "look.rule"    // separating lines, card outlines; never the outline of a control
	Edge    Name = "look.edge"    // the outline of a control (field, check box)
	Teal    Name = "look.teal"    // the accent: primary button, links, progress, first series
	OnTeal  Name = "look.onteal"  // text and marks on Teal
	Rust    Name = "look.rust"    // loads, what needs acting on, second series
	OnRust  Name = "look.onrust"  // text and marks on Rust
	Limit   Name = "look.limit"   // a limit line and its label
	Leaf    Name = "look.leaf"    // plants, series
	Violet  Name = "look.violet"  // series
	Ochre   Name = "look.ochre"   // series
)

// Fills of drawings. They are always outlined in Ink or Glass, so they carry no
// meaning by themselves.
const (
	Gravel    Name = "look.gravel"    // substrate
	Glass     Name = "look.glass"     // tank panes (a line colour)
	Wood      Name = "look.wood"      // stand
	Case      Name = "look.case"      // housings of equipment, socket
	FishWarm  Name = "look.fishwarm"  // body of a plain fish; a lit lamp
	FishEarth Name = "look.fishearth" // the band of a bag
)

// Pigments: the colours of animals in drawings. They are always outlined in Ink,
// and tell no state and no kind by themselves: shape and name do.
const (
	PigmentWhite  Name = "look.pigment.white"
	PigmentSilver Name = "look.pigment.silver"
	PigmentGrey   Name = "look.pigment.grey"
	PigmentBlack  Name = "look.pigment.black" // dark in both variants
	PigmentBrown  Name = "look.pigment.brown"
	PigmentTan    Name = "look.pigment.tan"
	PigmentOlive  Name = "look.pigment.olive"
	PigmentYellow Name = "look.pigment.yellow"
	PigmentGold   Name = "look.pigment.gold"
	PigmentOrange Name = "look.pigment.orange"
	PigmentRed    Name = "look.pigment.red"
	PigmentRose   Name = "look.pigment.rose"
	PigmentBlue   Name = "look.pigment.blue"
	PigmentAzure  Name = "look.pigment.azure" // what glistens blue
	PigmentGreen  Name = "look.pigment.green"
	PigmentViolet Name = "look.pigment.violet"
)

// States. A state is never shown by its colour alone: it carries a word and a
// shape (circle, diamond, triangle).
const (
	Steady Name = "look.steady"
	Wait   Name = "look.wait"
	Act    Name = "look.act"
)

// Safety signs: the ground of the signal-word panel and the text upon it.
const (
	SignDanger      Name = "look.sign.danger"
	SignDangerText  Name = "look.sign.danger.text"
	SignWarning     Name = "look.sign.warning"
	SignWarningText Name = "look.sign.warning.text"
	SignCaution     Name = "look.sign.caution"
	SignCautionText Name = "look.sign.caution.text"
	SignNotice      Name = "look.sign.notice"
	SignNoticeText  Name = "look.sign.notice.text"
)

// Series lists the colours of chart series in the order they are to be taken.
// A series always has a marker shape of its own beside its colour.
var Series = []Name{Teal, Rust, Violet, Ochre, Leaf}
