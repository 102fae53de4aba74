package main

import (
	"context"
	"encoding/json"
	"fmt"

	"example.org/driploop/i18n"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/store"
)

// checked is the report of a check in JSON.
type checked struct {
	Folder    string           `json:"folder"`
	Sound     bool             `json:"sound"`
	Version   int              `json:"version"` // of the schema
	Integrity []string         `json:"integrity"`
	Orphans   []orphan         `json:"orphans"`
	Rows      map[string]int64 `json:"rows"`
	Photos    photos           `json:"photos"`
	ReadOnly  string           `json:"read_only"` // why nothing can be written, as a code; "" when it can
}

// photos are the originals of pictures, by hash where something is wrong.
type photos struct {
	Sound   int      `json:"sound"`
	Missing []string `json:"missing"`
	Changed []string `json:"changed"`
}

type orphan struct {
	Table  string `json:"table"`
	Parent string `json:"parent"`
}

// runCheck verifies the whole data folder and changes nothing in it.
func runCheck(c *call) int {
	ctx := context.Background()
	k, code := c.open(ctx, false)
	if k == nil {
		return code
	}
	r, err := k.Verify(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	files, err := k.VerifyPhotos(ctx)
	if err != nil {
		return c.closed(k, c.failed(err))
	}
	if !r.OK() || !files.OK() {
		code = exitDamaged
	}
	if !c.own[flagJSON] {
		c.report(k.Dir(), r, files, k.ReadOnly())
		return c.closed(k, code)
	}
	out := checked{Folder: k.Dir(), Sound: r.OK() && files.OK(), Version: r.Version, Integrity: append([]string{}, r.Integrity...), Orphans: []orphan{}, Rows: r.Rows,
		Photos: photos{files.Sound, append([]string{}, files.Missing...), append([]string{}, files.Changed...)}}
	for _, o := range r.Orphans {
		out.Orphans = append(out.Orphans, orphan(o))
	}
	if why := k.ReadOnly(); why != nil {
		out.ReadOnly = why.Code
	}
	e := json.NewEncoder(c.stdout)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	if err := e.Encode(out); err != nil {
		return c.closed(k, c.failed(err))
	}
	return c.closed(k, code)
}

// report says what a check found.
func (c *call) report(dir string, r store.Report, files photo.Report, readOnly *store.OpenError) {
	if r.OK() && files.OK() {
		c.say("verb.check.sound", i18n.Args{"Folder": dir})
	} else {
		c.say("verb.check.damaged", i18n.Args{"Folder": dir})
		for _, text := range r.Integrity {
			fmt.Fprintln(c.stdout, indent+text)
		}
		for _, o := range r.Orphans {
			c.say("verb.check.orphan", i18n.Args{"Table": o.Table, "Parent": o.Parent})
		}
	}
	fmt.Fprintln(c.stdout, c.words.N("verb.check.tanks", float64(r.Rows["tank"]), nil))
	fmt.Fprintln(c.stdout, c.words.N("verb.check.entries", float64(r.Rows["entry"]), nil))
	fmt.Fprintln(c.stdout, c.words.N("verb.check.photos", float64(files.Sound), nil))
	if bad := len(files.Missing) + len(files.Changed); bad > 0 {
		fmt.Fprintln(c.stdout, c.words.N("verb.check.photos_bad", float64(bad), nil))
	}
	if readOnly != nil {
		fmt.Fprintln(c.stdout, c.presenter().Error(readOnly))
	}
}
