package main

import (
	"context"
	"os/exec"
	"strings"
)

// calmSystem reports whether the system asks for less motion; false where it does
// not say.
func calmSystem(ctx context.Context, _ Env) bool {
	said, err := exec.CommandContext(ctx, "/usr/bin/defaults", "read", "com.apple.universalaccess", "reduceMotion").Output()
	return err == nil && strings.TrimSpace(string(said)) == "1"
}
