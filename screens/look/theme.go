package look

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/assets"
)

// Variant is the person's choice between light and dark.
type Variant uint8

// The choices. The zero value follows the system.
const (
	FollowSystem Variant = iota
	Light
	Dark
)

// Options are what a person can set about the look.
type Options struct {
	Variant   Variant
	TextScale int // percent, MinTextScale to MaxTextScale; 0 means 100
	// Script and ScriptBold are TrueType fonts that have Latin and the language's own
	// script, see ScriptOf; nil keeps the built-in family.
	Script, ScriptBold fyne.Resource
}

// OptionError tells which option was refused and what is accepted.
type OptionError struct {
	Field    string
	Value    int
	Min, Max int
}

func (e *OptionError) Error() string {
	return fmt.Sprintf("look: %s is %d: accepted is %d to %d", e.Field, e.Value, e.Min, e.Max)
}

// Theme is the program's Fyne theme. It is immutable: to change an option live,
// make another and hand it to the application's settings. Icons and the sizes
// that are not ours are those of Fyne.
type Theme struct {
	fyne.Theme
	options Options
}

var _ fyne.Theme = (*Theme)(nil)

// New makes a theme, or refuses with an *OptionError.
func New(o Options) (*Theme, error) {
	if o.TextScale == 0 {
		o.TextScale = MinTextScale
	}
	if o.TextScale < MinTextScale || o.TextScale > MaxTextScale {
		return nil, &OptionError{"TextScale", o.TextScale, MinTextScale, MaxTextScale}
	}
	if o.Variant > Dark {
		return nil, &OptionError{"Variant", int(o.Variant), int(FollowSystem), int(Dark)}
	}
	return &Theme{theme.DefaultTheme(), o}, nil
}

// Options gives what the theme was made with.
func (t *Theme) Options() Options { return t.options }

// VariantOf gives the variant that is shown when the system asks for v.
func (t *Theme) VariantOf(v fyne.ThemeVariant) fyne.ThemeVariant {
	switch t.options.Variant {
	case Light:
		return theme.VariantLight
	case Dark:
		return theme.VariantDark
	}
	return v
}

// Opacities, of 255, of what Fyne lays over a ground.
const (
	hoverAlpha  = 0x14
	pressAlpha  = 0x28
	focusAlpha  = 0x70
	selectAlpha = 0x48
)

// roles maps Fyne's colour names to ours.
var roles = map[fyne.ThemeColorName]struct {
	role  Name
	alpha uint8
}{
	theme.ColorNameBackground:          {Paper, 0xFF},
	theme.ColorNameButton:              {Sheet, 0xFF},
	theme.ColorNameDisabledButton:      {Track, 0xFF},
	theme.ColorNameDisabled:            {SoftInk, 0xFF},
	theme.ColorNameError:               {Limit, 0xFF},
	theme.ColorNameFocus:               {Teal, focusAlpha},
	theme.ColorNameForeground:          {Ink, 0xFF},
	theme.ColorNameForegroundOnError:   {OnRust, 0xFF},
	theme.ColorNameForegroundOnPrimary: {OnTeal, 0xFF},
	theme.ColorNameForegroundOnSuccess: {OnTeal, 0xFF},
	theme.ColorNameForegroundOnWarning: {OnRust, 0xFF},
	theme.ColorNameHeaderBackground:    {Sheet, 0xFF},
	theme.ColorNameHover:               {Ink, hoverAlpha},
	theme.ColorNameHyperlink:           {Teal, 0xFF},
	theme.ColorNameInputBackground:     {Sheet, 0xFF},
	theme.ColorNameInputBorder:         {Edge, 0xFF},
	theme.ColorNameMenuBackground:      {Sheet, 0xFF},
	theme.ColorNameOverlayBackground:   {Sheet, 0xFF},
	theme.ColorNamePlaceHolder:         {SoftInk, 0xFF},
	theme.ColorNamePressed:             {Ink, pressAlpha},
	theme.ColorNamePrimary:             {Teal, 0xFF},
	theme.ColorNameScrollBar:           {Edge, 0xFF},
	theme.ColorNameScrollBarBackground: {Rule, 0x40},
	theme.ColorNameSelection:           {Teal, selectAlpha},
	theme.ColorNameSeparator:           {Rule, 0xFF},
	theme.ColorNameSuccess:             {Leaf, 0xFF},
	theme.ColorNameWarning:             {Rust, 0xFF},
}

// Color implements fyne.Theme for Fyne's names and for ours.
func (t *Theme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	v = t.VariantOf(v)
	if r, ok := roles[n]; ok {
		c := Color(r.role, v)
		c.A = r.alpha
		return c
	}
	if _, ours := shades[n]; ours {
		return Color(n, v)
	}
	return t.Theme.Color(n, v)
}

// points holds the text sizes at 100 %.
var points = map[fyne.ThemeSizeName]float32{
	SizeNote: Note, SizeBody: Body, SizeField: Field,
	SizeSection: Section, SizeHeading: Heading, SizeNumber: Number,
}

// Size implements fyne.Theme. Text, and the icons that stand in text, grow with
// the text scale.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	k := float32(t.options.TextScale) / 100
	if p, ok := points[n]; ok {
		return p * k
	}
	switch n {
	case theme.SizeNameInlineIcon:
		return t.Theme.Size(n) * k
	case theme.SizeNameInputBorder:
		return 1.3
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 4
	}
	return t.Theme.Size(n)
}

// The type family as Fyne resources. A canvas.Text can take BoldFont as its
// FontSource; everywhere else Fyne's bold is SemiBoldFont.
var (
	RegularFont  fyne.Resource = fyne.NewStaticResource("AtkinsonHyperlegibleNext-Regular.ttf", assets.Regular)
	ItalicFont   fyne.Resource = fyne.NewStaticResource("AtkinsonHyperlegibleNext-Italic.ttf", assets.Italic)
	SemiBoldFont fyne.Resource = fyne.NewStaticResource("AtkinsonHyperlegibleNext-SemiBold.ttf", assets.SemiBold)
	BoldFont     fyne.Resource = fyne.NewStaticResource("AtkinsonHyperlegibleNext-Bold.ttf", assets.Bold)
)

// Font implements fyne.Theme.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace, s.Symbol:
		return t.Theme.Font(s)
	case t.options.Script != nil && s.Bold && t.options.ScriptBold != nil:
		return t.options.ScriptBold
	case t.options.Script != nil:
		return t.options.Script
	case s.Bold && s.Italic:
		return BoldFont
	case s.Bold:
		return SemiBoldFont
	case s.Italic:
		return ItalicFont
	}
	return RegularFont
}
