package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// keptFiles lists the databases that a person may go back to: snapshots and what a
// restore set aside.
func keptFiles(dir string) ([]string, error) {
	var out []string
	for _, s := range []string{filepath.Join(SnapshotFolder, "*.db"), filepath.Join(AsideFolder, "*", FileName)} {
		found, err := filepath.Glob(filepath.Join(globQuoted(dir), s))
		if err != nil {
			return nil, err
		}
		for _, path := range found {
			info, err := os.Stat(path)
			if errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular() {
				continue
			}
			out = append(out, path)
		}
	}
	return out, nil
}

// globQuoted takes the meaning off signs that a pattern would give them.
func globQuoted(path string) string {
	if filepath.Separator == '\\' { // where a pattern knows no quoting
		return path
	}
	var b []rune
	for _, r := range path {
		switch r {
		case '*', '?', '[', '\\':
			b = append(b, '\\')
		}
		b = append(b, r)
	}
	return string(b)
}
