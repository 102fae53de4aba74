package load

import (
	"math"
	"strings"
	"testing"

	"example.org/driploop/model/drill"
	"example.org/driploop/model/quantity"
)

func TestTimberClasses(t *testing.T) {
	const source = "timber_en338.csv, EN 338:2016, exact"
	for _, r := range table(t, "timber_en338.csv", 7) {
		c, ok := timberClasses[LegMaterial(strings.ToLower(r[0]))]
		if !ok {
			t.Errorf("%s: no class %s", source, r[0])
			continue
		}
		for i, got := range []float64{c.fm, c.ft0, c.fc0, c.fc90, c.fv, c.eMean, c.e05, c.g, c.rhoK, c.rhoMean} {
			if want := drill.Number(t, r[i+1]); got != want {
				t.Errorf("%s, %s column %d: expected %g, got %g", source, r[0], i+1, want, got)
			}
		}
	}
}

func TestSpecies(t *testing.T) {
	const source = "nds_values.csv, NDS Supplement 2018 table 4A, exact"
	names := map[string]LegMaterial{"Spruce-Pine-Fir No.2": SPFNo2, "Spruce-Pine-Fir Stud": SPFStud, "Douglas Fir-Larch No.2": DFLNo2, "Hem-Fir No.2": HFNo2}
	for _, r := range table(t, "nds_values.csv", 4) {
		n, ok := ndsTable[names[r[0]+" "+r[1]]]
		if !ok {
			t.Errorf("%s: no species %s %s", source, r[0], r[1])
			continue
		}
		for i, got := range []float64{n.fb, n.fv, n.fcPerp, n.fc, n.e, n.eMin} {
			if want := drill.Number(t, r[i+2]); got != want {
				t.Errorf("%s, %s column %d: expected %g, got %g", source, r[0], i+2, want, got)
			}
		}
	}
}

func TestDurationAndCreep(t *testing.T) {
	const source = "ec5_kmod_kdef.csv, EN 1995-1-1 tables 3.1 and 3.2, exact"
	boards := map[string]Board{"plywood": BoardPlywood, "OSB/3-4": BoardOSB3, "particleboard P4": BoardP4, "particleboard P5": BoardP5,
		"particleboard P6": BoardP6, "MDF.LA / MDF.HLS": BoardMDFLA, "solid timber": BoardTimber}
	checked := 0
	for _, r := range table(t, "ec5_kmod_kdef.csv", 15) {
		b, ok := boards[r[0]]
		if !ok {
			continue // OSB/2, P7 and MDF.HLS are not offered
		}
		class := ServiceClass(drill.Number(t, r[2]))
		f := b.factors(class)
		_, allowed := b.LoadBearing(class)
		if !allowed {
			t.Errorf("%s: %s is not allowed in class %d", source, r[0], class)
		}
		checked++
		if f.kMod != drill.Number(t, r[3]) || f.kDef != drill.Number(t, r[7]) || f.gammaM != drill.Number(t, r[8]) {
			t.Errorf("%s, %s class %d: expected %s, %s, %s, got %+v", source, r[0], class, r[3], r[7], r[8], f)
		}
		if b == BoardTimber { // the same row serves legs and rails
			g, _ := C24.grade(Section{}, class)
			closeTo(t, source, "C24 creep", g.creep, 1+drill.Number(t, r[7]), 1e-12)
			closeTo(t, source, "C24 bending", float64(g.fm), 24e6*drill.Number(t, r[3])/drill.Number(t, r[8]), 1e-12)
		}
	}
	if checked != 11 {
		t.Errorf("%s: %d rows checked, expected 11", source, checked)
	}
	for _, b := range []Board{BoardP4, BoardP6, BoardMDFLA, BoardP2, BoardMDF} {
		if _, allowed := b.LoadBearing(Class2); allowed {
			t.Errorf("%s: %s has no row in class 2 and must not be allowed", source, b)
		}
	}
}

func TestBoards(t *testing.T) {
	const source = "panel_strength.csv (P4, P6 and parts of P2 and MDF.LA from memory), exact"
	type key struct {
		b  Board
		mm float64
	}
	rows := map[string][]key{
		"particleboard P2 13-20": {{BoardP2, 13}, {BoardP2, 18}, {BoardP2, 20}}, "particleboard P2 20-25": {{BoardP2, 22}, {BoardP2, 25}},
		"particleboard P4 13-20": {{BoardP4, 18}}, "particleboard P5 13-18": {{BoardP5, 15}, {BoardP5, 18}},
		"particleboard P5 >18-25": {{BoardP5, 18.5}, {BoardP5, 25}}, "particleboard P6 13-20": {{BoardP6, 18}},
		"MDF.LA 12-19": {{BoardMDFLA, 18}}, "MDF dry 12-19": {{BoardMDF, 18}}, "OSB/3 10-18 major axis": {{BoardOSB3Run, 18}},
		"OSB/3 10-18 minor axis": {{BoardOSB3, 18}}, "birch plywood 18 mm across face grain": {{BoardPlywood, 18}},
	}
	for _, r := range table(t, "panel_strength.csv", 11) {
		ks, ok := rows[r[0]+" "+r[1]]
		if !ok {
			t.Errorf("%s: unexpected row %s %s", source, r[0], r[1])
		}
		for _, k := range ks {
			s, ok := k.b.Strength(quantity.Length(k.mm / 1000))
			if !ok {
				t.Errorf("%s: no %s of %g mm", source, k.b, k.mm)
			}
			closeTo(t, source, r[0]+" bending", float64(s.Bending)/1e6, drill.Number(t, r[2]), 1e-12)
			closeTo(t, source, r[0]+" modulus", float64(s.Modulus)/1e6, drill.Number(t, r[3]), 1e-12)
		}
	}
	if _, ok := Board("cheese").Strength(0.018); ok {
		t.Error("cheese: expected no strength")
	}
}

func TestBoardDensities(t *testing.T) {
	const source = "densities.csv, handbook values, exact"
	want := map[string]float64{"MDF": boardRows[BoardMDF].density, "particleboard": boardRows[BoardP2].density, "steel": steelDensity}
	checked := 0
	for _, r := range table(t, "densities.csv", 15) {
		if got, ok := want[r[0]]; ok {
			checked++
			closeTo(t, source, r[0], got, drill.Number(t, r[1]), 1e-12)
		}
	}
	if checked != 3 {
		t.Errorf("%s: %d rows checked, expected 3", source, checked)
	}
}

func TestSections(t *testing.T) {
	const source = "frame2d_reference.csv model F: SHS 30x30x2"
	s := Section{0.030, 0.030, 0.002}
	closeTo(t, source, "I", s.across()*1e12, 29418.67, 1e-6)
	closeTo(t, "Bredt t(a-t)³", "J", s.torsion(), 0.002*math.Pow(0.028, 3), 1e-12)
	solid := Section{0.02, 0.02, 0}
	closeTo(t, "Saint-Venant 0.1406·a⁴", "J", solid.torsion(), 0.1406*math.Pow(0.02, 4), 5e-3)
	for name, bad := range map[string]Section{"thick": {0.02, 0.02, 0.01}, "negative": {-1, 0.02, 0}, "NaN": {quantity.Length(math.NaN()), 0.02, 0}} {
		if bad.check("leg") == nil {
			t.Errorf("%s section: expected a refusal", name)
		}
	}
}
