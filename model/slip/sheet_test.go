package slip

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/driploop/model/care"
	"example.org/driploop/model/code"
)

// Source: RFC 9285, sections 4.3 and 4.4.
func TestBase45(t *testing.T) {
	for plain, want := range map[string]string{"AB": "BB8", "Hello!!": "%69 VD92EX0", "base-45": "UJCLQE7W581", "ietf!": "QED8WEX0", "": ""} {
		if got := base45([]byte(plain)); got != want {
			t.Errorf("%q is written %q, want %q", plain, got, want)
		}
		if got, ok := unbase45(want); !ok || string(got) != plain {
			t.Errorf("%q is read %q", want, got)
		}
	}
	for _, s := range []string{"GGW", ":::", "A", "BB8A", "b", "BB8::"} { // 65536 and more, one character alone, none of the 45
		if got, ok := unbase45(s); ok {
			t.Errorf("%q is read as %q", s, got)
		}
	}
}

// painted is a code as a printer has it, three pixels a module.
func painted(t testing.TB, text string) image.Image {
	m, err := code.Encode(text)
	if err != nil {
		t.Fatalf("%d characters: %v", len(text), err)
	}
	const k = 3
	side := (m.Side + 2*code.Quiet) * k
	g := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			g.SetGray(x, y, color.Gray{Y: 250})
			if m.Dark(x/k-code.Quiet, y/k-code.Quiet) {
				g.SetGray(x, y, color.Gray{Y: 20})
			}
		}
	}
	return g
}

// crafted is a code of bytes that claim to be a deflated file.
func crafted(packed []byte, at, of int) string {
	return fmt.Sprintf("%s:%d/%d:%s:%s", sheetFormat, at, of, sumOf(packed), base45(packed))
}

