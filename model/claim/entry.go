package claim

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strings"
)

// entryID names the entry, the types and the icon. It is not the program's own ID: a
// package of the program brings an entry of that name, which is left alone.
func (c Claim) entryID() string { return c.ID + ".Files" }

// entry is the desktop entry: in no menu, for it is there for files alone.
func (c Claim) entry() []byte {
	var b bytes.Buffer
	line := func(key, value string) { fmt.Fprintf(&b, "%s=%s\n", key, escaped(value)) }
	b.WriteString("[Desktop Entry]\nType=Application\nVersion=1.0\n")
	line("Name", c.Name)
	line("Comment", c.About["en"])
	for _, lang := range others(c.About) {
		line("Comment["+strings.ReplaceAll(lang, "-", "_")+"]", c.About[lang])
	}
	line("TryExec", c.Program[0])
	line("Exec", command(c.Program)+" -- %F")
	line("Icon", c.entryID())
	line("NoDisplay", "true")
	line("Terminal", "false")
	var types []string
	for _, k := range c.Kinds {
		types = append(types, k.Type+";")
	}
	line("MimeType", strings.Join(types, ""))
	return b.Bytes()
}

// others are the languages of a text beside English, in order.
func others(by map[string]string) []string {
	var out []string
	for lang, text := range by {
		if lang != "en" && text != by["en"] {
			out = append(out, lang)
		}
	}
	slices.Sort(out)
	return out
}

// escaped writes a value of a desktop entry. Source: Desktop Entry Specification 1.5,
// "Possible value types".
func escaped(s string) string {
	return strings.NewReplacer(`\`, `\\`, "\n", `\n`, "\r", `\r`, "\t", `\t`).Replace(s)
}

// command writes the words of a command line, each in quotes. Source: Desktop Entry
// Specification 1.5, "The Exec key".
func command(words []string) string {
	quote := strings.NewReplacer(`\`, `\\`, `"`, `\"`, "`", "\\`", `$`, `\$`, `%`, `%%`)
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = `"` + quote.Replace(w) + `"`
	}
	return strings.Join(out, " ")
}

// Types of the Shared MIME-info Database.
type (
	mimeInfo struct {
		XMLName xml.Name   `xml:"http://www.freedesktop.org/standards/shared-mime-info mime-info"`
		Types   []mimeType `xml:"mime-type"`
	}
	mimeType struct {
		Type     string    `xml:"type,attr"`
		Comments []comment `xml:"comment"`
		Icon     named     `xml:"icon"`
		Above    typed     `xml:"sub-class-of"`
		Magic    *magic    `xml:"magic"`
		Glob     pattern   `xml:"glob"`
	}
	comment struct {
		Lang string `xml:"http://www.w3.org/XML/1998/namespace lang,attr,omitempty"`
		Text string `xml:",chardata"`
	}
	named struct {
		Name string `xml:"name,attr"`
	}
	typed struct {
		Type string `xml:"type,attr"`
	}
	pattern struct {
		Pattern string `xml:"pattern,attr"`
	}
	magic struct {
		Priority int   `xml:"priority,attr"`
		Match    match `xml:"match"`
	}
	match struct {
		Type   string `xml:"type,attr"`
		Value  string `xml:"value,attr"`
		Offset string `xml:"offset,attr"`
		And    *match `xml:"match"`
	}
)

// The beginning of a slip: the mark of a ZIP, the name of its first part, and in that
// part, which is stored as it is, the format. Sources: PKWARE APPNOTE 6.3, 4.3.7; the
// schema of the manifest. The priority is above that of a ZIP, which is 40, and what
// it is searched in is judgement.
const (
	zipMark       = `PK\003\004`
	nameAt        = "30"
	firstPart     = "manifest.json"
	formatAt      = "43:120"
	magicPriority = 60
)

// types is the file of types.
func (c Claim) types() ([]byte, error) {
	var info mimeInfo
	for _, k := range c.Kinds {
		t := mimeType{Type: k.Type, Comments: []comment{{"", k.Names["en"]}}, Icon: named{c.entryID()}, Above: typed{"application/zip"}, Glob: pattern{"*" + k.Ending}}
		for _, lang := range others(k.Names) {
			t.Comments = append(t.Comments, comment{lang, k.Names[lang]})
		}
		if k.Format != "" {
			t.Magic = &magic{magicPriority, match{"string", zipMark, "0", &match{"string", firstPart, nameAt, &match{"string", `"` + k.Format + `"`, formatAt, nil}}}}
		}
		info.Types = append(info.Types, t)
	}
	b, err := xml.MarshalIndent(info, "", "  ")
	return append([]byte(xml.Header), append(b, '\n')...), err
}
