package firstfill

import (
	"strings"
	"testing"
)

// The lead of what a step waits for is said once.
func TestWaitsSayTheirLeadOnce(t *testing.T) {
	got := strings.Join(shared([]string{"Espera a: Soporte.", "Espera a: Agua.", "Otra cosa."}), "\n")
	if want := "Espera a: Soporte.\nAgua.\nOtra cosa."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := shared(nil); len(got) != 0 {
		t.Errorf("nothing gives %q", got)
	}
}
