package care

import (
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Region is what differs from country to country in First fill, apart from
// language and units: the mains and the words for its parts.
type Region struct {
	Code string // ISO 3166-1 alpha-2, or empty
}

// gfciRegions have 100 to 127 V mains and call the protective switch by the
// American name. Source: IEC world plugs listing, from memory; US and CA from
// UL 943 and CSA practice.
var gfciRegions = map[string]quantity.Value{
	"US": volts(120), "CA": volts(120), "MX": volts(127), "PR": volts(120), "CO": volts(120), "VE": volts(120),
	"EC": volts(120), "GT": volts(120), "HN": volts(120), "NI": volts(120), "CR": volts(120), "PA": volts(120),
	"DO": volts(120), "CU": volts(110), "SV": volts(115), "TW": volts(110), "JP": volts(100), "BR": volts(127),
}

func volts(x float64) quantity.Value { return quantity.Value{Kind: quantity.KindVoltage, X: x} }

// Mains returns the usual voltage at a socket.
func (r Region) Mains() quantity.Value {
	if v, ok := gfciRegions[r.Code]; ok {
		return v
	}
	return volts(230) // IEC 60038 nominal voltage
}

// Protection names the switch that cuts the power when current leaks to earth.
func (r Region) Protection() working.Key {
	if _, ok := gfciRegions[r.Code]; ok && r.Code != "JP" && r.Code != "BR" {
		return "word.care.gfci"
	}
	return "word.care.rcd"
}

// Socket names the place where a plug goes.
func (r Region) Socket() working.Key {
	switch r.Code {
	case "US", "CA":
		return "word.care.receptacle"
	}
	return "word.care.socket"
}

// SocketHeight is the usual height of a wall socket above the floor.
// Common practice, no source.
func (r Region) SocketHeight() quantity.Length { return 0.3 }

// Currency is the ISO 4217 code that prices are proposed in.
func (r Region) Currency() quantity.UnitCode {
	if c, ok := currencies[r.Code]; ok {
		return c
	}
	return "EUR"
}

// Source: ISO 4217 country table, from memory.
var currencies = map[string]quantity.UnitCode{
	"US": "USD", "PR": "USD", "EC": "USD", "SV": "USD", "PA": "USD", "CA": "CAD", "MX": "MXN", "CO": "COP", "GB": "GBP",
	"AR": "ARS", "CL": "CLP", "PE": "PEN", "UY": "UYU", "BR": "BRL", "CH": "CHF", "PL": "PLN", "UA": "UAH", "TR": "TRY",
	"JP": "JPY", "CN": "CNY", "AU": "AUD", "NZ": "NZD", "SE": "SEK", "NO": "NOK", "DK": "DKK", "CZ": "CZK", "HU": "HUF",
	"CR": "CRC", "DO": "DOP", "GT": "GTQ", "HN": "HNL", "NI": "NIO", "BO": "BOB", "PY": "PYG", "VE": "VES", "CU": "CUP",
}
