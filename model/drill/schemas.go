package drill

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The validator of JSON Schema that is asked, from the npm registry, and its formats.
const (
	ajv        = "ajv@8.20.0"
	ajvFormats = "ajv-formats@3.0.1"
)

// Text is a JSON text with the schema of assets/schema that describes it, and whether
// that schema is to take it.
type Text struct {
	Schema string `json:"schema"` // its file's name before .schema.json
	About  string `json:"about"`
	Body   string `json:"body"`
	Good   bool   `json:"good"`
}

// Schemas has a validator that is not ours judge texts, and reports each that it judges
// otherwise. root is the top folder. It needs node and npm, which "make drill" sees to,
// and installs the validator into a folder of its own for the time of the test.
func Schemas(t testing.TB, root string, texts []Text) {
	t.Helper()
	dir := t.TempDir()
	install := exec.Command("npm", "install", "--prefix", dir, "--no-audit", "--no-fund", "--ignore-scripts", "--silent", ajv, ajvFormats)
	if said, err := install.CombinedOutput(); err != nil {
		t.Fatalf("npm: %v\n%s", err, said)
	}
	in, err := json.Marshal(texts)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", filepath.Join(root, "testdata", "outside", "schemas.js"), filepath.Join(root, "assets", "schema"))
	cmd.Env = append(os.Environ(), "NODE_PATH="+filepath.Join(dir, "node_modules"))
	cmd.Stdin = bytes.NewReader(in)
	out, err := cmd.Output()
	if err != nil {
		var ended *exec.ExitError
		if errors.As(err, &ended) {
			t.Fatalf("node: %v\n%s", err, ended.Stderr)
		}
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	var judged, refused, wrong int
	if _, err := fmt.Sscanf(lines[len(lines)-1], "judged %d refused %d wrong %d", &judged, &refused, &wrong); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	bad := 0
	for _, x := range texts {
		if !x.Good {
			bad++
		}
	}
	for _, l := range lines[:len(lines)-1] {
		t.Error(l)
	}
	if judged != len(texts) || wrong == 0 && refused != bad {
		t.Errorf("%d texts, %d of them bad: %s", len(texts), bad, lines[len(lines)-1])
	}
	Tally(t, "schema", fmt.Sprintf("texts judged by ajv as we do, %d of them refused", refused), judged, wrong)
}
