package assets

import (
	"bytes"
	"testing"
)

// What is embedded is what it is said to be, with its licence beside it.
func TestEmbeddedFiles(t *testing.T) {
	for n, b := range map[string][]byte{"Regular": Regular, "Italic": Italic, "SemiBold": SemiBold, "Bold": Bold,
		"Chinese": Chinese, "ChineseSemiBold": ChineseSemiBold, "Japanese": Japanese, "JapaneseSemiBold": JapaneseSemiBold} {
		// Source: OpenType specification, table directory: 0x00010000 marks TrueType outlines.
		if !bytes.HasPrefix(b, []byte{0, 1, 0, 0}) {
			t.Errorf("%s is not a TrueType font", n)
		}
	}
	if !bytes.Contains(ScriptLicence, []byte("SIL OPEN FONT LICENSE Version 1.1")) || bytes.Contains(Chinese, []byte("Source Han")) {
		t.Error("Noto Sans has no licence beside it, or bears the reserved name")
	}
	if bytes.Equal(Regular, Bold) || bytes.Equal(SemiBold, Bold) {
		t.Error("two cuts are the same file")
	}
	for _, words := range []string{"SIL OPEN FONT LICENSE Version 1.1", "Atkinson Hyperlegible Next Project Authors"} {
		if !bytes.Contains(TypeLicence, []byte(words)) {
			t.Errorf("the licence lacks %q", words)
		}
	}
	// Source: PNG specification, signature and IHDR: width and height big-endian.
	if !bytes.HasPrefix(Icon, []byte("\x89PNG\r\n\x1a\n")) || !bytes.Equal(Icon[16:24], []byte{0, 0, 2, 0, 0, 0, 2, 0}) {
		t.Error("the icon is not a PNG of 512 by 512")
	}
}
