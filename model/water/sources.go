package water

import "example.org/driploop/model/working"

// The works that this package relies on, each registered once.
var (
	srcTanaka   = working.Register(working.Source{ID: "tanaka2001", Cite: "Tanaka et al. 2001, Metrologia 38:301 (CIPM density of water)", Origin: working.Published})
	srcEmerson  = working.Register(working.Source{ID: "emerson1975", Cite: "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379", Origin: working.Published})
	srcEPA      = working.Register(working.Source{ID: "epa2013", Cite: "US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia - Freshwater, EPA-822-R-13-001", Origin: working.Published})
	srcOATA     = working.Register(working.Source{ID: "oata", Cite: "OATA Water Quality Criteria (secondary copy)", Origin: working.Published})
	srcFA16     = working.Register(working.Source{ID: "fa16", Cite: "Francis-Floyd & Watson, University of Florida IFAS FA16, Ammonia in Aquatic Systems", Origin: working.Published})
	srcBenson   = working.Register(working.Source{ID: "benson1984", Cite: "Benson & Krause 1984, Limnol. Oceanogr. 29:620 (APHA/USGS form)", Origin: working.Published})
	srcISA      = working.Register(working.Source{ID: "isa", Cite: "ISO 2533:1975 standard atmosphere, 0 to 11 km", Origin: working.Published})
	srcLucas    = working.Register(working.Source{ID: "lucas1992", Cite: "Lucas & Priede 1992, J. Fish Biol. 41:175", Origin: working.Published})
	srcClarke   = working.Register(working.Source{ID: "clarke1999", Cite: "Clarke & Johnston 1999, J. Anim. Ecol. 68:893", Origin: working.Memory})
	srcChin     = working.Register(working.Source{ID: "chin2006", Cite: "Chin 2006, Water-Quality Engineering in Natural Systems; Gelda et al. 1996, J. Env. Eng. 122:269 (bounds of reaeration)", Origin: working.Published})
	srcPlummer  = working.Register(working.Source{ID: "plummer1982", Cite: "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011", Origin: working.Published})
	srcNeal     = working.Register(working.Source{ID: "neal1998", Cite: "Neal et al. 1998 (ion product of water)", Origin: working.Published})
	srcAWWA     = working.Register(working.Source{ID: "awwa", Cite: "AWWA, Disinfection of Pipelines and Storage Facilities Field Guide, Table 7-2", Origin: working.Published})
	srcMolar    = working.Register(working.Source{ID: "iupac_masses", Cite: "IUPAC standard atomic weights 2021, stoichiometry", Origin: working.Definition})
	srcMRDL     = working.Register(working.Source{ID: "us_mrdl", Cite: "US 40 CFR 141.65, maximum residual disinfectant level 4.0 mg/L as Cl2", Origin: working.Published})
	srcWHO      = working.Register(working.Source{ID: "who_chlorine", Cite: "WHO Guidelines for drinking-water quality, chlorine 5, monochloramine 3, at delivery at least 0.2 mg/L", Origin: working.Published})
	srcAUChlor  = working.Register(working.Source{ID: "au_chlorine", Cite: "Australian Drinking Water Guidelines, total chlorine typically 0.1 to 4 mg/L", Origin: working.Published})
	srcEPAChlor = working.Register(working.Source{ID: "epa1984_chlorine", Cite: "US EPA 440/5-84-030, chlorine 0.019 acute, 0.011 chronic mg/L", Origin: working.Published})
	srcLim      = working.Register(working.Source{ID: "lim2003", Cite: "Lim et al. 2003, Aquaculture Research 34:923 (passage read in an unattributed copy)", Origin: working.Published})
	srcFroese   = working.Register(working.Source{ID: "froese1998", Cite: "Froese 1998, Aquaculture (insulating properties of transport boxes)", Origin: working.Published})
	srcSRAC462  = working.Register(working.Source{ID: "srac462", Cite: "Durborow, Crosby & Brunson 1997, SRAC 462, Nitrite in Fish Ponds", Origin: working.Published})
	srcSRAC464  = working.Register(working.Source{ID: "srac464", Cite: "SRAC 464, Interactions of pH, Carbon Dioxide, Alkalinity and Hardness", Origin: working.Published})
	srcCamargo  = working.Register(working.Source{ID: "camargo2005", Cite: "Camargo et al. 2005 (nitrate toxicity to aquatic animals)", Origin: working.Published})
	srcUSGS     = working.Register(working.Source{ID: "usgs_hardness", Cite: "USGS, classes of water hardness at 60, 120 and 180 mg/L", Origin: working.Published})
	srcAPHA     = working.Register(working.Source{ID: "apha2510", Cite: "APHA Standard Methods 2510, dissolved solids by 0.55 to 0.9 of the conductivity", Origin: working.Memory})
	srcDrop     = working.Register(working.Source{ID: "drop", Cite: "Pharmacy convention, 20 drops to a millilitre", Origin: working.Practice})
	srcBags     = working.Register(working.Source{ID: "fish_shipping_practice", Cite: "Research-fish shipping practice, bio.net 1997", Origin: working.Published})
)
