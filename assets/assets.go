package assets

import _ "embed"

// Regular is Atkinson Hyperlegible Next, weight 400, TrueType.
//
//go:embed type/AtkinsonHyperlegibleNext-Regular.ttf
var Regular []byte

// Italic is Atkinson Hyperlegible Next, weight 400, italic, TrueType; used for
// the scientific names of animals and plants.
//
//go:embed type/AtkinsonHyperlegibleNext-Italic.ttf
var Italic []byte

// SemiBold is Atkinson Hyperlegible Next, weight 600, TrueType.
//
//go:embed type/AtkinsonHyperlegibleNext-SemiBold.ttf
var SemiBold []byte

// Bold is Atkinson Hyperlegible Next, weight 700, TrueType.
//
//go:embed type/AtkinsonHyperlegibleNext-Bold.ttf
var Bold []byte

// Chinese and ChineseSemiBold are Noto Sans SC, weights 400 and 600, TrueType,
// cut down to Latin and the characters of GB 2312.
//
//go:embed type/NotoSansSC-Regular.ttf
var Chinese []byte

//go:embed type/NotoSansSC-SemiBold.ttf
var ChineseSemiBold []byte

// Japanese and JapaneseSemiBold are Noto Sans JP, weights 400 and 600, TrueType,
// cut down to Latin, kana and the characters of JIS X 0208.
//
//go:embed type/NotoSansJP-Regular.ttf
var Japanese []byte

//go:embed type/NotoSansJP-SemiBold.ttf
var JapaneseSemiBold []byte

// ScriptLicence is the SIL Open Font License 1.1 of Noto Sans SC and JP, plain text
// in English.
//
//go:embed type/OFL-NotoSans.txt
var ScriptLicence []byte

// TypeLicence is the SIL Open Font License 1.1 under which the type family is
// embedded, plain text in English.
//
//go:embed type/OFL.txt
var TypeLicence []byte

// Icon is the application's icon, a PNG of 512 by 512 pixels.
//
//go:embed icon.png
var Icon []byte

// WindowIcon is the same at 128 by 128 pixels, for the frame of a window: the
// system is sent every pixel of it before the window shows.
//
//go:embed icon-window.png
var WindowIcon []byte
