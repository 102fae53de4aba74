package shell

import (
	"cmp"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// folderEntry is a file or a folder as a folder lists it.
type folderEntry struct {
	name   string
	folder bool
	hidden bool // by its name
	size   int64
	at     time.Time // when it was changed last
}

// readFolder lists the folders in dir and the files with one of the endings. What
// cannot be looked at, such as a link to nowhere, is passed over. Errors: those of
// the system for dir itself; ctx's own.
func readFolder(ctx context.Context, dir string, endings endings) ([]folderEntry, error) {
	list, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	out := make([]folderEntry, 0, len(list))
	for i, d := range list {
		if i%256 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		name := d.Name()
		fits := endings[strings.ToLower(filepath.Ext(name))]
		link := d.Type()&fs.ModeSymlink != 0
		if !d.IsDir() && !fits && !link {
			continue
		}
		var info fs.FileInfo
		var err error
		if link {
			info, err = os.Stat(filepath.Join(dir, name))
		} else {
			info, err = d.Info()
		}
		if err != nil || !info.IsDir() && !(fits && info.Mode().IsRegular()) {
			continue
		}
		out = append(out, folderEntry{name, info.IsDir(), strings.HasPrefix(name, "."), info.Size(), info.ModTime()})
	}
	return out, nil
}

// sortEntries puts folders first, by name, then files, the newest first or by name.
func sortEntries(list []folderEntry, newest bool) {
	lower := make(map[string]string, len(list))
	for _, e := range list {
		lower[e.name] = strings.ToLower(e.name)
	}
	byName := func(a, b folderEntry) int {
		return cmp.Or(cmp.Compare(lower[a.name], lower[b.name]), cmp.Compare(a.name, b.name))
	}
	slices.SortFunc(list, func(a, b folderEntry) int {
		switch {
		case a.folder != b.folder:
			if a.folder {
				return -1
			}
			return 1
		case a.folder || !newest:
			return byName(a, b)
		}
		return cmp.Or(b.at.Compare(a.at), byName(a, b))
	})
}

// typedPath is what a person typed as the way to a folder or a file: ~ is their
// home, and what does not begin at the root begins at dir.
func typedPath(text, dir string) string {
	text = strings.Trim(strings.TrimSpace(text), `"`)
	if rest, ok := strings.CutPrefix(text, "~"); ok && (rest == "" || os.IsPathSeparator(rest[0])) {
		if home, err := os.UserHomeDir(); err == nil {
			text = home + rest
		}
	}
	if text == "" {
		return dir
	}
	if !filepath.IsAbs(text) {
		text = filepath.Join(dir, text)
	}
	return filepath.Clean(text)
}

// crumb is a folder on the way from the root.
type crumb struct{ name, path string }

// crumbsOf is the way to a folder, the root first.
func crumbsOf(dir string) []crumb {
	var out []crumb
	for dir = filepath.Clean(dir); ; {
		up := filepath.Dir(dir)
		if up == dir {
			return append([]crumb{{dir, dir}}, out...)
		}
		out = append([]crumb{{filepath.Base(dir), dir}}, out...)
		dir = up
	}
}

// rootOf is the one of roots in which a folder lies, the nearest where several hold
// it; empty where none does, as on a share of the network.
func rootOf(dir string, roots []string) string {
	best := ""
	for _, r := range roots {
		bare := strings.TrimRight(r, `/\`) // C: of C:\
		if len(dir) < len(bare) || !strings.EqualFold(dir[:len(bare)], bare) || len(r) < len(best) {
			continue
		}
		if rest := dir[len(bare):]; rest == "" || rest[0] == '/' || rest[0] == '\\' {
			best = r
		}
	}
	return best
}
