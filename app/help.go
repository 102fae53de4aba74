package main

import (
	"fmt"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
)

const indent = "  "

// help writes what the program, or one verb of it, does and takes.
func (c *call) help() {
	t := func(key working.Key) string { return c.words.T(key, nil) }
	line := func(texts ...string) { fmt.Fprintln(c.stdout, strings.Join(texts, "")) }
	flag := func(name string) {
		line(indent, t(working.Key("verb.option."+strings.ReplaceAll(strings.TrimLeft(name, "-"), "-", "_"))))
	}
	if v, ok := verbOf(c.verb); ok {
		line(t(working.Key("verb.line." + v.name)))
		line(t(working.Key("verb.does." + v.name)))
		line()
		line(t(working.Key("verb.help." + v.name)))
		if len(v.flags) > 0 {
			line()
		}
		for _, name := range v.flags {
			flag(name)
		}
	} else {
		line(c.words.T("verb.version", i18n.Args{"Version": version}))
		line(t("verb.about"))
		line()
		line(t("verb.line.window"))
		line(indent, t("verb.does.window"))
		for _, v := range verbs() {
			line(t(working.Key("verb.line." + v.name)))
			line(indent, t(working.Key("verb.does."+v.name)))
		}
	}
	line()
	folder, err := dataFolder("", c.env)
	if err != nil {
		folder = "-"
	}
	line(indent, c.words.T("verb.option.data", i18n.Args{"Variable": dataVariable, "Folder": folder}))
	line(indent, c.words.T("verb.option.desk", i18n.Args{"Variable": deskVariable}))
	line(indent, c.words.T("verb.option.lang", i18n.Args{"Languages": strings.Join(i18n.Languages(), ", ")}))
	line(indent, c.words.T("verb.option.units", i18n.Args{"Units": strings.Join(systems(), ", ")}))
	flag(flagHelp)
	flag(flagVersion)
	line()
	line(t("verb.codes"))
}
