package main

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/BurntSushi/toml"

	"example.org/driploop/model/slip"
)

// The packager's file and the program say the same.
func TestPackagerAndProgramAgree(t *testing.T) {
	var file struct {
		Details struct {
			Icon, Name, ID, Version string
			Build                   int
		}
		Migrations map[string]bool
		CanOpen    struct{ MimeTypes string }
	}
	if _, err := toml.DecodeFile("../FyneApp.toml", &file); err != nil {
		t.Fatal(err)
	}
	m := metadata()
	if d := file.Details; d.ID != m.ID || d.Name != m.Name || d.Version != m.Version || d.Build != m.Build {
		t.Errorf("FyneApp.toml says %+v, the program %+v", d, m)
	}
	if len(file.Migrations) != len(m.Migrations) || file.Migrations["fyneDo"] != m.Migrations["fyneDo"] || !m.Migrations["fyneDo"] {
		t.Errorf("migrations: FyneApp.toml %v, the program %v", file.Migrations, m.Migrations)
	}
	types := ""
	for _, k := range slip.FileKinds() {
		types += k.Media + ";"
	}
	if file.CanOpen.MimeTypes != types {
		t.Errorf("FyneApp.toml opens %q, the program %q", file.CanOpen.MimeTypes, types)
	}
	icon, err := os.ReadFile(filepath.Join("..", filepath.FromSlash(file.Details.Icon)))
	if err != nil || string(icon) != string(m.Icon.Content()) {
		t.Errorf("the icon in FyneApp.toml is not the program's (%v)", err)
	}
}

func envOf(system string, home string, vars map[string]string) Env {
	return Env{OS: system, Getenv: func(n string) string { return vars[n] }, Home: func() (string, error) {
		if home == "" {
			return "", errors.New("no home")
		}
		return home, nil
	}}
}

func TestDataFolder(t *testing.T) {
	root := t.TempDir() // absolute on every system
	at := func(parts ...string) string { return filepath.Join(append([]string{root}, parts...)...) }
	home := at("home")
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	type vars = map[string]string
	for _, c := range []struct {
		name, asked string
		env         Env
		want        string // "" is no home
	}{
		{"linux", "", envOf("linux", home, nil), at("home", ".local", "share", "driploop")},
		{"linux, XDG", "", envOf("linux", home, vars{"XDG_DATA_HOME": at("xdg")}), at("xdg", "driploop")},
		{"linux, relative XDG is ignored", "", envOf("linux", home, vars{"XDG_DATA_HOME": "xdg"}), at("home", ".local", "share", "driploop")},
		{"linux, no home but XDG", "", envOf("linux", "", vars{"XDG_DATA_HOME": at("xdg")}), at("xdg", "driploop")},
		{"linux, no home", "", envOf("linux", "", nil), ""},
		{"linux, relative home", "", envOf("linux", "here", nil), ""},
		{"windows", "", envOf("windows", home, vars{"LOCALAPPDATA": at("local"), "APPDATA": at("roaming")}), at("local", "Driploop")},
		{"windows, roaming only", "", envOf("windows", home, vars{"APPDATA": at("roaming")}), at("roaming", "Driploop")},
		{"windows, neither", "", envOf("windows", home, nil), ""},
		{"macOS", "", envOf("darwin", home, nil), at("home", "Library", "Application Support", "Driploop")},
		{"macOS, no home", "", envOf("darwin", "", nil), ""},
		{"variable", "", envOf("linux", home, vars{dataVariable: at("mine")}), at("mine")},
		{"option before variable", at("asked"), envOf("linux", home, vars{dataVariable: at("mine")}), at("asked")},
		{"option without a home", at("asked"), envOf("linux", "", nil), at("asked")},
		{"relative option", "mine", envOf("windows", "", nil), filepath.Join(here, "mine")},
	} {
		got, err := dataFolder(c.asked, c.env)
		if c.want == "" {
			if !errors.Is(err, errNoHome) || got != "" {
				t.Errorf("%s: got %q (%v), want no home", c.name, got, err)
			}
			continue
		}
		if err != nil || got != c.want {
			t.Errorf("%s: got %q (%v), want %q", c.name, got, err, c.want)
		}
	}
	if e := HostEnv(); e.OS != runtime.GOOS || e.Now == nil || e.Locale == nil {
		t.Error("HostEnv is not this machine")
	}
}
