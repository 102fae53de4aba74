package slip

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/code"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/working"
)

// sheetKey signs what the tests put on sheets.
var sheetKey = ed25519.NewKeyFromSeed(bytes.Repeat([]byte{7}, ed25519.SeedSize))

// A sheetKind is a kind of slip that travels by paper. made gives the file of the slip
// of a seed, and same tells how a file that came back differs from it when it is read.
type sheetKind struct {
	what string
	made func(seed int) (file []byte, same func(file []byte) error, err error)
	// long is whether some of them may be too long for a sheet.
	long bool
}

// sheetKinds are all of them.
func sheetKinds() []sheetKind {
	profiles, visits, replies := rapid.Custom(someProfile), rapid.Custom(someVisit), rapid.Custom(someReply)
	return []sheetKind{
		{"profiles", func(seed int) ([]byte, func([]byte) error, error) {
			p := profiles.Example(seed)
			var b bytes.Buffer
			err := WriteProfile(&b, p, sheetKey)
			p.Signature = SignatureOf(sheetKey)
			return b.Bytes(), sameAs(p, func(b []byte) (Profile, []working.Finding, error) {
				return ReadProfile(bytes.NewReader(b), int64(len(b)))
			}, 0), err
		}, false},
		{"visits", func(seed int) ([]byte, func([]byte) error, error) {
			v := visits.Example(seed).WithoutPictures()
			if seed%5 == 0 {
				v.Questions = []string{wordy(seed, MaxQuestion), wordy(seed+1, MaxQuestion), "Q"}
			}
			b, err := writeVisit(v, sheetKey)
			v.Signature = SignatureOf(sheetKey)
			return b, sameAs(v, readVisit, len(v.More)), err
		}, true},
		{"replies", func(seed int) ([]byte, func([]byte) error, error) {
			r := replies.Example(seed)
			if seed%5 == 0 {
				r.Advice = map[string]string{"en": wordy(seed, 2000), "es": "A"}
			}
			b, err := writeReply(r, sheetKey)
			r.Signature = SignatureOf(sheetKey)
			return b, sameAs(r, readReply, len(r.More)), err
		}, true},
	}
}

// wordy is a text of n characters that hardly packs, so that codes are several.
func wordy(seed, n int) string {
	r := rand.New(rand.NewPCG(uint64(seed), 8))
	b := make([]rune, n)
	for i := range b {
		b[i] = rune('!' + r.IntN(90))
	}
	return string(b)
}

// sameAs reads a file and holds it to what was written, with as many findings as there
// are members of a later version.
func sameAs[T any](want T, read func([]byte) (T, []working.Finding, error), findings int) func([]byte) error {
	return func(file []byte) error {
		got, found, err := read(file)
		if err != nil || len(found) != findings || !reflect.DeepEqual(got, want) {
			return fmt.Errorf("%v %v: %+v\ncame back as %+v", err, found, want, got)
		}
		return nil
	}
}

// codesOf are the codes of the slip of a seed; none where it is too long for a sheet and
// may be.
func (k sheetKind) codesOf(t testing.TB, seed int) (file []byte, same func([]byte) error, texts []string) {
	t.Helper()
	file, same, err := k.made(seed)
	if err != nil {
		t.Fatalf("%s, seed %d: %v", k.what, seed, err)
	}
	texts, err = Codes(file)
	var e *Error
	if k.long && errors.As(err, &e) && e.Code == CodeSheetLong {
		return file, same, nil
	}
	if err != nil {
		t.Fatalf("%s, seed %d: %d bytes: %v", k.what, seed, len(file), err)
	}
	return file, same, texts
}

// Slips of each kind, each the one of its seed, through the file, its codes and their
// pictures and back: the same file bit for bit, and so the same slip with the same
// signature. The codes are read in any order.
func TestSheetRoundTrip(t *testing.T) {
	for _, k := range sheetKinds() {
		count := 500
		if k.what != "profiles" {
			count = drill.Count(40, 500)
		}
		most, several, long := 0, 0, 0
		for seed := range count {
			want, same, codes := k.codesOf(t, seed)
			if codes == nil {
				long++
				continue
			}
			most = max(most, len(codes))
			if len(codes) > 1 {
				several++
			}
			slices.Reverse(codes)
			var s Sheet
			for i, text := range codes {
				if s.Whole() {
					t.Fatalf("%s, seed %d: whole before its last code", k.what, seed)
				}
				read, err := code.Read(context.Background(), painted(t, text), nil)
				if err != nil || len(read) != 1 || read[0] != text {
					t.Fatalf("%s, seed %d, code %d: %q %v", k.what, seed, i, read, err)
				}
				if err := s.Add(read[0]); err != nil {
					t.Fatalf("%s, seed %d: %v", k.what, seed, err)
				}
			}
			file, err := s.File()
			if err != nil || !bytes.Equal(file, want) {
				t.Fatalf("%s, seed %d: %d bytes came back of %d: %v", k.what, seed, len(file), len(want), err)
			}
			if err := same(file); err != nil {
				t.Fatalf("%s, seed %d: %v", k.what, seed, err)
			}
		}
		t.Logf("%d %s: %d in several codes, %d at most, %d too long for a sheet", count, k.what, several, most, long)
		drill.Tally(t, "D2-50", k.what+" signed, through their file and the pictures of its codes, and back", count-long, 0)
		if most < 2 || several < count/25 || long > count/20 {
			t.Errorf("%s: %d had several codes, at most %d, and %d had none: the parting was hardly tried", k.what, several, most, long)
		}
	}
}
