package drawing

// Role says what a line, a fill or a text means. Devices draw by role; no shape has a colour of its own.
type Role uint8

// The roles. None draws nothing.
const (
	None Role = iota

	// Lines.
	Cut           // a line to cut
	ScoreMountain // a score that folds away from you
	ScoreValley   // a score that folds towards you
	ScoreEither   // a score whose sense is not said
	ScoreStraight // a score that stays flat where it is shown
	Hidden        // an edge or a fold behind something
	Outline       // the visible outside of a view
	Edge          // a visible edge or fold inside a view
	Mark          // a mark to transfer or to line up by
	Glue          // hatching of a face that takes glue
	GlueBehind    // hatching where the face behind takes glue
	Dimension     // dimension lines; also the fill of their arrow heads
	Frame         // boxes, tables, leaders
	Trouble       // where something is wrong

	// Fills.
	Paper       // the ground
	FaceOuter   // the outer face of a stock
	FaceInner   // the inner face of a stock
	Solid       // solid ink: check bars, small signs
	TroubleArea // where something is wrong

	// Texts.
	TextPlain
	TextQuiet
	TextTrouble

	roleCount
)

// roleNames are plain words: classes in an SVG.
var roleNames = [roleCount]string{
	"none",
	"cut", "score-mountain", "score-valley", "score-either", "score-straight", "hidden", "outline", "edge", "mark",
	"glue", "glue-behind", "dimension", "frame", "trouble",
	"paper", "face-outer", "face-inner", "solid", "trouble-area",
	"text-plain", "text-quiet", "text-trouble",
}

// String returns the role's plain word, such as "score-mountain".
func (r Role) String() string {
	if r >= roleCount {
		return "none"
	}
	return roleNames[r]
}

// Roles returns every role but None, in order.
func Roles() []Role {
	all := make([]Role, 0, roleCount-1)
	for r := None + 1; r < roleCount; r++ {
		all = append(all, r)
	}
	return all
}

// Words returns what a legend says of the role; empty for what needs no explanation.
func (r Role) Words() string {
	switch r {
	case Cut:
		return "cut"
	case ScoreMountain:
		return "mountain: folds away from you"
	case ScoreValley:
		return "valley: folds towards you"
	case ScoreEither:
		return "score: folds either way"
	case ScoreStraight:
		return "score: lies flat here"
	case Hidden:
		return "hidden behind another panel"
	case Mark:
		return "mark: where another piece is glued"
	case Glue:
		return "glue here"
	case GlueBehind:
		return "glue here, on the face behind"
	case FaceOuter:
		return "outer face"
	case FaceInner:
		return "inner face"
	case Trouble, TroubleArea:
		return "needs a change"
	}
	return ""
}

// Style is a fill: a role and, for the faces of stocks, which stock and how much in shadow.
type Style struct {
	Role Role
	// Tint is one of the colours of card, from 0 ([TintOf]); there are Tints different ones, then they repeat.
	Tint int
	// Shade darkens a face, 0 (lit) to 1 (turned away), in steps of 1/32.
	Shade float64
}

// Fill returns the role as a fill: for roles without tints.
func (r Role) Fill() Style { return Style{Role: r} }

// Outer returns the fill of the outer face of a stock in tint n.
func Outer(n int) Style { return Style{Role: FaceOuter, Tint: n} }

// Inner returns the fill of the inner face of a stock in tint n.
func Inner(n int) Style { return Style{Role: FaceInner, Tint: n} }

// Shaded returns the style in shadow, 0 (lit) to 1.
func (s Style) Shaded(shade float64) Style {
	s.Shade = shade
	return s
}
