// Package toolkit puts the toolkit's own words (Cancel, Open, the calendar's
// weekdays) into the language a person chose.
//
// The toolkit looks them up under the system's locale and cannot be told
// another, so our table is laid over that one. It is complete for every offered
// language, English too, since a key once overlaid does not fall back.
package toolkit

import (
	"encoding/json"
	"fmt"
	"maps"

	"fyne.io/fyne/v2/lang"

	"example.org/driploop/i18n"
)

// prefix of the toolkit's keys among our messages.
const prefix = "fyne."

// Table returns the toolkit's words in a language, by the toolkit's keys; what a
// draft lacks is English.
func Table(code string) map[string]string {
	out := i18n.Under("en", prefix)
	maps.Copy(out, i18n.Under(code, prefix))
	return out
}

// Use puts the toolkit's words into the language with the given code. Windows
// already built keep theirs until their content is built again. Call it on the
// toolkit's own goroutine. It fails for a language that is not spoken.
func Use(code string) error {
	if !i18n.Spoken(code) {
		return fmt.Errorf("toolkit: language %q is not offered", code)
	}
	raw, err := json.Marshal(Table(code))
	if err != nil {
		return err
	}
	return lang.AddTranslationsForLocale(raw, lang.SystemLocale())
}
