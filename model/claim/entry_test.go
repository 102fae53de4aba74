package claim

import (
	"bytes"
	"encoding/xml"
	"strings"
	"testing"
)

// sample is a claim with everything in it that wants care.
func sample(data string) Claim {
	return Claim{ID: "org.example.Tank", Name: "Tank", About: map[string]string{"en": "Opens things", "de": "Öffnet Dinge", "pt-BR": "Abre coisas"},
		Program: []string{`/opt/a "b" $c\d%e` + "`/tank", "--data", "/home/x y"}, Icon: []byte("\x89PNG"), Data: data,
		Kinds: []Kind{{Ending: ".tkone", Type: "application/vnd.example.one+zip", Format: "tank-one", Code: "one", Names: map[string]string{"en": "One <thing>", "uk": "Річ"}},
			{Ending: ".tktwo", Type: "application/vnd.example.two+zip", Code: "two", Names: map[string]string{"en": "Two"}}}}
}

// The command is quoted twice, as the words of a command and as a value. Source:
// Desktop Entry Specification 1.5, "The Exec key", whose rules were applied by hand.
func TestEntry(t *testing.T) {
	got := string(sample("").entry())
	for _, want := range []string{
		`Exec="/opt/a \\"b\\" \\$c\\\\d%%e` + "\\\\`" + `/tank" "--data" "/home/x y" -- %F` + "\n",
		`TryExec=/opt/a "b" $c\\d%e` + "`/tank\n",
		"Comment=Opens things\nComment[de]=Öffnet Dinge\nComment[pt_BR]=Abre coisas\n",
		"MimeType=application/vnd.example.one+zip;application/vnd.example.two+zip;\n",
		"NoDisplay=true\n", "Icon=org.example.Tank.Files\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the entry has not %q:\n%s", want, got)
		}
	}
	if lines := strings.Count(string(sample("").entry()), "\n"); lines != strings.Count(strings.TrimSpace(got), "\n")+1 {
		t.Error("a value broke its line")
	}
}

// The types are XML of the namespace that the Shared MIME-info Database names, with a
// beginning to look for where there is one.
func TestTypes(t *testing.T) {
	b, err := sample("").types()
	if err != nil {
		t.Fatal(err)
	}
	var back mimeInfo
	if err := xml.NewDecoder(bytes.NewReader(b)).Decode(&back); err != nil {
		t.Fatal(err)
	}
	if len(back.Types) != 2 || back.Types[0].Glob.Pattern != "*.tkone" || back.Types[0].Comments[0].Text != "One <thing>" || back.Types[0].Comments[1].Lang != "uk" {
		t.Errorf("%+v", back.Types)
	}
	if back.Types[1].Magic != nil || back.Types[0].Magic == nil || back.Types[0].Magic.Match.And.And.Value != `"tank-one"` {
		t.Errorf("%s", b)
	}
}
