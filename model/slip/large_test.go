package slip

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"testing"
)

// manyPictures is an archive of more parts than a plain ZIP can count, so that it
// has the larger records.
func manyPictures(t *testing.T, n int) []byte {
	t.Helper()
	var b bytes.Buffer
	w := NewArchiveWriter(&b)
	for i := range n {
		data := fmt.Appendf(nil, "picture %d", i)
		sum := sha256.Sum256(data)
		if _, err := w.Add(PhotoName(hex.EncodeToString(sum[:]), "jpeg"), bytes.NewReader(data)); err != nil {
			t.Fatal(err)
		}
	}
	for _, table := range archiveTables {
		if err := w.AddTable(table, nil); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(ArchiveHead{Language: "en"}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestArchiveOfManyPictures: beyond 65,535 parts it is read as it was written, and a
// lie in any of the larger records is found.
func TestArchiveOfManyPictures(t *testing.T) {
	const n = 66_000
	whole := manyPictures(t, n)
	a, found, err := ReadArchive(bytes.NewReader(whole), int64(len(whole)))
	if err != nil || len(found) != 0 || len(a.Originals) != n {
		t.Fatalf("%v, %v", found, err)
	}
	var got bytes.Buffer
	if err := a.Original(a.Originals[n-1], &got); err != nil || got.String() != fmt.Sprintf("picture %d", n-1) {
		t.Errorf("the last picture is %q, %v", got.String(), err)
	}
	at := len(whole) - sizeEnd - sizeLocator - sizeEnd64
	for _, lie := range []struct {
		name string
		off  int
		size int
		x    uint64
	}{
		{"mark", 0, 4, 1}, {"length of the record", 4, 8, 1}, {"disk", 16, 4, 1}, {"parts on this disk", 24, 8, n}, {"parts", 32, 8, n}, {"parts beyond all", 32, 8, 1 << 63},
		{"length of the list", 40, 8, 1}, {"place of the list", 48, 8, 1}, {"mark of the locator", sizeEnd64, 4, 1}, {"place of the record", sizeEnd64 + 8, 8, 1}, {"disks", sizeEnd64 + 16, 4, 2},
	} {
		b := bytes.Clone(whole)
		if lie.size == 4 {
			binary.LittleEndian.PutUint32(b[at+lie.off:], uint32(lie.x))
		} else {
			binary.LittleEndian.PutUint64(b[at+lie.off:], lie.x)
		}
		if _, err := directory(bytes.NewReader(b), int64(len(b)), archiveLimits); err == nil {
			t.Errorf("%s: a lie was believed", lie.name)
		}
	}
}
