// Package region is what differs from country to country, apart from language and
// units: the mains and the words for its parts, the emergency number, paper, the
// week and the clock, what tap water is usually disinfected with.
//
// A Region knows no language: words are keys of messages. The table with its
// sources is regions.csv. A country that is not in it, and the empty one, get the
// values of IEC 60038 and ISO: 230 V, an RCD, A4, weeks from Monday, 24 hours.
package region

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Region is a country or what is treated like one.
type Region struct {
	Code string // ISO 3166-1 alpha-2, or empty
}

// Water says what suppliers of a region usually disinfect tap water with.
type Water string

// What is usual. It never replaces the supplier's own word.
const (
	Chlorine Water = "chlorine"
	Both     Water = "both"   // chloramine is usual as well
	Little   Water = "little" // much tap water has no lasting disinfectant
)

// Emergency is the number for an ambulance.
type Emergency struct {
	Number string // as it is dialled; empty where none is known
	Rule   string // the rule behind it; empty where the number is from memory
}

//go:embed regions.csv
var table string

type row struct {
	volts      float64
	protection working.Key
	socket     working.Key
	emergency  Emergency
	letter     bool
	week       time.Weekday
	twelve     bool
	water      Water
	currency   quantity.UnitCode
}

// rows is the table by country. It is part of the program, so a fault in it is a
// broken build, which the tests of this package find.
var rows = sync.OnceValue(func() map[string]row {
	out, err := read(table)
	if err != nil {
		panic("region: " + err.Error())
	}
	return out
})

var (
	switches = map[string]working.Key{"rcd": "word.care.rcd", "gfci": "word.care.gfci"}
	sockets  = map[string]working.Key{"socket": "word.care.socket", "receptacle": "word.care.receptacle"}
	weeks    = map[string]time.Weekday{"mon": time.Monday, "sun": time.Sunday, "sat": time.Saturday}
)

func read(text string) (map[string]row, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 11
	all, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	out := map[string]row{}
	for _, f := range all[1:] {
		var x row
		var ok [3]bool
		x.volts, err = strconv.ParseFloat(f[1], 64)
		x.protection, ok[0] = switches[f[2]]
		x.socket, ok[1] = sockets[f[3]]
		x.emergency = Emergency{f[4], f[5]}
		x.letter, x.twelve = f[6] == "letter", f[8] == "12"
		x.week, ok[2] = weeks[f[7]]
		x.water, x.currency = Water(f[9]), quantity.UnitCode(f[10])
		if err != nil || slices.Contains(ok[:], false) || !slices.Contains([]Water{Chlorine, Both, Little}, x.water) {
			return nil, fmt.Errorf("row %q cannot be read", f)
		}
		out[f[0]] = x
	}
	return out, nil
}

// Codes lists the countries of the table in alphabetical order.
func Codes() []string {
	var out []string
	for c := range rows() {
		out = append(out, c)
	}
	slices.Sort(out)
	return out
}

func (r Region) row() row {
	if x, ok := rows()[r.Code]; ok {
		return x
	}
	return row{volts: 230, protection: switches["rcd"], socket: sockets["socket"], week: time.Monday, water: Chlorine, currency: "EUR"}
}

// Known reports whether the region is in the table.
func (r Region) Known() bool {
	_, ok := rows()[r.Code]
	return ok
}

// Mains returns the usual voltage at a socket.
func (r Region) Mains() quantity.Value {
	return quantity.Value{Kind: quantity.KindVoltage, X: r.row().volts}
}

// Protection names the switch that cuts the power when current leaks to earth.
func (r Region) Protection() working.Key { return r.row().protection }

// Socket names the place where a plug goes.
func (r Region) Socket() working.Key { return r.row().socket }

// Emergency is the number for an ambulance.
func (r Region) Emergency() Emergency { return r.row().emergency }

// SocketHeight is the usual height of a wall socket above the floor.
// Common practice, no source.
func (r Region) SocketHeight() quantity.Length { return 0.3 }

// Currency is the ISO 4217 code that prices are proposed in.
func (r Region) Currency() quantity.UnitCode { return r.row().currency }

// Letter reports whether papers are printed on US Letter instead of A4.
func (r Region) Letter() bool { return r.row().letter }

// FirstWeekday is the day with which a week starts in a calendar.
func (r Region) FirstWeekday() time.Weekday { return r.row().week }

// TwelveHours reports whether the time of day is usually written by twelve hours.
func (r Region) TwelveHours() bool { return r.row().twelve }

// Water is what tap water is usually disinfected with.
func (r Region) Water() Water { return r.row().water }
