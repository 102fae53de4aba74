package fish

import (
	"slices"
	"strings"
	"testing"
)

// Genera that names of the catalogue are told by: every old name begins with a
// word that no name of the trade begins with.
func TestOldNamesAreLatin(t *testing.T) {
	old := map[string]string{}
	for _, a := range All() {
		for _, n := range a.OldNames() {
			old[strings.Fields(n)[0]] = n
		}
	}
	if len(old) < 100 {
		t.Errorf("%d genera, want at least 100", len(old))
	}
	for _, place := range []string{"Congo", "Siamese", "Buenos", "Malabar", "Chinese", "Bolivian", "German", "American", "Japanese", "African", "Amazon", "Colombian", "Campoma"} {
		if n, ok := old[place]; ok {
			t.Errorf("%q stands among the scientific names", n)
		}
	}
	for code, want := range map[Code][]string{
		"petitella-bleheri":      {"Hemigrammus bleheri", "Hemigrammus rhodostomus"},
		"puntigrus-tetrazona":    {"Barbus tetrazona"},
		"procambarus-virginalis": {"Procambarus fallax f. virginalis"},
	} {
		a, err := Get(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !slices.Contains(a.OldNames(), w) {
				t.Errorf("%s: %q is missing in %q", code, w, a.OldNames())
			}
		}
		if len(a.OldNames())+len(a.TradeNames()) > len(a.Also) {
			t.Errorf("%s: a name stands twice", code)
		}
	}
}

func TestTraitsAreAll(t *testing.T) {
	if len(Traits()) != len(traitBits) {
		t.Errorf("%d traits, want %d", len(Traits()), len(traitBits))
	}
	for _, x := range Traits() {
		if traitBits[x] == 0 {
			t.Errorf("%q is no trait", x)
		}
	}
}