func squeezed(t *testing.T, data []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	w, err := flate.NewWriterDict(&b, flate.BestCompression, dictionary)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A code comes from anybody: whatever is not as described is refused with its
// reason, and what was gathered before stays.
func TestHostileCodes(t *testing.T) {
	good, err := Codes(write(t, Profile{Units: "us", Tank: "a"}))
	if err != nil || len(good) != 1 {
		t.Fatalf("%q %v", good, err)
	}
	for text, want := range map[string]string{
		"":                                  string(CodeSheetOther),
		"https://example.org":               string(CodeSheetOther),
		"driploop1:1/1:00000000:AB":         string(CodeSheetOther),
		"DRIPLOOP":                          string(CodeSheetDamaged),
		"DRIPLOOP1:1/1:00000000:":           string(CodeSheetDamaged),
		"DRIPLOOP1:1/1:0000000G:BB8":        string(CodeSheetDamaged),
		"DRIPLOOP1:0/1:00000000:BB8":        string(CodeSheetDamaged),
		"DRIPLOOP1:2/1:00000000:BB8":        string(CodeSheetDamaged),
		"DRIPLOOP1:1/7:00000000:BB8":        string(CodeSheetDamaged),
		"DRIPLOOP1:1/99:00000000:BB8":       string(CodeSheetDamaged),
		"DRIPLOOP1:999/999:00000000:BB8":    string(CodeSheetDamaged),
		"DRIPLOOP1:1/1:00000000:GGW":        string(CodeSheetDamaged),
		"DRIPLOOP1:1/1:00000000:bb8":        string(CodeSheetDamaged),
		"DRIPLOOP1:1/1:00000000:BB8\nBB8":   string(CodeSheetDamaged),
		"DRIPLOOP2:1/1:00000000:BB8":        string(CodeSheetLater),
		"DRIPLOOP1:1/1:00000000:BB8 ":       string(CodeSheetDamaged),
		good[0] + strings.Repeat("0", 3000): string(CodeSheetDamaged),
	} {
		var s Sheet
		if got := codeOf(t, s.Add(text)); string(got) != want {
			t.Errorf("%.40q: %s, want %s", text, got, want)
		}
		if have, of := s.Have(); have != 0 || of != 0 {
			t.Errorf("%.40q left %d of %d", text, have, of)
		}
	}
	var s Sheet
	if _, err := s.File(); codeOf(t, err) != CodeSheetParts {
		t.Errorf("an empty sheet: %v", err)
	}
	two := crafted([]byte("ab"), 1, 2)
	if err := s.Add(two); err != nil {
		t.Fatal(err)
	}
	if _, err := s.File(); codeOf(t, err) != CodeSheetParts {
		t.Errorf("half a sheet: %v", err)
	}
	for name, text := range map[string]string{"another profile": good[0], "another piece at one place": strings.Replace(two, base45([]byte("ab")), base45([]byte("cd")), 1),
		"another number": strings.Replace(two, "1/2", "1/3", 1)} {
		if err := s.Add(text); codeOf(t, err) != CodeSheetMixed {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := s.Add(two); err != nil {
		t.Errorf("the same code again: %v", err)
	}
	for name, c := range map[string]struct {
		texts []string
		want  string
	}{
		"a piece changed":     {[]string{strings.Replace(good[0], ":", ":", 1)[:len(good[0])-3] + "000"}, string(CodeSheetDamaged)},
		"not deflated":        {[]string{crafted([]byte("this is no deflated file at all"), 1, 1)}, string(CodeSheetDamaged)},
		"something behind it": {[]string{crafted(append(squeezed(t, []byte("x")), "more"...), 1, 1)}, string(CodeSheetDamaged)},
		"a bomb":              {bomb(t), string(CodeUnpacked)},
	} {
		var s Sheet
		for _, text := range c.texts {
			if err := s.Add(text); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
		if file, err := s.File(); string(codeOf(t, err)) != c.want || file != nil {
			t.Errorf("%s: %d bytes, %v, want %s", name, len(file), err, c.want)
		}
	}
	// What the codes carry is read as any file: here one that is no profile.
	var other Sheet
	if err := other.Add(crafted(squeezed(t, []byte("words")), 1, 1)); err != nil {
		t.Fatal(err)
	}
	file, err := other.File()
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := read(file); codeOf(t, err) != CodeNotSlip {
		t.Errorf("no profile in the codes: %v", err)
	}
}

// bomb is codes of what unpacks to more than a sheet may.
func bomb(t *testing.T) []string {
	t.Helper()
	packed := squeezed(t, make([]byte, 4*maxSheet))
	var out []string
	n := (len(packed) + maxPiece - 1) / maxPiece
	for i := range n {
		piece := packed[i*maxPiece : min((i+1)*maxPiece, len(packed))]
		out = append(out, fmt.Sprintf("%s:%d/%d:%s:%s", sheetFormat, i+1, n, sumOf(packed), base45(piece)))
	}
	return out
}

// A profile with very long notes does not fit a sheet, and is refused rather than cut.
func TestSheetTooLong(t *testing.T) {
	notes := map[string]string{}
	for i := range 3 {
		var b strings.Builder
		for n := range 900 {
			sum := sha256.Sum256([]byte{byte(i), byte(n), byte(n >> 8)})
			b.WriteString(hex.EncodeToString(sum[:5]))
		}
		notes["a"+string(rune('a'+i))] = b.String()
	}
	_, err := Codes(write(t, Profile{Units: "us", Notes: notes}))
	var e *Error
	if !errors.As(err, &e) || e.Code != CodeSheetLong || e.High.X != MaxCodes {
		t.Errorf("long notes: %v", err)
	}
}

// The dictionary is part of the format: a changed one reads no sheet that was ever
// printed. The copy for other readers is the same. The hash is that of the first.
func TestDictionaryIsFixed(t *testing.T) {
	sum := sha256.Sum256(dictionary)
	if got := hex.EncodeToString(sum[:]); got != "7bea9990ed6f6ce3a7360f7bfafc3556107d40b43f77f369c6a5a9b3892b5ad6" {
		t.Errorf("the dictionary's SHA-256 is %s", got)
	}
	copied, err := os.ReadFile(filepath.Join("..", "..", "assets", "schema", "profile-codes.dictionary"))
	if err != nil || !bytes.Equal(copied, dictionary) {
		t.Errorf("the copy in assets differs: %v", err)
	}
	// A usual profile takes one code.
	p := Profile{Units: "metric", Region: "ES", Tank: "Starter", Answers: map[care.FieldID]care.Answer{}, Shop: Shop{Name: "The shop at the corner", Address: "1 High Street\nTown", Hours: "9 to 6"},
		Notes: map[string]string{"en": "Bring a sample of your water after two weeks.", "es": "Trae una muestra de tu agua a las dos semanas."}}
	for _, f := range care.Fields() {
		if a := (care.Answer{Origin: care.FromProfile}); Settable(f.ID) && f.Type == care.TypeChoice {
			a.Choice = f.Options[0]
			p.Answers[f.ID] = a
		}
	}
	if codes, err := Codes(write(t, p)); err != nil || len(codes) != 1 {
		t.Errorf("%d answers take %d codes, %v", len(p.Answers), len(codes), err)
	}
}

// FuzzSheet holds any text to the contract: a typed refusal, or a code that gives a
// typed refusal or a file.
func FuzzSheet(f *testing.F) {
	f.Add("DRIPLOOP1:1/1:00000000:BB8")
	f.Add("DRIPLOOP9:1/1:00000000:BB8")
	f.Fuzz(func(t *testing.T, text string) {
		var s Sheet
		var e *Error
		if err := s.Add(text); err != nil {
			if !errors.As(err, &e) {
				t.Fatalf("refused with %T", err)
			}
			return
		}
		if _, err := s.File(); err != nil && !errors.As(err, &e) {
			t.Fatalf("refused with %T", err)
		}
	})
}
