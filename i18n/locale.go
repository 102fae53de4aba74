package i18n

import (
	"strings"

	"golang.org/x/text/language"

	"example.org/driploop/model/quantity"
)

// System returns the language, region and units that this machine is set up
// for: an offered language (English when its own is not offered), a region or
// "", and US units in the United States, metric ones elsewhere. Britain gets
// metric units with litres; imperial ones are there to be chosen.
func System() (lang, region string, units quantity.System) {
	return FromLocale(systemLocale())
}

// FromLocale reads a locale name as systems write it: es_MX.UTF-8, en-GB,
// de_DE@euro. C, POSIX and what cannot be read give English, no region and
// metric units.
func FromLocale(name string) (lang, region string, units quantity.System) {
	name, _, _ = strings.Cut(name, ".")
	name, _, _ = strings.Cut(name, "@")
	lang, units = source, quantity.Metric
	if name == "" || name == "C" || name == "POSIX" {
		return lang, "", units
	}
	tag, err := language.Parse(strings.ReplaceAll(name, "_", "-"))
	if err != nil {
		return lang, "", units
	}
	base, _ := tag.Base()
	if r, sure := tag.Region(); sure == language.Exact && r.IsCountry() {
		region = r.String()
	}
	for _, l := range []string{base.String() + "-" + region, base.String()} { // as it is spoken there, or as it is spoken
		if l != Pseudo && Offered(l) {
			lang = l
			break
		}
	}
	if region == "US" {
		units = quantity.US
	}
	return lang, region, units
}
