package load

import "example.org/driploop/model/working"

var (
	srcBeam  = working.Register(working.Source{ID: "gere-2009", Cite: "Gere, J. M. and Goodno, B. J. (2009) Mechanics of Materials, 7th ed., appendix G", Origin: working.Memory})
	srcEN338 = working.Register(working.Source{ID: "en-338-2016", Cite: "EN 338:2016 Structural timber: strength classes, tables 1 and 3, as transcribed", Origin: working.Published})
	srcEC5   = working.Register(working.Source{ID: "en-1995-1-1", Cite: "EN 1995-1-1:2004+A1:2008, tables 3.1 and 3.2, clauses 2.2.3 and 6.3.2, as transcribed", Origin: working.Published})
	srcPanel = working.Register(working.Source{ID: "en-12369-1", Cite: "EN 12369-1:2001 Wood-based panels: characteristic values; rows P4, P6 and MDF.LA bending from memory", Origin: working.Memory})
	srcEN312 = working.Register(working.Source{ID: "en-312", Cite: "EN 312 Particleboards, table 3 (P2: test minimum, not a design value)", Origin: working.Memory})
	srcEN622 = working.Register(working.Source{ID: "en-622-5", Cite: "EN 622-5 Dry process boards (MDF): test minimum, not a design value", Origin: working.Published})
	srcBirch = working.Register(working.Source{ID: "birch-plywood-sheet", Cite: "Makers' declaration for 18 mm birch plywood, across the face grain", Origin: working.Published})
	srcNDS   = working.Register(working.Source{ID: "awc-nds-2018", Cite: "AWC National Design Specification for Wood Construction and Supplement (2018), table 4A, clauses 3.5.2 and 3.7", Origin: working.Published})
	srcEC3   = working.Register(working.Source{ID: "en-1993-1-1", Cite: "EN 1993-1-1:2005 clause 6.3.1", Origin: working.Published})
	srcAISC  = working.Register(working.Source{ID: "aisc-360-16", Cite: "AISC 360-16 Specification for Structural Steel Buildings, chapter E3", Origin: working.Published})
	srcFrame = working.Register(working.Source{ID: "frame-fe", Cite: "Three-dimensional frame solved by the direct stiffness method for this program", Origin: working.Computed})
	srcFloor = working.Register(working.Source{ID: "floor-loads", Cite: "ASCE 7-22 table 4.3-1 and IRC table R301.5; EN 1991-1-1 table 6.2 (recommended values from memory)", Origin: working.Published})
	srcPlate = working.Register(working.Source{ID: "plate-fe-2026", Cite: "Plate coefficients solved for this program with a conforming 16-freedom plate element, 1 %", Origin: working.Computed})
	srcRoark = working.Register(working.Source{ID: "roark-7e", Cite: "Young, W. C. and Budynas, R. G. (2002) Roark's Formulas for Stress and Strain, 7th ed., table 11.4 case 1a", Origin: working.Published})
	srcEN16  = working.Register(working.Source{ID: "en-16612", Cite: "EN 16612:2019 Glass in building: lateral load resistance, from a transcription", Origin: working.Published})
	srcE1300 = working.Register(working.Source{ID: "astm-e1300", Cite: "ASTM E1300 and NCSEA Engineering Structural Glass Design Guide, for comparison: the practice excludes aquariums", Origin: working.Published})
	srcFloat = working.Register(working.Source{ID: "en-572-2", Cite: "EN 572-2 Float glass: thickness tolerances; EN 572-1: modulus 70 GPa", Origin: working.Published})
	srcNIOSH = working.Register(working.Source{ID: "niosh-94-110", Cite: "Waters, T. R. et al. (1994, rev. 2021) Applications manual for the revised NIOSH lifting equation, 94-110", Origin: working.Published})
	srcDense = working.Register(working.Source{ID: "board-densities", Cite: "Handbook densities of boards and steel, quoted from memory", Origin: working.Memory})
	srcIRC   = working.Register(working.Source{ID: "irc-r502", Cite: "International Residential Code, table R502.3.1(2), and AWC NDS bending and sag", Origin: working.Published})
)
