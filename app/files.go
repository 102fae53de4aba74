package main

import (
	"os"
	"strings"

	"example.org/driploop/assets"
	"example.org/driploop/i18n"
	"example.org/driploop/model/claim"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
)

// filesClaim is how the system would open our files with this program and its
// daybook, or nil where it takes no such record or the program cannot tell where it
// lies.
func (c *call) filesClaim() *claim.Claim {
	if !claim.Can() {
		return nil
	}
	program, err := os.Executable()
	if err != nil {
		return nil
	}
	data := ""
	if c.env.OS != "windows" {
		if data, err = sharedData(c.env); err != nil {
			return nil
		}
	}
	words := []string{program}
	if dir, usual := c.daybookFolder(); dir != usual {
		words = append(words, flagData, dir)
	}
	out := claimOf(words, data)
	out.Lang = c.words.Language()
	return &out
}

// daybookFolder is where the daybook is, and where it is when nobody says otherwise;
// both are empty where that cannot be told.
func (c *call) daybookFolder() (dir, usual string) {
	dir, err := dataFolder(c.data, c.env)
	if err != nil {
		return "", ""
	}
	plain := c.env
	plain.Getenv = func(name string) string {
		if name == dataVariable {
			return ""
		}
		return c.env.Getenv(name)
	}
	usual, _ = dataFolder("", plain) // no home: then it is elsewhere
	return dir, usual
}

// claimOf is what the system is told, by the program's words and the folder of data.
func claimOf(program []string, data string) claim.Claim {
	c := claim.Claim{ID: appID, Name: appName, Program: program, Data: data, Icon: assets.WindowIcon, About: inAll("page.files.all")}
	for _, k := range slip.FileKinds() {
		code := strings.TrimPrefix(k.Format, folderName+"-")
		one := claim.Kind{Ending: k.Ending, Type: k.Media, Code: code, Names: inAll(working.Key("page.files.kind_" + code))}
		if k.First {
			one.Format = k.Format
		}
		c.Kinds = append(c.Kinds, one)
	}
	return c
}

// inAll is a message in every language that is offered.
func inAll(key working.Key) map[string]string {
	out := map[string]string{}
	for _, lang := range i18n.Languages() {
		out[lang] = i18n.Speak(lang, "", quantity.Metric).T(key, nil)
	}
	return out
}

// tourClaim is a claim in a folder of the tour's own.
func tourClaim(dir string) *claim.Claim {
	if !claim.Can() {
		return nil
	}
	c := claimOf([]string{appName}, dir)
	return &c
}
