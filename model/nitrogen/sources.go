package nitrogen

import "example.org/driploop/model/working"

// The works that this package relies on.
var (
	srcHiatt     = working.Register(working.Source{ID: "hiatt2008", Cite: "Hiatt & Grady 2008, Water Environ. Res. 80:2145, Table 2", Origin: working.Published})
	srcSin       = working.Register(working.Source{ID: "sin2008", Cite: "Sin et al. 2008 (ranges of nitrification parameters)", Origin: working.Published})
	srcBlackburn = working.Register(working.Source{ID: "blackburne2007", Cite: "Blackburne et al. 2007, Water Environ. Res. 79:2437", Origin: working.Published})
	srcVannecke  = working.Register(working.Source{ID: "vannecke2015", Cite: "Vannecke & Volcke 2015, supplement (activation energies)", Origin: working.Published})
	srcHenze     = working.Register(working.Source{ID: "henze2008", Cite: "Ekama & Wentzel in Henze et al. 2008 (pH function, decay)", Origin: working.Published})
	srcTimmons   = working.Register(working.Source{ID: "timmons_ebeling", Cite: "Timmons & Ebeling, Recirculating Aquaculture (secondary copy)", Origin: working.Published})
	srcMasses    = working.Register(working.Source{ID: "iupac_masses", Cite: "IUPAC standard atomic weights 2021, stoichiometry", Origin: working.Definition})
	srcStart     = working.Register(working.Source{ID: "start_ups", Cite: "Published start-ups: Appl. Sci. 2020 10:626; Mnyoro et al. 2022, J. Cleaner Prod. 366:132929; FAO glossary, 1 to 6 weeks", Origin: working.Published})
	srcAmmoniaD  = working.Register(working.Source{ID: "ammonia_density", Cite: "Density of ammonia solution, 0.998 kg/L less 0.0036 for each percent", Origin: working.Memory})
)
