package slip

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// devices are names that Windows keeps for devices, with any ending. Source:
// Microsoft, "Naming Files, Paths, and Namespaces".
var devices = []string{"con", "prn", "aux", "nul", "conin$", "conout$",
	"com0", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9", "com¹", "com²", "com³",
	"lpt0", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9", "lpt¹", "lpt²", "lpt³"}

// checkNames refuses names that could lead out of a folder or be taken for
// another, on any system. Names are never used as paths here; whoever unpacks
// the file by hand is kept safe all the same.
func checkNames(parts []entry, lim limits) error {
	seen := make(map[string]bool, len(parts))
	for _, e := range parts {
		if err := checkName(e, lim); err != nil {
			return err
		}
		k := folded(e.name)
		if seen[k] {
			return refuse(CodeTwins, e.name)
		}
		seen[k] = true
	}
	for _, e := range parts { // a file and a folder of one name
		for at := strings.LastIndexByte(e.name, '/'); at > 0; at = strings.LastIndexByte(e.name[:at], '/') {
			if seen[folded(e.name[:at])] {
				return refuse(CodeTwins, e.name)
			}
		}
	}
	return nil
}

// folded is a name as a disk sees it that tells neither case nor width apart.
func folded(name string) string { return norm.NFC.String(cases.Fold().String(norm.NFKC.String(name))) }

func checkName(e entry, lim limits) error {
	name := e.name
	if len(name) > lim.name {
		return above(CodeNameLong, name, float64(lim.name))
	}
	bad := refuse(CodeName, name)
	if name == "" || !utf8.ValidString(name) || !norm.NFC.IsNormalString(name) {
		return bad
	}
	for _, r := range name {
		if r > unicode.MaxASCII && e.flags&flagUTF8 == 0 { // in which alphabet?
			return bad
		}
	}
	if strings.HasSuffix(name, "/") && name != "/" { // a folder by itself
		return refuse(CodeSpecial, name)
	}
	// Some disks and some programs make plain characters of wide ones.
	if !harmless(name) || !harmless(norm.NFKC.String(name)) {
		return bad
	}
	if strings.Count(name, "/") >= lim.depth {
		return above(CodeDepth, name, float64(lim.depth))
	}
	return nil
}

// harmless reports whether a name leads nowhere, names no device and shows all of its
// characters.
func harmless(name string) bool {
	for _, r := range name {
		if !unicode.IsPrint(r) || unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) || strings.ContainsRune(`\:*?"<>|`, r) {
			return false
		}
	}
	for n := range strings.SplitSeq(name, "/") {
		if n == "" || n == "." || n == ".." || strings.HasSuffix(n, ".") || strings.HasSuffix(n, " ") || strings.HasPrefix(n, " ") {
			return false
		}
		stem, _, _ := strings.Cut(strings.ToLower(n), ".")
		if slices.Contains(devices, strings.TrimRight(stem, " ")) {
			return false
		}
	}
	return true
}
