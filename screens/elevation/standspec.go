package elevation

// StandKind is what the tank stands on.
type StandKind uint8

// The kinds. An unknown stand is drawn dashed.
const (
	UnknownStand StandKind = iota
	Cabinet                // made and rated for aquariums
	Furniture              // a board on two sides
	PostFrame              // a frame of four posts with rails
)

// Stand is what the tank stands on, in metres.
type Stand struct {
	Kind   StandKind
	Height float64 // of its top above the floor, > 0
	Length float64 // along the front; 0 means a little more than the tank
	Top    float64 // thickness of the board, > 0; 0 means no board known

	Span float64 // clear span under the board of furniture, > 0; 0 means nearly its length

	Leg       float64 // width of the posts of a frame, or of the feet, seen from the front
	Rail      float64 // depth of the rails under the board; 0 means none
	LowerRail float64 // height of the lower rail's middle above the floor; 0 means none
	Shelf     bool    // a shelf lies on the lower rail
	BackPanel bool
	Diagonal  bool

	Sag float64 // true sag of the board in metres, drawn enlarged; 0 draws none
	Mat float64 // thickness of the levelling mat under the tank; 0 means none
}
