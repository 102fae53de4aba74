//go:build !unix || darwin

package i18n

import locale "github.com/jeandeaual/go-locale"

// systemLocale asks the operating system. What it does not say is left to the
// defaults.
func systemLocale() string {
	name, err := locale.GetLocale()
	if err != nil {
		return ""
	}
	return name
}
