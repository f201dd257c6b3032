package card

import (
	"slices"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// Card is one card: everything a recipe says.
type Card struct {
	Title string
	// Unit is the unit of bare numbers, and the one that people are answered in first.
	Unit length.Unit
	// Marks is the pitch of the ruler; 0 if none is said.
	Marks length.Length
	// Fits is the size that the closed card must stay within; nil if none is said.
	Fits     *Size
	Stocks   []Stock
	Pieces   []Piece
	Glues    []Glue
	Opening  Opening
	Keeps    []Keep
	Mats     []Mat
	Toppers  []Topper
	Where    problem.Place // of the card line
	FitWhere problem.Place
	// MarksWhere is the place of the ruler's pitch; a line of 0 means that none was said.
	MarksWhere problem.Place
}

// Size is a width across and a height up.
type Size struct{ W, H length.Length }

// Grain says how the fibres run.
type Grain uint8

// Grain of a sheet (long, short) or of a piece (across, up). Unsaid is the zero value; unknown is said to be unknown.
const (
	GrainUnsaid Grain = iota
	GrainLong
	GrainShort
	GrainUnknown
	GrainAcross
	GrainUp
)

// Number is a measured value that a recipe may leave out.
type Number struct {
	Value float64
	Given bool
	Where problem.Place
}

// Stock is a paper.
type Stock struct {
	Name  string
	Label string
	// Grams per square metre (ISO 536 grammage).
	Grammage float64
	// Caliper is the thickness of one sheet.
	Caliper length.Length
	Grain   Grain
	// StiffnessMilliNm is the bending stiffness per width, in mN·m.
	StiffnessMilliNm Number
	// CreaseNPerRad is the stiffness of a crease per length, in N/rad.
	CreaseNPerRad Number
	// RestDeg is the fold angle that a fold pressed shut remembers; ScoredDeg that of a score never folded shut.
	RestDeg   Number
	ScoredDeg Number
	Where     problem.Place
	// GrammageWhere and CaliperWhere are the places of the two numbers.
	GrammageWhere problem.Place
	CaliperWhere  problem.Place
}

// Sense is the way a score folds, seen from the outer face.
type Sense uint8

// Either is a score whose sense is not said.
const (
	Either Sense = iota
	Mountain
	Valley
)

// String returns "mountain", "valley" or "either way".
func (s Sense) String() string { return [...]string{"either way", "mountain", "valley"}[s] }

// ScoreKind tells how a score was written.
type ScoreKind uint8

// Across is an upright line at a distance from the left edge; Up a level line at a distance from the bottom; Slanted a
// line between two points.
const (
	Across ScoreKind = iota
	Up
	Slanted
)

// Score is one score line. At holds for Across and Up, From and To for Slanted.
type Score struct {
	Kind     ScoreKind
	At       length.Length
	From, To plane.Point
	Sense    Sense
	Where    problem.Place
}

// Slit is a cut inside a piece.
type Slit struct {
	From, To plane.Point
	Where    problem.Place
}

// WindowKind is the shape of a window or a topper.
type WindowKind uint8

// The shapes that a recipe knows.
const (
	Rect WindowKind = iota
	Oval
	Circle
	Polygon
)

// String returns the word of the recipe.
func (k WindowKind) String() string { return [...]string{"rect", "oval", "circle", "polygon"}[k] }

// Window is an opening in a piece. Rect and Oval have a size and the lower left corner of their bounding rectangle in At;
// Circle is an Oval of equal width and height; Polygon has points, and no size or corner.
type Window struct {
	Kind   WindowKind
	Size   Size
	At     plane.Point
	Points []plane.Point
	Where  problem.Place
}

// PanelAt names the panel that contains a point.
type PanelAt struct {
	Name  string
	At    plane.Point
	Where problem.Place
}

// StripName is a panel name in a `panels` line; "" stands for a panel left unnamed.
type StripName struct {
	Name  string
	Where problem.Place
}

// CreaseValue overrides what a stock says of its creases at some scores; no scores means all of the piece.
type CreaseValue struct {
	Value  float64
	Scores []int
	Where  problem.Place
	// Places holds the place of each of Scores, where they were read from a text.
	Places []problem.Place
}

// ValueAt returns what a list says for a score, counted from 0: the last value that names it or means all of the piece.
func ValueAt(list []CreaseValue, score int) (value float64, ok bool) {
	for _, v := range slices.Backward(list) {
		if len(v.Scores) == 0 || slices.Contains(v.Scores, score+1) {
			return v.Value, true
		}
	}
	return 0, false
}

// Wedge takes both outer corners of a tab off by Depth.
type Wedge struct {
	Panel      string
	Depth      length.Length
	Where      problem.Place
	DepthWhere problem.Place
}

// Piece is one cut piece, made Copies times.
type Piece struct {
	Name   string
	Stock  string
	Copies int
	// Size is that of the rectangle, or of the bounding rectangle of Outline.
	Size Size
	// Outline holds the corners where the piece is not a rectangle.
	Outline []plane.Point
	Scores  []Score
	Slits   []Slit
	Windows []Window
	// Strip holds the names of the panels of a strip in order.
	Strip    []StripName
	PanelsAt []PanelAt
	Wedges   []Wedge
	// Rest holds fold angles in degrees, Crease stiffness per length in N/rad.
	Rest   []CreaseValue
	Crease []CreaseValue
	Grain  Grain
	// ClosedFolds lists the scores that are folded in the closed card, if ClosedFoldsSaid.
	ClosedFolds     []int
	ClosedFoldsSaid bool
	Where           problem.Place
	StockWhere      problem.Place
	SizeWhere       problem.Place
	FoldWhere       problem.Place
	StripWhere      problem.Place
	ClosedWhere     problem.Place
	CopiesWhere     problem.Place
	// FoldNames is how many senses a fold line names, one by one; 0 where it says "all" or is not there.
	FoldNames int
	// ClosedPlaces holds the place of each of ClosedFolds, where they were read from a text.
	ClosedPlaces []problem.Place
}

// PanelRef names a panel of one copy of a piece. Copy is 0 where none is said.
type PanelRef struct {
	Piece string
	Copy  int
	Panel string
	Where problem.Place
}

// PieceRef names one copy of a piece. Copy is 0 where none is said.
type PieceRef struct {
	Piece string
	Copy  int
	Where problem.Place
}

// Joint tells which faces glue joins.
type Joint uint8

// Inside: A's outer face on B's inner face. Outside: A's inner face on B's outer face. Against: outer on outer.
// Facing: inner on inner.
const (
	Inside Joint = iota
	Outside
	Against
	Facing
)

// String returns the word of the recipe.
func (j Joint) String() string { return [...]string{"inside", "outside", "against", "facing"}[j] }

// Align tells which sides of A and B lie level: the low side (left, bottom), the middles, or the high side.
type Align uint8

// AlignMiddle is what an unsaid alignment means.
const (
	AlignMiddle Align = iota
	AlignLow
	AlignHigh
)

// Glue joins panel A onto panel B. AlignX, AlignY, Over (right) and Up are in B's directions, seen on B's outer face.
// A is turned counter-clockwise by Turned degrees, seen on B's outer face, before it is aligned; where the joint brings
// unlike faces together (Against, Facing) A is first turned over about its upright middle.
type Glue struct {
	A, B           PanelRef
	Joint          Joint
	AlignX, AlignY Align
	TurnedDeg      float64
	Over, Up       length.Length
	Where          problem.Place
	TurnedWhere    problem.Place
}

// OpeningKind tells what drives a card from closed to open.
type OpeningKind uint8

// The ways a card opens.
const (
	OpensUnsaid OpeningKind = iota
	OpensByItself
	OpensAt
	OpensByPulling
)

// Opening is what drives a card. For OpensAt the score Score of Piece is opened until its two panels stand ToDeg apart
// (180 is open flat). For OpensByPulling piece A is pulled away from piece B.
type Opening struct {
	Kind  OpeningKind
	Piece PieceRef
	Score int
	ToDeg float64
	A, B  PieceRef
	Where problem.Place
	// ToWhere is the place of ToDeg.
	ToWhere problem.Place
}

// Relation compares the two sides of a Keep.
type Relation uint8

// The relations of a keep line.
const (
	Equal Relation = iota
	AtMost
	AtLeast
)

// String returns =, <= or >=.
func (r Relation) String() string { return [...]string{"=", "<=", ">="}[r] }

// TermKind tells what a linear term measures.
type TermKind uint8

// A panel's width along the scored direction, a piece's width or height, the card's width or height.
const (
	PanelWidth TermKind = iota
	PieceWidth
	PieceHeight
	CardWidth
	CardHeight
)

// Term is Num/Den times a measure.
type Term struct {
	Kind     TermKind
	Piece    string
	Panel    string
	Num, Den int64
	Where    problem.Place
}

// Linear is a sum of terms and a constant.
type Linear struct {
	Terms    []Term
	Constant length.Length
}

// Keep is a relation that resizing must respect.
type Keep struct {
	Left, Right Linear
	Relation    Relation
	Where       problem.Place
}

// Mat is a layer on each of some panels, smaller by Edge on every side; a later mat on the same panel lies on the first.
type Mat struct {
	Panels []PanelRef
	Stock  string
	Edge   length.Length
	Where  problem.Place
	// StockWhere is the place of the stock's name.
	StockWhere problem.Place
	EdgeWhere  problem.Place
}

// TopperPlace tells which level of a topper is given.
type TopperPlace uint8

// A topper is centred on its panel, or its top or bottom stands at a height above the lowest edge of the closed card.
const (
	TopperCentre TopperPlace = iota
	TopperTop
	TopperBottom
)

// Topper is an ornament glued on the outer face of a panel, centred across it.
type Topper struct {
	Kind       WindowKind
	Size       Size
	Points     []plane.Point
	Stock      string
	On         PanelRef
	Place      TopperPlace
	At         length.Length
	Thick      length.Length // above the stock's own caliper where given; 0 if not said
	ThickGiven bool
	Where      problem.Place
	StockWhere problem.Place
	SizeWhere  problem.Place
	ThickWhere problem.Place
}
