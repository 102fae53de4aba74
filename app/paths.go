package main

import (
	"errors"
	"path/filepath"
)

// dataVariable overrides the usual data folder.
const dataVariable = "DRIPLOOP_DATA"

// deskVariable says where the visit desk is when it is not in the data folder.
const deskVariable = "DRIPLOOP_DESK"

// errNoHome says that the usual data folder cannot be told.
var errNoHome = errors.New("no home folder")

// dataFolder is where a person's data stand: the folder asked for, else that of
// the variable, else the place the system keeps such data in. Relative names are
// taken from the folder the program was started in. Errors: errNoHome.
//
// Sources: XDG Base Directory Specification 0.8 (a relative XDG_DATA_HOME is
// ignored); Microsoft, Known Folders, LocalAppData; Apple, File System
// Programming Guide, Application Support.
func dataFolder(asked string, env Env) (string, error) {
	if asked == "" {
		asked = env.Getenv(dataVariable)
	}
	if asked != "" {
		return filepath.Abs(asked)
	}
	switch env.OS {
	case "windows":
		for _, name := range []string{"LOCALAPPDATA", "APPDATA"} {
			if at := env.Getenv(name); at != "" {
				return filepath.Join(at, appName), nil
			}
		}
		return "", errNoHome
	case "darwin":
		home, err := env.Home()
		if err != nil || home == "" {
			return "", errNoHome
		}
		return filepath.Join(home, "Library", "Application Support", appName), nil
	}
	at, err := sharedData(env)
	if err != nil {
		return "", err
	}
	return filepath.Join(at, folderName), nil
}

// sharedData is where every program keeps a person's data, on systems that follow the
// XDG Base Directory Specification. Errors: errNoHome.
func sharedData(env Env) (string, error) {
	if at := env.Getenv("XDG_DATA_HOME"); filepath.IsAbs(at) {
		return at, nil
	}
	home, err := env.Home()
	if err != nil || !filepath.IsAbs(home) {
		return "", errNoHome
	}
	return filepath.Join(home, ".local", "share"), nil
}
