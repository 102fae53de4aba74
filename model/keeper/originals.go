package keeper

import (
	"os"
	"path/filepath"

	"example.org/driploop/model/durable"
)

// originalPath is where the original of a picture lies: that of abcd… in
// photos/ab/cd….
func (k *Keeper) originalPath(hash string) string {
	return filepath.Join(k.Dir(), "photos", hash[:2], hash[2:])
}

func (k *Keeper) openOriginal(hash string) (*os.File, error) { return os.Open(k.originalPath(hash)) }

// putOriginal keeps a picture; it is on the disk when this returns.
func (k *Keeper) putOriginal(hash string, data []byte) error {
	path := k.originalPath(hash)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return &durable.WriteError{Op: durable.OpCreate, Path: path, Err: err}
	}
	return durable.WriteFile(path, data, 0o644)
}
