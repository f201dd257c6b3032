package card

import (
	"fmt"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// line is what makes two scores the same line.
type line struct {
	kind     ScoreKind
	at       length.Length
	from, to plane.Point
}

func lineOf(s Score) line {
	if s.Kind != Slanted {
		return line{kind: s.Kind, at: s.At}
	}
	if s.To.X < s.From.X || s.To.X == s.From.X && s.To.Y < s.From.Y {
		s.From, s.To = s.To, s.From
	}
	return line{kind: Slanted, from: s.From, to: s.To}
}

func (k *checker) checkScores(p *Piece, sized bool) {
	if len(p.Scores) > MaxScores {
		k.add("too-many", p.Scores[MaxScores].Where, "piece "+p.Name+" has "+problem.Count(len(p.Scores), "score"), "at most "+problem.Count(MaxScores, "score")+" in a piece", "")
		return
	}
	first := map[line]int{}
	for i, s := range p.Scores {
		if s.Kind == Slanted && s.From == s.To {
			k.add("no-length", s.Where, "the score starts and ends at "+k.point(s.From), "two different points", "")
			continue
		}
		if sized {
			k.checkScoreInside(p, s)
		}
		if j, ok := first[lineOf(s)]; ok {
			k.addNote("score-repeated", s.Where, fmt.Sprintf("score %d lies on score %d", i+1, j+1), "each score once", "",
				problem.Note{Where: p.Scores[j].Where, What: "the other score is here"})
		} else {
			first[lineOf(s)] = i
			k.checkScoreOrder(p, i)
		}
	}
}

func (k *checker) checkScoreInside(p *Piece, s Score) {
	side, name := p.Size.W, "wide"
	switch s.Kind {
	case Up:
		side, name = p.Size.H, "high"
	case Slanted:
		box := plane.BoxOf(s.From, s.To)
		onSide := box.W() == 0 && (box.Min.X == 0 || box.Min.X == p.Size.W) || box.H() == 0 && (box.Min.Y == 0 || box.Min.Y == p.Size.H)
		if !inBox(p, s.From, s.To) || onSide {
			k.add("score-outside", s.Where, "the score from "+k.point(s.From)+" to "+k.point(s.To)+" does not run through the piece", k.inside(p), "")
		}
		return
	}
	if s.At <= 0 || s.At >= side {
		k.add("score-outside", s.Where,
			fmt.Sprintf("score at %s is not inside the piece: it is %s %s, so a score lies above 0 and below %[2]s", k.n(s.At), k.n(side), name),
			"", "")
	}
}

// checkScoreOrder reports a score that comes before its neighbour in the same line of the recipe: written in order, a
// slip of the pen shows. A score with no place stands in no line.
func (k *checker) checkScoreOrder(p *Piece, i int) {
	if i == 0 || p.Scores[i].Where.Line == 0 {
		return
	}
	a, b := p.Scores[i-1], p.Scores[i]
	if a.Kind == Slanted || a.Kind != b.Kind || a.Where.Line != b.Where.Line || b.At >= a.At {
		return
	}
	k.add("score-order", b.Where, fmt.Sprintf("score %d at %s comes after score %d at %s", i+1, k.n(b.At), i, k.n(a.At)),
		"the scores of one line from the smallest to the largest", "")
}

func (k *checker) checkFoldCount(p *Piece) {
	if p.FoldNames == 0 || p.FoldNames == len(p.Scores) || k.gap(p.Name, "score", "fold") {
		return
	}
	k.add("fold-count", p.FoldWhere, "fold names "+problem.Count(p.FoldNames, "sense")+" for "+problem.Count(len(p.Scores), "score"),
		"one m or v for each score, in the order in which the scores are written", "")
}

// rows says how the panels of a piece lie: in a row when its scores all run the same way from edge to edge.
type rows uint8

const (
	inRow    rows = iota
	crossed       // level and upright scores make a grid
	unjudged      // slanted scores, slits, windows or an outline: package pattern counts
)

func rowsOf(p *Piece) rows {
	if len(p.Slits)+len(p.Windows)+len(p.Outline) > 0 {
		return unjudged
	}
	out := inRow
	for _, s := range p.Scores {
		if s.Kind == Slanted {
			return unjudged
		}
		if s.Kind != p.Scores[0].Kind {
			out = crossed
		}
	}
	return out
}

func (k *checker) checkPanelCount(p *Piece) {
	if len(p.Strip) == 0 || k.gap(p.Name, "score", "panels", "slit", "window", "outline") {
		return
	}
	switch rowsOf(p) {
	case crossed:
		k.add("panel-names-need-points", p.StripWhere, "the panels of "+p.Name+" do not lie in one row, so a list cannot name them",
			"each panel named by a point in it: panel front at (10, 10)", "")
	case inRow:
		if want := len(p.Scores) + 1; len(p.Strip) != want {
			verb := " make "
			if len(p.Scores) == 1 {
				verb = " makes "
			}
			k.add("panel-count", p.StripWhere, "panels names "+problem.Count(len(p.Strip), "panel")+", but "+problem.Count(len(p.Scores), "score")+verb+problem.Count(want, "panel"),
				"one name for each panel, _ for one that is left without a name", "")
		}
	}
}

func (k *checker) checkPanelNames(p *Piece, sized bool) {
	name := func(n string, where problem.Place) {
		k.checkName(n, where)
		k.checkReserved(n, where, "width", "height")
	}
	seen := map[string]bool{"": true}
	for _, s := range p.Strip {
		if !seen[s.Name] {
			seen[s.Name] = true
			name(s.Name, s.Where)
		}
	}
	for _, at := range p.PanelsAt {
		name(at.Name, at.Where)
		if sized && !inBox(p, at.At) {
			k.add("panel-point", at.Where, "the point "+k.point(at.At)+" for panel "+problem.Quote(at.Name)+" is not inside the piece", k.inside(p), "")
		}
	}
}

// checkScoreNumbers judges the lines that name scores by their numbers.
func (k *checker) checkScoreNumbers(p *Piece) {
	for _, v := range p.Rest {
		k.checkFoldAngle(v.Value, v.Where)
		k.checkNumbers(p, v.Scores, v.Places, v.Where)
	}
	for _, v := range p.Crease {
		k.checkStiffness(Number{v.Value, true, v.Where}, "N/rad")
		k.checkNumbers(p, v.Scores, v.Places, v.Where)
	}
	k.checkNumbers(p, p.ClosedFolds, p.ClosedPlaces, p.ClosedWhere)
}

func (k *checker) checkNumbers(p *Piece, numbers []int, places []problem.Place, where problem.Place) {
	seen := map[int]bool{}
	for i, n := range numbers {
		if i < len(places) {
			where = places[i]
		}
		if seen[n] {
			k.add("said-twice", where, fmt.Sprintf("score %d stands in this list already", n), "each score once", "")
		} else {
			k.checkNumber(p, n, where)
		}
		seen[n] = true
	}
}

func (k *checker) checkNumber(p *Piece, n int, where problem.Place) {
	if n >= 1 && n <= len(p.Scores) || k.gap(p.Name, "score") {
		return
	}
	needs := "a piece with scores"
	if len(p.Scores) > 0 {
		needs = fmt.Sprintf("a number from 1 to %d", len(p.Scores))
	}
	k.add("score-number", where, fmt.Sprintf("there is no score %d: %s has %s", n, p.Name, problem.Count(len(p.Scores), "score")), needs, "")
}
