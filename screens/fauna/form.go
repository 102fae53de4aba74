package fauna

// A fin stands on the back or the belly from one place of the body to another,
// the front first, so high in lengths of the animal, in a shape of finShapes.
type fin struct {
	below    bool
	from, to float64
	high     float64
	shape    string
}

// A form is how animals of a kind are built: the profile of the body and its
// depth in total lengths, the share of the length that the tail fin takes, and
// the fins. Places on the body run from the base of the tail (0) to the snout (1).
type form struct {
	body  string
	depth float64
	tail  float64 // share of the total length
	shape string  // of the tail fin
	span  float64 // half its height, in lengths
	fins  []fin

	pelvic, pelvicAt float64 // length and place; 0 none
	thread           bool    // the pelvic fins are threads
	pectoral         float64 // length; 0 none
	adipose          float64 // place; 0 none
	barbels          string  // "", "short", "pair", "long", "chin"
	wave             float64 // how far the axis winds, in lengths
	eye              [3]float64
	inverted         bool // swims belly up
}

func back(from, to, high float64, shape string) fin  { return fin{false, from, to, high, shape} }
func belly(from, to, high float64, shape string) fin { return fin{true, from, to, high, shape} }

// judgement, all of them, as the profiles.
var forms = map[string]form{
	"tetra": {body: "spindle", depth: .28, tail: .2, shape: "fork", span: .125, eye: [3]float64{.86, .2, .033}, pelvic: .075, pelvicAt: .58, pectoral: .09, adipose: .17,
		fins: []fin{back(.62, .44, .13, "tri"), belly(.42, .1, .08, "slope")}},
	"skirt": {body: "high", depth: .46, tail: .19, shape: "fork", span: .15, eye: [3]float64{.86, .2, .036}, pelvic: .1, pelvicAt: .6, pectoral: .1, adipose: .14,
		fins: []fin{back(.62, .42, .17, "tri"), belly(.48, .03, .12, "skirt")}},
	"flagged": {body: "high", depth: .43, tail: .19, shape: "fork", span: .15, eye: [3]float64{.86, .2, .036}, pelvic: .12, pelvicAt: .6, pectoral: .1, adipose: .14,
		fins: []fin{back(.64, .42, .22, "tri"), belly(.46, .05, .11, "slope")}},
	"thayeria": {body: "spindle", depth: .26, tail: .22, shape: "lowfork", span: .13, eye: [3]float64{.86, .2, .033}, pelvic: .07, pelvicAt: .58, pectoral: .09, adipose: .17,
		fins: []fin{back(.6, .44, .12, "tri"), belly(.42, .08, .07, "slope")}},
	"trident": {body: "spindle", depth: .3, tail: .24, shape: "trident", span: .12, eye: [3]float64{.86, .2, .033}, pelvic: .09, pelvicAt: .58, pectoral: .09, adipose: .16,
		fins: []fin{back(.62, .44, .2, "point"), belly(.46, .06, .1, "slope")}},
	"hatchet": {body: "keel", depth: .5, tail: .2, shape: "fork", span: .13, eye: [3]float64{.88, .3, .04}, pectoral: .3,
		fins: []fin{back(.34, .2, .08, "tri"), belly(.4, .04, .06, "slope")}},
	"pencil": {body: "slender", depth: .15, tail: .17, shape: "fork", span: .085, eye: [3]float64{.9, .15, .024}, pelvic: .07, pelvicAt: .5, pectoral: .07,
		fins: []fin{back(.54, .4, .09, "tri"), belly(.28, .16, .07, "tri")}},
	"rasbora": {body: "spindle", depth: .29, tail: .22, shape: "fork", span: .14, eye: [3]float64{.87, .18, .033}, pelvic: .075, pelvicAt: .6, pectoral: .09,
		fins: []fin{back(.56, .42, .13, "tri"), belly(.34, .18, .08, "tri")}},
	"scissor": {body: "slender", depth: .2, tail: .24, shape: "deepfork", span: .15, eye: [3]float64{.88, .18, .026}, pelvic: .07, pelvicAt: .56, pectoral: .09,
		fins: []fin{back(.54, .42, .11, "tri"), belly(.32, .18, .07, "tri")}},
	"danio": {body: "slender", depth: .22, tail: .2, shape: "fork", span: .11, eye: [3]float64{.89, .2, .028}, pelvic: .06, pelvicAt: .56, pectoral: .09, barbels: "short",
		fins: []fin{back(.4, .24, .1, "tri"), belly(.4, .12, .08, "slope")}},
	"barb": {body: "barb", depth: .4, tail: .2, shape: "fork", span: .14, eye: [3]float64{.86, .16, .032}, pelvic: .1, pelvicAt: .58, pectoral: .09,
		fins: []fin{back(.64, .4, .16, "tri"), belly(.34, .18, .1, "tri")}},
	"torpedo": {body: "spindle", depth: .22, tail: .21, shape: "deepfork", span: .13, eye: [3]float64{.88, .2, .026}, pelvic: .08, pelvicAt: .54, pectoral: .1, barbels: "short",
		fins: []fin{back(.66, .48, .14, "tri"), belly(.28, .16, .08, "tri")}},
	"bala": {body: "carp", depth: .25, tail: .24, shape: "deepfork", span: .16, eye: [3]float64{.88, .16, .028}, pelvic: .11, pelvicAt: .5, pectoral: .11,
		fins: []fin{back(.68, .46, .2, "tri"), belly(.28, .14, .11, "tri")}},
	"labeo": {body: "carp", depth: .23, tail: .22, shape: "deepfork", span: .15, eye: [3]float64{.87, .14, .022}, pelvic: .11, pelvicAt: .5, pectoral: .12, barbels: "short",
		fins: []fin{back(.68, .4, .2, "tri"), belly(.3, .16, .11, "tri")}},
	"algae": {body: "carp", depth: .19, tail: .19, shape: "fork", span: .11, eye: [3]float64{.88, .2, .02}, pelvic: .1, pelvicAt: .52, pectoral: .11, barbels: "short",
		fins: []fin{back(.66, .46, .14, "tri"), belly(.26, .15, .09, "tri")}},
	"sucker": {body: "cat", depth: .19, tail: .18, shape: "fork", span: .1, eye: [3]float64{.87, .4, .018}, pelvic: .09, pelvicAt: .5, pectoral: .12,
		fins: []fin{back(.62, .42, .12, "tri"), belly(.26, .15, .08, "tri")}},
	"guppy": {body: "slender", depth: .19, tail: .38, shape: "delta", span: .19, eye: [3]float64{.89, .2, .024}, pelvic: .05, pelvicAt: .56, pectoral: .06,
		fins: []fin{back(.48, .28, .12, "point"), belly(.46, .38, .07, "tri")}},
	"endler": {body: "slender", depth: .2, tail: .27, shape: "round", span: .1, eye: [3]float64{.89, .2, .027}, pelvic: .05, pelvicAt: .56, pectoral: .06,
		fins: []fin{back(.46, .28, .11, "round"), belly(.46, .38, .07, "tri")}},
	"platy": {body: "barb", depth: .34, tail: .22, shape: "round", span: .14, eye: [3]float64{.88, .18, .03}, pelvic: .07, pelvicAt: .56, pectoral: .09,
		fins: []fin{back(.56, .3, .13, "round"), belly(.42, .28, .09, "tri")}},
	"sword": {body: "slender", depth: .26, tail: .22, shape: "sword", span: .12, eye: [3]float64{.89, .18, .024}, pelvic: .06, pelvicAt: .54, pectoral: .08,
		fins: []fin{back(.62, .34, .12, "round"), belly(.42, .32, .08, "tri")}},
	"molly": {body: "barb", depth: .32, tail: .22, shape: "round", span: .15, eye: [3]float64{.89, .14, .026}, pelvic: .07, pelvicAt: .56, pectoral: .09,
		fins: []fin{back(.56, .32, .12, "round"), belly(.42, .3, .08, "tri")}},
	"sailfin": {body: "barb", depth: .31, tail: .22, shape: "round", span: .16, eye: [3]float64{.89, .14, .024}, pelvic: .07, pelvicAt: .56, pectoral: .09,
		fins: []fin{back(.74, .22, .2, "sail"), belly(.42, .3, .08, "tri")}},
	"cory": {body: "cory", depth: .34, tail: .2, shape: "fork", span: .13, eye: [3]float64{.8, .38, .03}, pelvic: .1, pelvicAt: .54, pectoral: .15, adipose: .16, barbels: "pair",
		fins: []fin{back(.68, .48, .17, "flag"), belly(.26, .14, .09, "tri")}},
	"pleco": {body: "pleco", depth: .21, tail: .22, shape: "underfork", span: .15, eye: [3]float64{.84, .6, .015}, pelvic: .13, pelvicAt: .54, pectoral: .19, adipose: .16,
		fins: []fin{back(.68, .44, .17, "sail"), belly(.28, .18, .08, "tri")}},
	"sailpleco": {body: "pleco", depth: .21, tail: .22, shape: "underfork", span: .15, eye: [3]float64{.84, .6, .015}, pelvic: .13, pelvicAt: .54, pectoral: .2, adipose: .12,
		fins: []fin{back(.74, .3, .24, "sail"), belly(.28, .18, .08, "tri")}},
	"bristle": {body: "pleco", depth: .24, tail: .22, shape: "trunc", span: .12, eye: [3]float64{.82, .6, .018}, pelvic: .13, pelvicAt: .54, pectoral: .18, adipose: .16, barbels: "bristles",
		fins: []fin{back(.64, .4, .15, "sail"), belly(.26, .16, .07, "tri")}},
	"wooder": {body: "pleco", depth: .24, tail: .22, shape: "trunc", span: .12, eye: [3]float64{.82, .6, .018}, pelvic: .13, pelvicAt: .54, pectoral: .18, adipose: .16,
		fins: []fin{back(.64, .4, .15, "sail"), belly(.26, .16, .07, "tri")}},
	"oto": {body: "pleco", depth: .19, tail: .2, shape: "trunc", span: .1, eye: [3]float64{.85, .4, .025}, pelvic: .1, pelvicAt: .5, pectoral: .13,
		fins: []fin{back(.58, .44, .14, "flag"), belly(.3, .18, .09, "tri")}},
	"glasscat": {body: "glass", depth: .2, tail: .17, shape: "deepfork", span: .1, eye: [3]float64{.93, .1, .02}, pectoral: .1, barbels: "ahead",
		fins: []fin{belly(.74, .02, .05, "low")}},
	"syno": {body: "cat", depth: .29, tail: .22, shape: "deepfork", span: .14, eye: [3]float64{.86, .3, .026}, pelvic: .09, pelvicAt: .44, pectoral: .14, adipose: .22, barbels: "pair", inverted: true,
		fins: []fin{back(.72, .54, .18, "flag"), belly(.24, .1, .09, "tri")}},
	"antenna": {body: "cat", depth: .22, tail: .24, shape: "deepfork", span: .14, eye: [3]float64{.87, .34, .024}, pelvic: .09, pelvicAt: .46, pectoral: .14, adipose: .28, barbels: "long",
		fins: []fin{back(.68, .54, .16, "flag"), belly(.28, .14, .08, "tri")}},
	"redtail": {body: "cat", depth: .24, tail: .19, shape: "trunc", span: .12, eye: [3]float64{.88, .44, .012}, pelvic: .1, pelvicAt: .46, pectoral: .15, adipose: .2, barbels: "long",
		fins: []fin{back(.64, .48, .13, "flag"), belly(.3, .16, .09, "tri")}},
	"pangas": {body: "carp", depth: .22, tail: .2, shape: "deepfork", span: .14, eye: [3]float64{.9, -.05, .02}, pelvic: .08, pelvicAt: .54, pectoral: .13, adipose: .14, barbels: "short",
		fins: []fin{back(.74, .62, .15, "flag"), belly(.46, .12, .08, "slope")}},
	"ariid": {body: "cat", depth: .23, tail: .23, shape: "deepfork", span: .16, eye: [3]float64{.89, .1, .018}, pelvic: .09, pelvicAt: .46, pectoral: .16, adipose: .22, barbels: "pair",
		fins: []fin{back(.72, .58, .18, "flag"), belly(.3, .14, .1, "tri")}},
	"botia": {body: "loach", depth: .28, tail: .22, shape: "fork", span: .14, eye: [3]float64{.78, .3, .018}, pelvic: .1, pelvicAt: .48, pectoral: .13, barbels: "pair",
		fins: []fin{back(.54, .38, .14, "tri"), belly(.22, .12, .1, "tri")}},
	"kuhli": {body: "worm", depth: .08, tail: .06, shape: "round", span: .034, eye: [3]float64{.96, .3, .01}, pectoral: .04, wave: .05, barbels: "short",
		fins: []fin{back(.32, .26, .03, "round"), belly(.2, .14, .03, "round")}},
	"weather": {body: "worm", depth: .11, tail: .1, shape: "round", span: .055, eye: [3]float64{.94, .3, .011}, pectoral: .07, pelvic: .05, pelvicAt: .42, wave: .022, barbels: "pair",
		fins: []fin{back(.48, .38, .07, "round"), belly(.24, .15, .05, "round")}},
	"stream": {body: "stream", depth: .19, tail: .19, shape: "underfork", span: .1, eye: [3]float64{.82, .7, .02}, pelvic: .2, pelvicAt: .52, pectoral: .24,
		fins: []fin{back(.58, .42, .12, "tri"), belly(.24, .15, .06, "tri")}},
	"betta": {body: "betta", depth: .2, tail: .42, shape: "veil", span: .27, eye: [3]float64{.88, .18, .022}, pelvic: .2, pelvicAt: .66, pectoral: .1,
		fins: []fin{back(.46, .16, .2, "sail"), belly(.64, .02, .25, "skirt")}},
	"gourami": {body: "gourami", depth: .4, tail: .2, shape: "trunc", span: .13, eye: [3]float64{.87, .2, .026}, pelvic: .38, pelvicAt: .66, thread: true, pectoral: .12,
		fins: []fin{back(.54, .26, .15, "point"), belly(.66, .02, .1, "low")}},
	"labyrinth": {body: "gourami", depth: .42, tail: .2, shape: "trunc", span: .13, eye: [3]float64{.86, .18, .032}, pelvic: .34, pelvicAt: .66, thread: true, pectoral: .12,
		fins: []fin{back(.68, .06, .13, "low"), belly(.66, .03, .13, "low")}},
	"croaker": {body: "spindle", depth: .29, tail: .24, shape: "round", span: .13, eye: [3]float64{.86, .2, .036}, pelvic: .16, pelvicAt: .62, thread: true, pectoral: .1,
		fins: []fin{back(.44, .28, .13, "point"), belly(.54, .04, .12, "skirt")}},
	"paradise": {body: "spindle", depth: .29, tail: .32, shape: "lyre", span: .19, eye: [3]float64{.87, .2, .025}, pelvic: .12, pelvicAt: .62, pectoral: .1,
		fins: []fin{back(.6, .1, .15, "point"), belly(.58, .06, .15, "point")}},
	"kisser": {body: "gourami", depth: .42, tail: .2, shape: "trunc", span: .13, eye: [3]float64{.86, .14, .022}, pelvic: .1, pelvicAt: .64, pectoral: .12,
		fins: []fin{back(.7, .04, .1, "low"), belly(.62, .03, .1, "low")}},
	"giant": {body: "gourami", depth: .42, tail: .18, shape: "round", span: .13, eye: [3]float64{.88, .2, .017}, pelvic: .36, pelvicAt: .66, thread: true, pectoral: .12,
		fins: []fin{back(.58, .1, .11, "low"), belly(.62, .02, .12, "low")}},
	"angel": {body: "disc", depth: .56, tail: .24, shape: "streamer", span: .17, eye: [3]float64{.85, .16, .03}, pelvic: .42, pelvicAt: .66, thread: true, pectoral: .1,
		fins: []fin{back(.64, .08, .4, "swept"), belly(.58, .06, .42, "swept")}},
	"ram": {body: "cichlid", depth: .42, tail: .22, shape: "round", span: .15, eye: [3]float64{.85, .22, .036}, pelvic: .15, pelvicAt: .62, pectoral: .12,
		fins: []fin{back(.76, .08, .15, "comb"), belly(.36, .08, .13, "round")}},
	"apisto": {body: "cichlid", depth: .28, tail: .26, shape: "lyre", span: .14, eye: [3]float64{.87, .2, .026}, pelvic: .17, pelvicAt: .62, pectoral: .1,
		fins: []fin{back(.76, .08, .2, "crest"), belly(.36, .08, .13, "point")}},
	"krib": {body: "cichlid", depth: .28, tail: .24, shape: "spear", span: .12, eye: [3]float64{.87, .2, .024}, pelvic: .14, pelvicAt: .62, pectoral: .1,
		fins: []fin{back(.76, .08, .12, "long"), belly(.36, .08, .12, "point")}},
	"cichlid": {body: "cichlid", depth: .42, tail: .21, shape: "round", span: .14, eye: [3]float64{.85, .24, .026}, pelvic: .15, pelvicAt: .62, pectoral: .13,
		fins: []fin{back(.76, .08, .13, "long"), belly(.38, .08, .13, "point")}},
	"mbuna": {body: "cichlid", depth: .33, tail: .21, shape: "trunc", span: .12, eye: [3]float64{.87, .2, .024}, pelvic: .12, pelvicAt: .62, pectoral: .12,
		fins: []fin{back(.76, .06, .11, "long"), belly(.34, .08, .1, "round")}},
	"oscar": {body: "cichlid", depth: .46, tail: .2, shape: "round", span: .16, eye: [3]float64{.86, .18, .024}, pelvic: .13, pelvicAt: .62, pectoral: .14,
		fins: []fin{back(.74, .03, .13, "long"), belly(.42, .03, .14, "round")}},
	"discus": {body: "disc", depth: .74, tail: .18, shape: "trunc", span: .15, eye: [3]float64{.86, .14, .03}, pelvic: .18, pelvicAt: .66, pectoral: .12,
		fins: []fin{back(.76, .03, .1, "low"), belly(.66, .03, .1, "low")}},
	"rainbow": {body: "rainbow", depth: .38, tail: .19, shape: "fork", span: .12, eye: [3]float64{.88, .2, .028}, pelvic: .09, pelvicAt: .58, pectoral: .1,
		fins: []fin{back(.62, .54, .1, "tri"), back(.5, .1, .1, "low"), belly(.58, .08, .1, "low")}},
	"threadfin": {body: "slender", depth: .19, tail: .24, shape: "lyre", span: .13, eye: [3]float64{.9, .2, .026}, pelvic: .1, pelvicAt: .6, pectoral: .08,
		fins: []fin{back(.6, .5, .2, "paddle"), back(.44, .34, .26, "whip"), belly(.56, .4, .28, "whip")}},
	"blueeye": {body: "slender", depth: .2, tail: .2, shape: "fork", span: .11, eye: [3]float64{.89, .16, .03}, pelvic: .08, pelvicAt: .6, pectoral: .12,
		fins: []fin{back(.56, .5, .11, "tri"), back(.44, .24, .12, "point"), belly(.48, .22, .12, "point")}},
	"goldfish": {body: "carp", depth: .33, tail: .26, shape: "deepfork", span: .17, eye: [3]float64{.87, .24, .022}, pelvic: .1, pelvicAt: .54, pectoral: .11,
		fins: []fin{back(.62, .3, .14, "sail"), belly(.26, .14, .1, "tri")}},
	"fancy": {body: "egg", depth: .5, tail: .38, shape: "twin", span: .24, eye: [3]float64{.86, .24, .03}, pelvic: .13, pelvicAt: .6, pectoral: .11,
		fins: []fin{back(.64, .34, .22, "sail"), belly(.26, .12, .14, "tri")}},
	"koi": {body: "carp", depth: .26, tail: .2, shape: "fork", span: .13, eye: [3]float64{.89, .24, .013}, pelvic: .1, pelvicAt: .52, pectoral: .14, barbels: "short",
		fins: []fin{back(.64, .3, .1, "sail"), belly(.24, .14, .09, "tri")}},
	"killi": {body: "pike", depth: .2, tail: .28, shape: "lyre", span: .12, eye: [3]float64{.91, .24, .026}, pelvic: .06, pelvicAt: .52, pectoral: .09,
		fins: []fin{back(.34, .1, .13, "point"), belly(.4, .08, .13, "point")}},
	"gardner": {body: "pike", depth: .22, tail: .23, shape: "trunc", span: .11, eye: [3]float64{.91, .24, .026}, pelvic: .06, pelvicAt: .52, pectoral: .09,
		fins: []fin{back(.36, .1, .13, "round"), belly(.42, .08, .13, "round")}},
	"panchax": {body: "pike", depth: .19, tail: .21, shape: "spear", span: .1, eye: [3]float64{.91, .2, .024}, pelvic: .1, pelvicAt: .54, pectoral: .09,
		fins: []fin{back(.24, .1, .1, "round"), belly(.46, .06, .12, "low")}},
	"rocket": {body: "pike", depth: .19, tail: .26, shape: "spear", span: .09, eye: [3]float64{.92, .2, .026}, pelvic: .1, pelvicAt: .52, pectoral: .07,
		fins: []fin{back(.22, .08, .1, "point"), belly(.32, .08, .11, "point")}},
	"flagfish": {body: "barb", depth: .4, tail: .2, shape: "round", span: .14, eye: [3]float64{.88, .16, .03}, pelvic: .09, pelvicAt: .56, pectoral: .12,
		fins: []fin{back(.6, .12, .12, "low"), belly(.34, .1, .12, "round")}},
	"rice": {body: "slender", depth: .2, tail: .19, shape: "trunc", span: .09, eye: [3]float64{.9, .18, .034}, pelvic: .06, pelvicAt: .52, pectoral: .11,
		fins: []fin{back(.22, .12, .1, "tri"), belly(.46, .12, .09, "low")}},
	"pacu": {body: "piranha", depth: .52, tail: .18, shape: "fork", span: .15, eye: [3]float64{.88, .06, .018}, pelvic: .07, pelvicAt: .58, pectoral: .1, adipose: .14,
		fins: []fin{back(.6, .38, .12, "tri"), belly(.42, .06, .1, "slope")}},
	"piranha": {body: "piranha", depth: .5, tail: .18, shape: "fork", span: .15, eye: [3]float64{.87, .18, .024}, pelvic: .07, pelvicAt: .58, pectoral: .1, adipose: .14,
		fins: []fin{back(.6, .38, .13, "tri"), belly(.44, .05, .1, "slope")}},
	"arowana": {body: "tongue", depth: .19, tail: .09, shape: "round", span: .06, eye: [3]float64{.93, .2, .016}, pelvic: .07, pelvicAt: .54, pectoral: .16, barbels: "chin",
		fins: []fin{back(.36, .01, .06, "low"), belly(.48, .01, .08, "low")}},
	"bichir": {body: "worm", depth: .12, tail: .12, shape: "spear", span: .06, eye: [3]float64{.95, .24, .009}, pelvic: .06, pelvicAt: .32, pectoral: .08, barbels: "nose",
		fins: []fin{back(.7, .62, .05, "finlet"), back(.6, .52, .05, "finlet"), back(.5, .42, .05, "finlet"), back(.4, .32, .05, "finlet"), back(.3, .22, .05, "finlet"), back(.2, .12, .05, "finlet"), back(.1, .02, .05, "finlet"), belly(.12, .02, .05, "tri")}},
	"feather": {body: "knife", depth: .29, tail: .05, shape: "spear", span: .02, eye: [3]float64{.93, .2, .013}, pectoral: .1,
		fins: []fin{back(.52, .47, .09, "tri"), belly(.76, 0, .06, "low")}},
	"ghost": {body: "knife", depth: .18, tail: .09, shape: "spear", span: .03, eye: [3]float64{.95, .3, .007}, pectoral: .09,
		fins: []fin{belly(.86, .02, .055, "low")}},
	"puffer": {body: "globe", depth: .42, tail: .2, shape: "round", span: .1, eye: [3]float64{.82, .36, .042}, pectoral: .1,
		fins: []fin{back(.3, .16, .11, "round"), belly(.28, .15, .1, "round")}},
	"goby": {body: "goby", depth: .27, tail: .2, shape: "round", span: .12, eye: [3]float64{.88, .4, .03}, pelvic: .1, pelvicAt: .68, pectoral: .13,
		fins: []fin{back(.7, .52, .12, "round"), back(.42, .12, .12, "round"), belly(.4, .12, .11, "round")}},
}
