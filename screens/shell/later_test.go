package shell_test

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/i18n"
	"example.org/driploop/model/care"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
)

// ofLater is a profile of format 3: with what every version knows, and with a part,
// members, fields, answers, a round and a way of feeding that this one does not.
const ofLater = `{"units":"metric","tank":"From later","mood":"calm","shop":{"name":"Corner shop","moon":"full"},"edition":4,
	"answers":[{"field":"tank.shape","kind":"choice","value":"box"},{"field":"tank.length","kind":"measure","value":"60","unit":"cm"},
		{"field":"tank.width","kind":"measure","value":"2","unit":"cubits"},{"field":"tank.edge","kind":"choice","value":"floating"},
		{"field":"tank.colour","kind":"choice","value":"red"},{"field":"room.low","kind":"measure","value":{"from":18,"to":20},"unit":"degc"}],
	"plan":[{"code":"look","rule":"FREQ=DAILY","at":"08:00"},{"code":"polish","rule":"FREQ=DAILY","at":"09:00"}],
	"feeding":{"fasting":["someday"]},"notes":{"en":"Feed sparingly."}}`

func writeLater(t *testing.T) string {
	t.Helper()
	parts := map[string]string{"profile.json": ofLater, "sound.opus": "a sound"}
	type line struct {
		Name string `json:"name"`
		Sum  string `json:"sha256"`
	}
	var lines []line
	for _, name := range []string{"profile.json", "sound.opus"} {
		lines = append(lines, line{name, fmt.Sprintf("%x", sha256.Sum256([]byte(parts[name])))})
	}
	m, err := json.Marshal(map[string]any{"format": "driploop-profile", "version": 3, "made_by": map[string]string{"program": "Driploop", "version": "9"}, "parts": lines})
	if err != nil {
		t.Fatal(err)
	}
	parts["manifest.json"] = string(m)
	path := filepath.Join(t.TempDir(), "later.dlprofile")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := zip.NewWriter(f)
	for _, name := range []string{"manifest.json", "profile.json", "sound.opus"} {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(parts[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// Of a profile of a later version the page shows what is understood, names each thing
// that is not, and guesses nothing: the tank that is taken has the answers that were
// shown, and no others of the shop's.
func TestProfileOfALaterVersion(t *testing.T) {
	path := writeLater(t)
	for _, lang := range []string{"en", "de"} {
		p := english()
		p.Lang = lang
		s := open(t, p)
		s.TakeFile(path)
		w := i18n.Speak(lang, "US", quantity.US)
		field := func(id care.FieldID) string {
			f, _ := care.FieldOf(id)
			return w.T(f.Label(), nil)
		}
		left := func(code working.Key, name string) string { return w.T(code, i18n.Args{"Name": name}) }
		got := s.Words()
		for _, want := range []string{"From later", "Corner shop", "Feed sparingly.", "60",
			w.T("find.slip.newer", i18n.Args{"Version": "3"}), left("find.slip.part", "sound.opus"), left("find.slip.member", "mood"), left("find.slip.member", "shop.moon"),
			left("find.slip.field", "tank.colour"), w.T("find.slip.not_understood", i18n.Args{"Field": field("tank.width")}),
			w.T("find.slip.not_understood", i18n.Args{"Field": field("tank.edge")}), w.T("find.slip.not_understood", i18n.Args{"Field": field("room.low")}),
			left("find.slip.round", "polish"), w.T("find.slip.feeding", nil)} {
			if !strings.Contains(got, want) {
				t.Errorf("%s: the page does not say %q:\n%s", lang, want, got)
			}
		}
		if strings.Contains(got, "floating") || strings.Contains(got, "cubits") {
			t.Errorf("%s: what is not understood is shown as if it were:\n%s", lang, got)
		}
		s.shoot(t, "later-"+lang)
		s.enter(t, "take")
		ctx := context.Background()
		tanks, err := s.k.Tanks(ctx)
		if err != nil || len(tanks) != 1 {
			t.Fatalf("%d tanks, %v", len(tanks), err)
		}
		r, err := s.k.Record(ctx, tanks[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		var theirs []string
		for id, a := range r.Answers {
			if a.Origin == care.FromProfile {
				theirs = append(theirs, string(id))
			}
		}
		if len(theirs) != 3 || r.System != quantity.Metric || r.Answers["tank.system"].Choice != string(quantity.Metric) || r.Answers["tank.length"].Measure.Number != "60" || r.Answers["tank.shape"].Choice != "box" {
			t.Errorf("%s: taken as the shop's: %q", lang, theirs)
		}
		s.Go(nav.Route{Place: nav.Start}) // where what happened to the list of tanks is undone
		s.Undo()
		if tanks, err = s.k.Tanks(ctx); err != nil || len(tanks) != 0 {
			t.Errorf("%s: after undo there are %d tanks, %v", lang, len(tanks), err)
		}
	}
}
