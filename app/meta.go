package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"example.org/driploop/assets"
)

// What the program is called. FyneApp.toml says the same, for packaging.
const (
	appID      = "org.driploop.Driploop"
	appName    = "Driploop"
	folderName = "driploop"
	version    = "0.6.0"
	build      = 1
)

// metadata is set in the program itself, so that a plain build has it too.
func metadata() fyne.AppMetadata {
	return fyne.AppMetadata{
		ID: appID, Name: appName, Version: version, Build: build,
		Icon:       fyne.NewStaticResource("icon.png", assets.Icon),
		Migrations: map[string]bool{"fyneDo": true},
	}
}

func init() { app.SetMetadata(metadata()) }
