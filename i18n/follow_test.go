package i18n

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
)

// followed names the English texts that the translations were last brought in line
// with: a key and a hash of its text each line. Without it a sentence added in
// English would be missing in eleven languages and nobody would see it.
const followed = "followed.tsv"

// english is what followed should say.
func english() map[string]string {
	out := map[string]string{}
	for key, m := range in(source).messages {
		out[key] = hashOf(strings.Join([]string{m.Zero, m.One, m.Two, m.Few, m.Many, m.Other}, "\x00"))
	}
	return out
}

// A text that changed in English has its translations looked at again.
func TestTranslationsFollowTheEnglish(t *testing.T) {
	now := english()
	if *update {
		var b strings.Builder
		for _, key := range sortedKeys(now) {
			fmt.Fprintf(&b, "%s\t%s\n", key, now[key])
		}
		if err := os.WriteFile(followed, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(followed)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	was := map[string]string{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		key, hash, _ := strings.Cut(lines.Text(), "\t")
		was[key] = hash
	}
	for _, why := range behind(was, now) {
		t.Error(why)
	}
	if len(was) < 1000 {
		t.Errorf("%s names only %d messages", followed, len(was))
	}
}

// behind tells what differs between the English that was followed and that of now.
func behind(was, now map[string]string) []string {
	var out []string
	const then = "bring every language in line, then go test ./i18n -run Follow -update"
	for _, key := range sortedKeys(now) {
		switch hash, known := was[key]; {
		case !known:
			out = append(out, fmt.Sprintf("%q is new: %s", key, then))
		case hash != now[key]:
			out = append(out, fmt.Sprintf("%q changed in English: %s", key, then))
		}
	}
	for _, key := range sortedKeys(was) {
		if _, ok := now[key]; !ok {
			out = append(out, fmt.Sprintf("%q is gone: go test ./i18n -run Follow -update", key))
		}
	}
	return out
}

func TestWhatIsBehindIsFound(t *testing.T) {
	now := map[string]string{"a": "1", "b": "2", "c": "3"}
	if got := behind(now, now); len(got) != 0 {
		t.Errorf("nothing changed, and found %q", got)
	}
	if got := behind(map[string]string{"a": "1", "b": "0", "d": "4"}, now); len(got) != 3 {
		t.Errorf("one changed, one new, one gone: %q", got)
	}
}
