package sick

import "example.org/driploop/model/working"

// sources are the works behind the table of signs, by the code that stands there.
var sources = map[string]working.SourceID{
	"mvm-t":   working.Register(working.Source{ID: "mvm-t", Cite: "MSD/Merck Veterinary Manual, Common Environmental Hazards for Fish (table), rev. May 2023", Origin: working.Published}),
	"mvm-e":   working.Register(working.Source{ID: "mvm-e", Cite: "MSD/Merck Veterinary Manual, Environmental Diseases of Aquatic Animals in Aquatic Systems, rev. May 2023", Origin: working.Published}),
	"uf716":   working.Register(working.Source{ID: "uf716", Cite: "Klinger R.E., Francis-Floyd R., UF/IFAS circular 716 (contents)", Origin: working.Published}),
	"uf920":   working.Register(working.Source{ID: "uf920", Cite: "Francis-Floyd R., Yanong R., Pouder D., UF/IFAS circular 920 (FA006)", Origin: working.Published}),
	"uf921":   working.Register(working.Source{ID: "uf921", Cite: "Francis-Floyd R., Introduction to Fish Health Management, UF/IFAS circular 921", Origin: working.Published}),
	"wsava15": working.Register(working.Source{ID: "wsava15", Cite: "Palic D., WSAVA World Congress 2015: over 80 % of clinical signs of ornamental fish relate to water quality", Origin: working.Published}),
	"wsava17": working.Register(working.Source{ID: "wsava17", Cite: "WSAVA Congress 2017, proceedings p. 170 (ornamental fish)", Origin: working.Published}),
	"ald19":   working.Register(working.Source{ID: "ald19", Cite: "Alderton D., Encyclopedia of Aquarium & Pond Fish, 3rd ed. 2019, p. 57", Origin: working.Published}),
	"sax10":   working.Register(working.Source{ID: "sax10", Cite: "Saxby A. et al. 2010, Appl. Anim. Behav. Sci. 125:195-205 (group size and behaviour)", Origin: working.Published}),
	"trade":   working.Trade,
}
