package keeper

import (
	"context"
	"encoding/json"
	"strconv"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/water"
)

// settingEmergency keeps the line of un-ionised ammonia that a person calls an
// emergency, as they typed it, in JSON.
const settingEmergency = "emergency_nh3"

// EmergencyLine is the un-ionised ammonia, as nitrogen, from which a water test
// is an emergency, as the person typed it. A zero Measure is the usual line,
// water.EmergencyNH3, which is judgement.
func (k *Keeper) EmergencyLine(ctx context.Context) (quantity.Measure, error) {
	var m quantity.Measure
	s, ok, err := k.Setting(ctx, settingEmergency)
	if err == nil && ok && s != "" {
		err = json.Unmarshal([]byte(s), &m)
	}
	return m, err
}

// SetEmergencyLine keeps a line of the person's own; a zero Measure goes back to
// the usual one. It is a setting: at once and without undo. Errors: *working.Refusal
// outside what water.AcceptEmergency takes, *quantity.ParseError for a measure
// that is no concentration.
func (k *Keeper) SetEmergencyLine(ctx context.Context, m quantity.Measure) error {
	if m.IsZero() {
		return k.SetSetting(ctx, settingEmergency, "")
	}
	m.Basis = quantity.AsN
	if _, err := emergencyOf(m); err != nil {
		return err
	}
	b, err := json.Marshal(m)
	if err != nil {
		return err
	}
	return k.SetSetting(ctx, settingEmergency, string(b))
}

// settingSolids keeps the factor from conductivity to dissolved solids that the
// person's meter takes, as they typed it.
const settingSolids = "solids_factor"

// SolidsFactor is how many mg/L of dissolved solids the person counts for each
// µS/cm of conductivity; false where they take the usual one, water.SolidsFactor,
// which is common practice.
func (k *Keeper) SolidsFactor(ctx context.Context) (quantity.Ratio, bool, error) {
	s, ok, err := k.Setting(ctx, settingSolids)
	if err != nil || !ok || s == "" {
		return water.SolidsFactor, false, err
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || water.AcceptSolidsFactor(quantity.Ratio(x)) != nil {
		return water.SolidsFactor, false, nil // a setting that is none
	}
	return quantity.Ratio(x), true, nil
}

// SetSolidsFactor keeps a factor of the person's own, 0 goes back to the usual one.
// It is a setting: at once and without undo. Error: *working.Refusal outside what
// water.AcceptSolidsFactor takes.
func (k *Keeper) SetSolidsFactor(ctx context.Context, factor quantity.Ratio) error {
	if factor == 0 {
		return k.SetSetting(ctx, settingSolids, "")
	}
	if err := water.AcceptSolidsFactor(factor); err != nil {
		return err
	}
	return k.SetSetting(ctx, settingSolids, strconv.FormatFloat(float64(factor), 'f', -1, 64))
}

// emergencyOf converts a line; zero for the usual one.
func emergencyOf(m quantity.Measure) (quantity.Concentration, error) {
	if m.IsZero() {
		return 0, nil
	}
	v, err := m.Value()
	if err != nil {
		return 0, err
	}
	if v.Kind != quantity.KindConcentration {
		return 0, &quantity.ParseError{Code: quantity.CodeUnknownUnit, Text: m.Number, Token: string(m.Unit), Kind: quantity.KindConcentration}
	}
	return quantity.Concentration(v.X), water.AcceptEmergency(quantity.Concentration(v.X))
}
