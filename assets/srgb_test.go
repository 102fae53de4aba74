package assets

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
)

// The profile means the colours of sRGB. Source: Little CMS, its own sRGB, in CIE L*a*b*
// to a tenth; it is asked in the drill.
func TestProfileIsSRGB(t *testing.T) {
	p := SRGB()
	if size := int(p[0])<<24 | int(p[1])<<16 | int(p[2])<<8 | int(p[3]); size != len(p) || string(p[36:40]) != "acsp" {
		t.Fatalf("%d bytes say that they are %d", len(p), size)
	}
	if !drill.Listed() {
		return
	}
	file := filepath.Join(t.TempDir(), "ours.icc")
	if err := os.WriteFile(file, p, 0o600); err != nil {
		t.Fatal(err)
	}
	lab := func(profile, colour string) (out [3]float64) {
		cmd := exec.Command("transicc", "-n", "-i", profile, "-o", "*Lab")
		cmd.Stdin = strings.NewReader(colour)
		said, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		f := strings.Fields(string(said))
		for i := range out {
			if _, err := fmt.Sscan(f[len(f)-3+i], &out[i]); err != nil {
				t.Fatalf("%s: %v", said, err)
			}
		}
		return out
	}
	for _, c := range []string{"255 255 255", "0 0 0", "255 0 0", "0 255 0", "0 0 255", "128 128 128", "12 130 200", "250 240 10"} {
		c = strings.ReplaceAll(c, " ", "\n") + "\n"
		ours, theirs := lab(file, c), lab("*sRGB", c)
		for i := range ours {
			if math.Abs(ours[i]-theirs[i]) > 0.1 {
				t.Errorf("%q: %v, want %v", c, ours, theirs)
			}
		}
	}
}
