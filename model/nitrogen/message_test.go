package nitrogen

import (
	"regexp"
	"testing"

	"github.com/BurntSushi/toml"
)

var hole = regexp.MustCompile(`\{\{\.([A-Za-z0-9]+)\}\}`)

func messages(t *testing.T, lang string) map[string]string {
	t.Helper()
	m := map[string]string{}
	if _, err := toml.DecodeFile("../../i18n/messages/nitrogen."+lang+".toml", &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// Findings bring what their words ask for.
func TestFindingsAreFilled(t *testing.T) {
	en := messages(t, "en")
	// The tank of this start loses its alkalinity: both remarks come.
	s := Start{State: State{Ammonia: 10, EatersA: 1, EatersN: 1, Alkalinity: meq(1)}, Temperature: 26}
	r, _, err := Run(Defaults(), s, nil, 10*days, days/2)
	if err != nil || len(r.Findings) != 2 {
		t.Fatal(r.Findings, err)
	}
	for _, f := range r.Findings {
		asks := hole.FindAllStringSubmatch(en[string(f.Code)], -1)
		if len(asks) != len(f.Values) {
			t.Errorf("%s brings %v for %q", f.Code, f.Values, en[string(f.Code)])
		}
		for _, a := range asks {
			if !f.Values[a[1]].Known() {
				t.Errorf("%s lacks %s", f.Code, a[1])
			}
		}
	}
}
