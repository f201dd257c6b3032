package trim

import (
	"fmt"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// Unlimited says that there are as many of a sheet, or room for as many of a part, as anybody wants.
const Unlimited = -1

// MostParts is the largest count of one part, or quantity of one sheet, that a job may name.
const MostParts = 10_000_000

// MostPrice is the highest price of a sheet and the highest value of a part, in the smallest unit of the currency or in
// whatever unit the values are.
const MostPrice = 1_000_000_000_000

// Sheet is a kind of parent sheet: paper of one size as it lies in the drawer, before it is cut.
type Sheet struct {
	Name string
	// W runs across, H up; both above 0 and at most length.Max.
	W, H length.Length
	// Edge is how much is cut off all round first, where mill edges are not square; 0 for sheets that are.
	Edge length.Length
	// Quantity is how many there are, or Unlimited.
	Quantity int
	// Price of one, in the smallest unit of the currency; 0 for an off-cut that is there anyway.
	Price int64
	// Grain is card.GrainAcross (the fibres run along W), card.GrainUp (along H), or not known.
	Grain card.Grain
	Where problem.Place

	trimmer Trimmer // of a plain job
}

// Part is a rectangle that is wanted out of the sheets: a piece, a mat, the box round a topper.
type Part struct {
	Name string
	// W lies across a sheet and H up unless the part is turned; both above 0 and at most length.Max.
	W, H length.Length
	// Count is how many are wanted, at least.
	Count int
	// Turn says whether it may be turned by 90 degrees: false for paper printed in one direction.
	Turn bool
	// Grain is how the fibres must run in the part as it is given: card.GrainAcross, card.GrainUp, or anything else for no
	// wish.
	Grain card.Grain
	// Value is what one is worth, and Most how many at most may be cut (or Unlimited), where the most value is sought.
	Value int64
	Most  int
	Where problem.Place
}

// Job is what is wanted and what there is to cut it from.
type Job struct {
	Sheets []Sheet
	Parts  []Part
	// Trimmer is what it is cut with.
	Trimmer Trimmer
	// Caliper of the paper, for how many layers are cut at once; 0 where it is not known: one layer.
	Caliper length.Length
}

// Suits says whether the grain and the direction of the part allow it to be cut from the sheet, turned or as it is.
// A part that wants a grain is not cut from a sheet whose grain is not known.
func (p Part) Suits(s Sheet, turned bool) bool {
	if turned && !p.Turn {
		return false
	}
	if p.Grain != card.GrainAcross && p.Grain != card.GrainUp {
		return true
	}
	if s.Grain != card.GrainAcross && s.Grain != card.GrainUp {
		return false
	}
	return (p.Grain == s.Grain) != turned
}

// Fits says whether one part can be cut from the sheet at all.
func (p Part) Fits(s Sheet) bool {
	return p.fits(s, false) || p.fits(s, true)
}

func (p Part) fits(s Sheet, turned bool) bool {
	w, h := p.lying(turned)
	w, h = w+2*s.Edge, h+2*s.Edge
	return p.Suits(s, turned) && w <= s.W && h <= s.H && s.reachable(w, h)
}

// lying returns how wide and high the part lies.
func (p Part) lying(turned bool) (w, h length.Length) {
	if turned {
		return p.H, p.W
	}
	return p.W, p.H
}

// Check returns every problem of the job: sizes and counts that cannot be, a trimmer that cannot be, parts that come out of
// no sheet.
//
// Problems: trim-sheet-size, trim-part-size, trim-edge, trim-quantity, trim-price, trim-count, trim-value, trim-trimmer for
// numbers out of their range; trim-no-sheet (a part is larger than every sheet), trim-grain (its grain or direction keeps it
// off every sheet that is large enough), trim-too-long (the trimmer does not reach).
func (j Job) Check() problem.List {
	l := j.Trimmer.check()
	for i, s := range j.Sheets {
		l = append(l, s.check(i, j.Trimmer)...)
	}
	if l.HasErrors() {
		return l.Sorted() // what comes out of such sheets is not asked
	}
	plain := j.plain()
	for i, p := range j.Parts {
		own := p.check(i)
		l = append(l, own...)
		if len(own) == 0 && p.Count > 0 {
			l = append(l, j.place(i, plain)...)
		}
	}
	return l.Sorted()
}

func (s Sheet) check(i int, t Trimmer) problem.List {
	var l problem.List
	who := title("sheet", s.Name, i)
	l = append(l, checkSize("trim-sheet-size", who, s.W, s.H, s.Where)...)
	if s.Edge < 0 || s.Edge > 0 && 2*s.Edge >= min(s.W, s.H) {
		l.Add(problem.Problem{Rule: "trim-edge", Where: s.Where, What: fmt.Sprintf("an edge of %s is to be cut off %s, %s by %s",
			s.Edge.Human(length.MM), who, s.W.Human(length.MM), s.H.Human(length.MM)), Needs: "0, or less than half of the shorter side"})
	}
	if s.Edge > 0 && !t.reaches(max(s.W, s.H)) {
		l.Add(problem.Problem{Rule: "trim-edge", Where: s.Where, What: fmt.Sprintf("the edges of %s, %s by %s, are to be cut off, but the trimmer cuts %s at most",
			who, s.W.Human(length.MM), s.H.Human(length.MM), t.Longest.Human(length.MM)), Needs: "a longer trimmer, or a sheet that fits it", Try: "keep the edges of this sheet (edge 0)"})
	}
	if s.Quantity < Unlimited || s.Quantity > MostParts {
		l.Add(problem.Problem{Rule: "trim-quantity", Where: s.Where, What: fmt.Sprintf("there are %d of %s", s.Quantity, who),
			Needs: fmt.Sprintf("a quantity from 0 to %d, or no limit", MostParts)})
	}
	if s.Price < 0 || s.Price > MostPrice {
		l.Add(problem.Problem{Rule: "trim-price", Where: s.Where, What: fmt.Sprintf("%s costs %d", who, s.Price),
			Needs: fmt.Sprintf("a price from 0 to %d", int64(MostPrice))})
	}
	return l
}

func (p Part) check(i int) problem.List {
	var l problem.List
	who := title("part", p.Name, i)
	l = append(l, checkSize("trim-part-size", who, p.W, p.H, p.Where)...)
	if p.Count < 0 || p.Count > MostParts {
		l.Add(problem.Problem{Rule: "trim-count", Where: p.Where, What: fmt.Sprintf("%s is wanted %d times", who, p.Count),
			Needs: fmt.Sprintf("a count from 0 to %d", MostParts)})
	}
	if p.Value < 0 || p.Value > MostPrice || p.Most < Unlimited {
		l.Add(problem.Problem{Rule: "trim-value", Where: p.Where, What: fmt.Sprintf("%s has the value %d and may be cut %d times", who, p.Value, p.Most),
			Needs: fmt.Sprintf("a value from 0 to %d, and a most of 0 or more, or no limit", int64(MostPrice))})
	}
	return l
}

func checkSize(rule, who string, w, h length.Length, where problem.Place) problem.List {
	if w > 0 && h > 0 && w <= length.Max && h <= length.Max {
		return nil
	}
	return problem.List{{Rule: rule, Where: where, What: fmt.Sprintf("%s is %s by %s", who, w.Human(length.MM), h.Human(length.MM)),
		Needs: "both sides above 0 and at most " + length.Length(length.Max).Human(length.MM)}}
}

// title names a part or a sheet by what the maker called it, or by its number from 1.
func title(kind, name string, i int) string {
	if name == "" {
		return fmt.Sprintf("%s %d", kind, i+1)
	}
	return kind + " " + name
}
