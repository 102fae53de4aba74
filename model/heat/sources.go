package heat

import "example.org/driploop/model/working"

// The works that this package relies on.
var (
	srcChurchill = working.Register(working.Source{ID: "churchill-chu-1975",
		Cite:   "S. W. Churchill, H. H. S. Chu: Correlating equations for laminar and turbulent free convection from a vertical plate. International Journal of Heat and Mass Transfer 18, 1975, 1323-1329",
		Origin: working.Published})
	srcMcAdams = working.Register(working.Source{ID: "mcadams-1954",
		Cite:   "W. H. McAdams: Heat Transmission, 3rd edition, McGraw-Hill 1954, chapter 7 (horizontal plates)",
		Origin: working.Memory})
	srcShah = working.Register(working.Source{ID: "shah-2014",
		Cite:   "M. M. Shah: Methods for calculation of evaporation from swimming pools and other water surfaces. ASHRAE Transactions 120(2), 2014, SE-14-001",
		Origin: working.Published})
	srcCarrier = working.Register(working.Source{ID: "carrier-evaporation",
		Cite:   "ASHRAE Handbook, HVAC Applications: evaporation from pools after W. H. Carrier, w = A(0.089 + 0.0782V)(p_w - p_a)/Y",
		Origin: working.Published})
	srcHylandWexler = working.Register(working.Source{ID: "hyland-wexler-1983",
		Cite:   "R. W. Hyland, A. Wexler: Formulations for the thermodynamic properties of the saturated phases of H2O. ASHRAE Transactions 89(2A), 1983, as given in the ASHRAE Handbook Fundamentals, chapter 1",
		Origin: working.Published})
	srcRogersYau = working.Register(working.Source{ID: "rogers-yau-1989",
		Cite:   "R. R. Rogers, M. K. Yau: A Short Course in Cloud Physics, 3rd edition, Pergamon 1989 (heat of vaporisation)",
		Origin: working.Memory})
	srcGlass = working.Register(working.Source{ID: "en-572-1-heat",
		Cite:   "EN 572-1: Glass in building. Basic soda-lime silicate glass products. Definitions and general physical and mechanical properties",
		Origin: working.Published})
	srcAcrylic = working.Register(working.Source{ID: "pmma-data",
		Cite:   "Usual data of cast acrylic (PMMA): 0.19 W/(m·K), 1190 kg/m³, 1470 J/(kg·K)",
		Origin: working.Memory})
	srcWater = working.Register(working.Source{ID: "tanaka-2001-20",
		Cite:   "M. Tanaka et al.: Recommended table for the density of water. Metrologia 38, 2001, 301-309 (998 kg/m³ at 20 °C); specific heat 4180 J/(kg·K)",
		Origin: working.Published})
	srcPipe = working.Register(working.Source{ID: "swamee-jain-1976",
		Cite:   "P. K. Swamee, A. K. Jain: Explicit equations for pipe-flow problems. Journal of the Hydraulics Division ASCE 102(5), 1976, 657-664; Darcy-Weisbach head loss",
		Origin: working.Published})
	srcTAN = working.Register(working.Source{ID: "timmons-ebeling",
		Cite:   "M. B. Timmons, J. M. Ebeling: Recirculating Aquaculture (ammonia nitrogen = feed × protein × 0.092)",
		Origin: working.Published})
	srcNitrify = working.Register(working.Source{ID: "malone-pfeiffer-2006",
		Cite:   "R. F. Malone, T. J. Pfeiffer: Rating fixed film nitrifying biofilters used in recirculating aquaculture systems. Aquacultural Engineering 34, 2006, 389-402",
		Origin: working.Published})
	srcOutlet = working.Register(working.Source{ID: "outlet-ratings",
		Cite:   "Usual ratings of extension blocks: 230 V 10 A; 120 V 15 A with 80 % for continuous load",
		Origin: working.Memory})
	srcFoam = working.Register(working.Source{ID: "foam-surface",
		Cite:   "Makers' usual data of reticulated foam: 10, 20 and 30 pores an inch about 600, 1100 and 1700 m²/m³",
		Origin: working.Memory})
	srcRings = working.Register(working.Source{ID: "ring-surface",
		Cite:   "Handbook figure of ceramic rings of 13 mm: about 370 m²/m³, without the pores inside",
		Origin: working.Memory})
	srcCarriers = working.Register(working.Source{ID: "odegaard-2000",
		Cite:   "H. Ødegaard, B. Gisvold, J. Strickland: The influence of carrier size and shape in the moving bed biofilm process. Water Science and Technology 41(4-5), 2000, 383-391 (abstract): 350 m²/m³ at a filling of 70 %",
		Origin: working.Published})
)
