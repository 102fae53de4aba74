package look

import (
	"encoding/binary"
	"slices"
	"sync"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"example.org/driploop/assets"
)

// The type of the scripts that our family lacks. Nothing of it is read before a
// text needs it.
var (
	ChineseFont  fyne.Resource = fyne.NewStaticResource("NotoSansSC-Regular.ttf", assets.Chinese)
	ChineseBold  fyne.Resource = fyne.NewStaticResource("NotoSansSC-SemiBold.ttf", assets.ChineseSemiBold)
	JapaneseFont fyne.Resource = fyne.NewStaticResource("NotoSansJP-Regular.ttf", assets.Japanese)
	JapaneseBold fyne.Resource = fyne.NewStaticResource("NotoSansJP-SemiBold.ttf", assets.JapaneseSemiBold)
)

// The toolkit's own Noto Sans, for Cyrillic and Greek.
var (
	notoText   = sync.OnceValue(func() fyne.Resource { return plain(theme.DefaultTextFont()) })
	notoBold   = sync.OnceValue(func() fyne.Resource { return plain(theme.DefaultTextBoldFont()) })
	notoItalic = sync.OnceValue(func() fyne.Resource { return plain(theme.DefaultTextItalicFont()) })
)

// plain is a font whose glyphs stand for the letters as they are written, without its
// substitutions. With them the toolkit's shaper sets every Cyrillic і without its dot,
// as if an accent followed; no language here needs any of them. Their table is hidden
// by a name that no reader knows and that keeps the directory in order.
// Source: OpenType, table directory and GSUB.
func plain(font fyne.Resource) fyne.Resource {
	const header, record = 12, 16
	b := slices.Clone(font.Content())
	for i := range int(binary.BigEndian.Uint16(b[4:])) {
		if tag := b[header+record*i:][:4]; string(tag) == "GSUB" {
			tag[3] = 'Z'
		}
	}
	return fyne.NewStaticResource("plain-"+font.Name(), b)
}

// ScriptOf gives the fonts of a language whose script our family lacks, regular and
// bold, for Options; nil for the others. That of Ukrainian is the toolkit's own Noto
// Sans.
func ScriptOf(lang string) (regular, bold fyne.Resource) {
	switch lang {
	case "uk":
		return notoText(), notoBold()
	case "zh":
		return ChineseFont, ChineseBold
	case "ja":
		return JapaneseFont, JapaneseBold
	}
	return nil, nil
}

// FirstIdeograph begins what is looked for in the fonts of East Asian scripts: from
// here on there are radicals, kana, Han characters and their punctuation.
const FirstIdeograph = 0x2E80

// Western is how many of Spares are for what is below FirstIdeograph: those come
// first.
const Western = 2

// Spares are the fonts that have what our family lacks, in the order to be tried
// by a back-end that draws each glyph with the first that has it: Cyrillic and
// Greek, formulas, then Han characters as lang writes them first.
func Spares(lang string, bold bool) []fyne.Resource {
	text, chinese, japanese := notoText(), ChineseFont, JapaneseFont
	if bold {
		text, chinese, japanese = notoBold(), ChineseBold, JapaneseBold
	}
	if lang == "ja" {
		chinese, japanese = japanese, chinese
	}
	return []fyne.Resource{text, theme.DefaultTextMonospaceFont(), chinese, japanese}
}

// spareFor is the font for words that ours lacks and that are all of one script:
// a name in Japanese on a page in English. Nil where none has them.
func spareFor(style fyne.TextStyle, words string) fyne.Resource {
	var cyrillic, kana, ideographs bool
	for _, r := range words {
		cyrillic = cyrillic || unicode.Is(unicode.Cyrillic, r)
		kana = kana || unicode.In(r, unicode.Hiragana, unicode.Katakana)
		ideographs = ideographs || r >= FirstIdeograph
	}
	lang := ""
	if kana {
		lang = "ja"
	}
	fonts := Spares(lang, style.Bold)
	switch {
	case ideographs:
		fonts = fonts[Western:]
	case cyrillic && style.Italic && !style.Bold:
		fonts = []fyne.Resource{notoItalic()}
	case cyrillic:
		fonts = fonts[:1]
	default: // a sign: the toolkit puts it together
		return nil
	}
	for _, f := range fonts {
		if coverage(f).has(words) {
			return f
		}
	}
	return nil
}
