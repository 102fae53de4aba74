//go:build unix && !darwin

package i18n

import "os"

// systemLocale returns the first locale that is set, in the order of POSIX.
func systemLocale() string {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := os.Getenv(name); v != "" {
			return v
		}
	}
	return ""
}
