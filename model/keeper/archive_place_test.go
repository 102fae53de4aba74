package keeper

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"testing"

	"example.org/driploop/model/store"
)

// TestArchiveWithoutPlace: nothing of where a picture was taken is in the archive,
// neither in its rows nor in the picture, which is still the same picture; without
// being asked for, the place stays.
func TestArchiveWithoutPlace(t *testing.T) {
	from, to := openAt(t, t.TempDir()), openAt(t, t.TempDir())
	const secret = "behind the green door"
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	// A comment of a camera stands in for all that is beside the pixels.
	segment := append(binary.BigEndian.AppendUint16([]byte{0xff, 0xfe}, uint16(2+len(secret))), secret...)
	data := append(append(append([]byte{}, b.Bytes()[:2]...), segment...), b.Bytes()[2:]...)
	hash, err := from.originals.Put(data)
	if err != nil {
		t.Fatal(err)
	}
	photo := store.Row{"id": "p1", "tank": "t1", "hash": hash, "format": "jpeg", "bytes": int64(len(data)), "width": int64(40), "height": int64(30), "orientation": int64(1),
		"turned": int64(0), "taken_from": "", "latitude": "40.41650", "longitude": "-3.70256", "name": "a.jpg", "added": stamp(still())}
	if err := from.apply(t.Context(), store.Change{Label: "undo.tank_start", At: stamp(still()), Ops: []store.Op{
		{Table: "tank", After: store.Row{"id": "t1", "name": "Hall", "origin": "own", "created": stamp(still())}}, {Table: "photo", After: photo}}}); err != nil {
		t.Fatal(err)
	}
	tells := func(archive []byte) bool {
		return bytes.Contains(archive, []byte(secret)) || bytes.Contains(archive, []byte("40.41650")) || bytes.Contains(archive, []byte("3.70256"))
	}
	if !tells(archive(t, from)) {
		t.Error("the keeper's own archive lacks the place")
	}
	var out bytes.Buffer
	did, err := from.WriteArchive(t.Context(), &out, ArchiveOptions{Language: "en", WithoutPlace: true, Page: plainPage}, nil)
	if err != nil || did.Pictures != 1 || len(did.Lost) != 0 {
		t.Fatalf("%+v, %v", did, err)
	}
	if tells(out.Bytes()) {
		t.Error("the archive tells the place")
	}
	path := onDisk(t, out.Bytes())
	if p, err := to.ReadArchive(t.Context(), path); err != nil || p.Places {
		t.Errorf("%+v, %v", p, err)
	}
	took, err := to.TakeArchive(t.Context(), path, nil)
	if err != nil || took.Pictures != 1 || took.Lost != 0 {
		t.Fatalf("%+v, %v", took, err)
	}
	if r, err := to.VerifyPhotos(t.Context()); err != nil || !r.OK() || r.Sound != 1 {
		t.Errorf("%+v, %v", r, err)
	}
}
