package main

import (
	_ "codeberg.org/go-pdf/fpdf"
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/driver/software"
	_ "fyne.io/fyne/v2/test"
	_ "fyne.io/fyne/v2/widget"
	_ "fyne.io/fyne/v2/dialog"
	_ "github.com/BurntSushi/toml"
	_ "github.com/google/uuid"
	_ "github.com/mattn/go-sqlite3"
	_ "github.com/nicksnyder/go-i18n/v2/i18n"
	_ "github.com/pressly/goose/v3"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/santhosh-tekuri/jsonschema/v6"
	_ "golang.org/x/image/font/opentype"
	_ "golang.org/x/image/vector"
	_ "golang.org/x/text/message"
	_ "gonum.org/v1/gonum/mat"
	_ "gonum.org/v1/gonum/stat"
	_ "gonum.org/v1/gonum/optimize"
	_ "pgregory.net/rapid"
)

func main() {}
