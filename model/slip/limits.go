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

// Limits of an archive: that of somebody with ten years of daybook and some
// pictures every day, several times over. // judgement
const (
	// MaxArchive is the largest archive, in bytes, and what it unpacks to.
	MaxArchive = 512_000_000_000
	// MaxArchiveParts is the largest number of parts, nearly all pictures.
	MaxArchiveParts = 200_000
	// MaxTable is the largest table of rows as JSON, in bytes.
	MaxTable = 128_000_000
	// MaxRows is how many rows all tables together may hold.
	MaxRows = 1_000_000
	// MaxOriginal is the largest picture, in bytes.
	MaxOriginal = 64_000_000
	// MaxCell is the longest text of a row, in bytes.
	MaxCell = 1 << 20
)

// limits are those that a file is held to.
type limits struct {
	file, unpacked int64 // bytes
	parts          int
	ratio          int64
	depth, name    int   // of a part's name
	json           int64 // bytes of the manifest
	values         int   // of the manifest
	large          bool  // ZIP64 records may be there
}

var (
	slipLimits = limits{file: MaxFile, unpacked: MaxUnpacked, parts: MaxParts, ratio: MaxRatio, depth: MaxDepth, name: MaxName,
		json: MaxJSON, values: MaxJSONValues}
	// A line of the manifest is about 150 bytes and three values.
	archiveLimits = limits{file: MaxArchive, unpacked: MaxArchive, parts: MaxArchiveParts, ratio: MaxRatio, depth: MaxDepth, name: MaxName,
		json: 300 * MaxArchiveParts, values: 4 * MaxArchiveParts, large: true}
)
