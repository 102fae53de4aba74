package shell

import (
	"context"
	"strconv"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/quantity"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/present"
)

// Prefs is what a person chose for themselves, apart from any tank: each is
// kept at once and none needs a restart.
type Prefs struct {
	Lang   string
	Region string // ISO 3166-1 alpha-2; empty is elsewhere
	Units  quantity.System
	Theme  look.Variant
	Text   int // per cent, 100 to 150
	Still  bool
}

// The names of the settings.
const (
	settingLang   = "language"
	settingRegion = "region"
	settingUnits  = "units"
	settingTheme  = "theme"
	settingText   = "text"
	settingStill  = "still"
)

// themes are the stored names of the variants.
var themes = map[string]look.Variant{"system": look.FollowSystem, "light": look.Light, "dark": look.Dark}

func themeName(v look.Variant) string {
	for name, x := range themes {
		if x == v {
			return name
		}
	}
	return "system"
}

// textSizes are the sizes offered, per cent.
var textSizes = []int{100, 110, 125, 150}

// LoadPrefs reads the settings; what was never chosen comes from the system.
// Unknown values are passed over.
func LoadPrefs(ctx context.Context, k *keeper.Keeper) (Prefs, error) {
	lang, region, units := i18n.System()
	return PrefsOver(ctx, k, Prefs{Lang: lang, Region: region, Units: units, Text: 100})
}

// PrefsOver reads the settings over those of p, which stand where nothing was
// ever chosen.
func PrefsOver(ctx context.Context, k *keeper.Keeper, p Prefs) (Prefs, error) {
	for _, s := range []struct {
		name string
		take func(string)
	}{
		{settingLang, func(v string) {
			if i18n.Offered(v) {
				p.Lang = v
			}
		}},
		{settingRegion, func(v string) { p.Region = v }},
		{settingUnits, func(v string) {
			for _, u := range quantity.Systems() {
				if string(u) == v {
					p.Units = u
				}
			}
		}},
		{settingTheme, func(v string) { p.Theme = themes[v] }},
		{settingText, func(v string) {
			if n, err := strconv.Atoi(v); err == nil && n >= 100 && n <= 150 {
				p.Text = n
			}
		}},
		{settingStill, func(v string) { p.Still = v == care.Ticked }},
	} {
		v, ok, err := k.Setting(ctx, s.name)
		if err != nil {
			return p, err
		}
		if ok {
			s.take(v)
		}
	}
	return p, nil
}

// save keeps what differs from before.
func (p Prefs) save(ctx context.Context, k *keeper.Keeper, before Prefs) error {
	still := func(b bool) string {
		if b {
			return care.Ticked
		}
		return ""
	}
	for _, s := range []struct{ name, now, was string }{
		{settingLang, p.Lang, before.Lang}, {settingRegion, p.Region, before.Region}, {settingUnits, string(p.Units), string(before.Units)},
		{settingTheme, themeName(p.Theme), themeName(before.Theme)}, {settingText, strconv.Itoa(p.Text), strconv.Itoa(before.Text)},
		{settingStill, still(p.Still), still(before.Still)},
	} {
		if s.now == s.was {
			continue
		}
		if err := k.SetSetting(ctx, s.name, s.now); err != nil {
			return err
		}
	}
	return nil
}

// Look is what these preferences ask of the theme.
func (p Prefs) Look() look.Options {
	o := look.Options{Variant: p.Theme, TextScale: p.Text}
	o.Script, o.ScriptBold = look.ScriptOf(p.Lang)
	return o
}

// presenter speaks for these preferences.
func (p Prefs) presenter() present.Presenter {
	return present.Presenter{W: i18n.Speak(p.Lang, p.Region, p.Units), Region: care.Region{Code: p.Region}}
}
