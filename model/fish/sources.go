package fish

import "example.org/driploop/model/working"

// The works that this package relies on.
var (
	srcFB18   = working.Register(working.Source{ID: "fishbase2018", Cite: "Froese & Pauly (eds) 2018, FishBase, version 06/2018, and its main references; single numbers", Origin: working.Published})
	srcFB12   = working.Register(working.Source{ID: "fishbase2012", Cite: "Froese & Pauly (eds), FishBase, snapshot of 2012; single numbers", Origin: working.Published})
	srcFBS    = working.Register(working.Source{ID: "fishbase_copy", Cite: "FishBase species summaries (secondary copy)", Origin: working.Published})
	srcFBLW   = working.Register(working.Source{ID: "fishbase_lw", Cite: "FishBase 06/2018, single length-weight studies", Origin: working.Published})
	srcFBEst  = working.Register(working.Source{ID: "fishbase_estimate", Cite: "FishBase 2016 and 2017, length-weight estimates by the method of Froese, Thorson & Reyes 2014, J. Appl. Ichthyol. 30:78", Origin: working.Published})
	srcALD19  = working.Register(working.Source{ID: "alderton2019", Cite: "Alderton 2019, Encyclopedia of Aquarium & Pond Fish, 3rd ed.", Origin: working.Published})
	srcWiki   = working.Register(working.Source{ID: "wikipedia_animals", Cite: "Wikipedia, articles on the animals named", Origin: working.Published})
	srcBut    = working.Register(working.Source{ID: "butler_handbook", Cite: "Butler, freshwater fish handbook pages", Origin: working.Published})
	srcK101   = working.Register(working.Source{ID: "wood_tropical", Cite: "Wood, 101 Best Tropical Fishes (secondary copy)", Origin: working.Published})
	srcNAS    = working.Register(working.Source{ID: "usgs_nas", Cite: "USGS Nonindigenous Aquatic Species, fact sheets", Origin: working.Published})
	srcSAJ14  = working.Register(working.Source{ID: "sajeevan2014", Cite: "Sajeevan, Anna Mercy & Malika 2014, Int. J. Aquat. Biol. (abstract)", Origin: working.Published})
	srcLEM15  = working.Register(working.Source{ID: "lemos2015", Cite: "Lemos et al. 2015, Biota Amazonia 5(4):22", Origin: working.Published})
	srcORT09  = working.Register(working.Source{ID: "ortega2009", Cite: "Ortega-Salas, Cortés & Reyes-Bustamante 2009, Rev. Biol. Trop. 57(3) (abstract)", Origin: working.Published})
	srcMIT05  = working.Register(working.Source{ID: "mitchell2005", Cite: "Mitchell & Brandt 2005, Trans. Am. Fish. Soc. 134:126 (abstract)", Origin: working.Published})
	srcLUC    = working.Register(working.Source{ID: "molluscs_australia", Cite: "Freshwater molluscs of Australia, identification key", Origin: working.Published})
	srcMAR    = working.Register(working.Source{ID: "anentome_sheet", Cite: "Species sheet of Anentome helena", Origin: working.Published})
	srcEDDM   = working.Register(working.Source{ID: "eddmaps_marisa", Cite: "EDDMapS, Marisa cornuarietis", Origin: working.Published})
	srcICAR   = working.Register(working.Source{ID: "icar_scalare", Cite: "ICAR e-course, Pterophyllum scalare", Origin: working.Published})
	srcWeb    = working.Register(working.Source{ID: "hobby_pages", Cite: "Hobby and seller pages that agree, the weakest published kind", Origin: working.Practice})
	srcClarke = working.Register(working.Source{ID: "clarke1999", Cite: "Clarke & Johnston 1999, J. Anim. Ecol. 68:893", Origin: working.Memory})
	srcInnes  = working.Register(working.Source{ID: "innes1935", Cite: "Innes 1935, Exotic Aquarium Fishes (water surface a fish; secondary copy)", Origin: working.Published})
	srcOATA   = working.Register(working.Source{ID: "oata", Cite: "OATA Water Quality Criteria (secondary copy)", Origin: working.Published})
	srcSales  = working.Register(working.Source{ID: "sales2003", Cite: "Sales & Janssens 2003 (maintenance of ornamental fish), with Pannevis & Earle 1994", Origin: working.Published})
	srcFroese = working.Register(working.Source{ID: "froese2006", Cite: "Froese 2006, J. Appl. Ichthyol. 22:241", Origin: working.Published})
	srcNoga   = working.Register(working.Source{ID: "quarantine_usual", Cite: "Quarantine of 3 to 4 weeks is usual (Noga, quoted); no ideal period is established", Origin: working.Published})
)

// keyed are the source keys of the catalogue's file.
var keyed = map[string]working.SourceID{
	"FB18": srcFB18, "FB12": srcFB12, "FBS": srcFBS, "FB18-LW": srcFBLW, "FB16-EST": srcFBEst, "FB17-EST": srcFBEst, "FB16": srcFBEst,
	"ALD19": srcALD19, "WIKI": srcWiki, "WIKI06": srcWiki, "WIKI07": srcWiki, "WIKI-sv": srcWiki, "WIKI-derived": srcWiki, "BUT": srcBut, "K101": srcK101,
	"NAS": srcNAS, "SAJ14": srcSAJ14, "LEM15": srcLEM15, "ORT09": srcORT09, "MIT05": srcMIT05, "LUC": srcLUC, "MAR": srcMAR, "EDDM": srcEDDM,
	"ICAR": srcICAR, "WEB": srcWeb, "CP": working.Trade,
}

// Works that other packages rely on too.
var (
	srcTimmons = working.Register(working.Source{ID: "timmons_ebeling", Cite: "Timmons & Ebeling, Recirculating Aquaculture (secondary copy)", Origin: working.Published})
	srcBenson  = working.Register(working.Source{ID: "benson1984", Cite: "Benson & Krause 1984, Limnol. Oceanogr. 29:620 (APHA/USGS form)", Origin: working.Published})
)
