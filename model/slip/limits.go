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

// Limits of a visit slip. It carries pictures, which is all that makes it larger: 24
// are one a day for two weeks and ten close ones, and 2 MB hold a JPEG of MaxSide with
// its detail. All of it lies in memory at once, so that the whole stays below 64 MB. //
// judgement
const (
	// MaxVisit is the largest visit slip, in bytes, and the most that it unpacks to.
	MaxVisit = 50_000_000
	// MaxPictures is how many pictures it may hold.
	MaxPictures = 24
	// MaxPicture is the largest picture, in bytes.
	MaxPicture = 2_000_000
	// MaxSide is the longest side of a picture, in pixels: 170 mm at 300 dots an inch.
	MaxSide = 2000

	// MaxVisitJSON is its largest JSON part, in bytes, and MaxVisitValues how many
	// values that may hold: MaxEntries with their readings, three times over.
	MaxVisitJSON   = 4_000_000
	MaxVisitValues = 100_000
	// MaxVisitString is the longest text, in bytes: a note of the daybook.
	MaxVisitString = 80_000

	// MaxEntries is how many entries of the daybook it may hold: three months of ten
	// a day, twice.
	MaxEntries = 2000
	// MaxReadings is how many readings an entry may have.
	MaxReadings = 40
	// MaxAnimals is how many fish and groups, and how many wishes, it may hold.
	MaxAnimals = 200
	// MaxSigns is how many signs of a case it may hold.
	MaxSigns = 200
	// MaxMarks is how many marks a picture may have.
	MaxMarks = 100
	// MaxQuestions is how many questions it may ask.
	MaxQuestions = 20
)

// Limits of what visits and replies say, in runes. // judgement
const (
	MaxLabel    = 80
	MaxQuestion = 1000
	MaxWhy      = 500 // why something is proposed
	MaxSaid     = 200 // a name, a source, a price
)

// MaxProposals is how many rounds, and how many changes of the plan, a reply may
// propose. // judgement
const MaxProposals = 50

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
	text           int   // bytes of a text
	large          bool  // ZIP64 records may be there
}

var (
	slipLimits = limits{file: MaxFile, unpacked: MaxUnpacked, parts: MaxParts, ratio: MaxRatio, depth: MaxDepth, name: MaxName,
		json: MaxJSON, values: MaxJSONValues, text: MaxString}
	visitLimits = limits{file: MaxVisit, unpacked: MaxVisit, parts: MaxParts, ratio: MaxRatio, depth: MaxDepth, name: MaxName,
		json: MaxVisitJSON, values: MaxVisitValues, text: MaxVisitString}
	// A line of the manifest is about 150 bytes and three values.
	archiveLimits = limits{file: MaxArchive, unpacked: MaxArchive, parts: MaxArchiveParts, ratio: MaxRatio, depth: MaxDepth, name: MaxName,
		json: 300 * MaxArchiveParts, values: 4 * MaxArchiveParts, text: MaxString, large: true}
)
