package slip

// Limits of a slip. They are far above what an honest one needs and low enough
// that a hostile one costs nothing. // judgement
const (
	// MaxFile is the largest file, in bytes.
	MaxFile = 20_000_000
	// MaxParts is the largest number of parts.
	MaxParts = 500
	// MaxUnpacked is the most that all parts together unpack to, in bytes,
	// counted while they are unpacked.
	MaxUnpacked = 50_000_000
	// MaxRatio is how many times its packed size a part may unpack to.
	MaxRatio = 100
	// MaxDepth is how many names a part's name may have between slashes.
	MaxDepth = 4
	// MaxName is the longest name of a part, in bytes.
	MaxName = 100

	// MaxJSON is the largest JSON part, in bytes.
	MaxJSON = 1_000_000
	// MaxJSONDepth is how deep objects and lists may lie in each other.
	MaxJSONDepth = 32
	// MaxJSONValues is how many values a JSON part may hold.
	MaxJSONValues = 10_000
	// MaxString is the longest text of a JSON part, in bytes.
	MaxString = 10_000
)

// Limits of what a profile says, in runes. // judgement
const (
	MaxTankName = 60
	MaxShopName = 120
	MaxAddress  = 500
	MaxHours    = 500
	MaxProgram  = 60
	// MaxNumber is the longest number as typed, the same that typing allows.
	MaxNumber = 32
)
