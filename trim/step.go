package trim

import (
	"foldwright/length"
)

// PileKind says what becomes of pieces.
type PileKind uint8

// Pieces are whole sheets, strips that are cut up further, finished parts, or left over.
const (
	Sheets PileKind = iota
	Strips
	Finished
	Leftover
)

// Pile is a number of pieces of one size that lie together.
type Pile struct {
	Kind PileKind
	// Name of strips, a letter or two, the same wherever they are spoken of; "" for others.
	Name string
	// Number of the sheet in the job for sheets, of the part for finished parts; Turned says that these lie turned by 90
	// degrees.
	Number int
	Turned bool
	W, H   length.Length
	Count  int
}

// Step is one thing to do at the trimmer: pieces of one pile are taken up one stack after the other, and so many strips of
// one width are cut off each.
type Step struct {
	// Layout is the number of the layout in the plan, from 0.
	Layout int
	// Fence is where the fence stands; Moved says that it has to be moved there.
	Fence length.Length
	Moved bool
	// Way is AtX where the left edge of the pieces lies at the fence, AtY where it is the lower edge. Turned says that they
	// were cut the other way before.
	Way    CutKind
	Turned bool
	// Take is what is taken up, Each how many cuts are made in each piece, Layers how many pieces are cut at once.
	Take   Pile
	Each   int
	Layers int
	// Square says that a mill edge is cut off: it falls off behind the blade, and what lies at the fence stays in hand and is
	// turned round.
	Square bool
	// Out is what comes out of all the pieces. Left is what stays of them for a later step, under the same name; its Count
	// is 0 where nothing stays.
	Out  []Pile
	Left Pile
}

// Stacks is how often pieces are taken up: one tick for each.
func (s Step) Stacks() int { return (s.Take.Count + s.Layers - 1) / s.Layers }

// Strokes is how often the blade comes down.
func (s Step) Strokes() int { return s.Stacks() * s.Each }

// Pace is how fast somebody works, in seconds: for moving the fence and trying it on a scrap, for taking up a stack and laying down what
// was cut, for a stroke of the blade.
type Pace struct{ Fence, Stack, Stroke float64 }

// UsualPace is a guess at unhurried work by hand, without a source: whoever measures has better ones.
func UsualPace() Pace {
	return Pace{Fence: 30, Stack: 6, Stroke: 4}
}

// Time is how long some steps take, in seconds.
func (p Pace) Time(steps []Step) (seconds float64) {
	for _, s := range steps {
		if s.Moved {
			seconds += p.Fence
		}
		seconds += float64(s.Stacks())*p.Stack + float64(s.Strokes())*p.Stroke
	}
	return seconds
}
