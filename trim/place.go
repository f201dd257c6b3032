package trim

import (
	"fmt"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// place says why part i comes out of no sheet, if so.
func (j Job) place(i int, plain Job) problem.List {
	part := plain.Parts[i]
	loose := part // as if nothing but its size counted
	loose.Turn, loose.Grain = true, card.GrainUnsaid
	why := problem.Problem{Rule: "trim-no-sheet"}
	for _, s := range plain.Sheets {
		if s.Quantity == 0 {
			continue
		}
		free := s
		free.trimmer = Trimmer{}
		switch {
		case part.Fits(s):
			return nil
		case part.Fits(free):
			why.Rule = "trim-too-long"
		case loose.Fits(free) && why.Rule == "trim-no-sheet":
			why.Rule = "trim-grain"
		}
	}
	p := j.Parts[i]
	why.Where = p.Where
	why.What = fmt.Sprintf("%s, %s by %s, ", title("part", p.Name, i), p.W.Human(length.MM), p.H.Human(length.MM))
	switch why.Rule {
	case "trim-too-long":
		why.What += "cannot be cut with this trimmer"
		why.Needs = fmt.Sprintf("a trimmer for longer cuts than %s that holds strips of less than %s, or another sheet", j.Trimmer.Longest.Human(length.MM), j.Trimmer.Narrowest.Human(length.MM))
		if j.Trimmer.Longest == 0 || j.Trimmer.Narrowest == 0 {
			why.Needs = j.Trimmer.limit()
		}
	case "trim-grain":
		why.What += j.direction(p)
		why.Needs = "a sheet that holds the part in its direction"
		why.Try = "let the part be turned, or say the grain of the sheets, or take the wish for a grain away"
	default:
		why.What += "comes out of no sheet that there is"
		why.Needs = "a sheet at least as large" + j.nearest(p)
	}
	return problem.List{why}
}

// limit says what the trimmer would have to do where it has one limit.
func (t Trimmer) limit() string {
	if t.Longest > 0 {
		return fmt.Sprintf("a trimmer for cuts longer than %s, or another sheet", t.Longest.Human(length.MM))
	}
	return fmt.Sprintf("a trimmer that holds strips of less than %s, or another sheet", t.Narrowest.Human(length.MM))
}

// direction says what keeps a part off sheets that are large enough for it.
func (j Job) direction(p Part) string {
	known := false
	for _, s := range j.Sheets {
		known = known || s.Quantity != 0 && (s.Grain == card.GrainAcross || s.Grain == card.GrainUp)
	}
	switch {
	case p.Grain != card.GrainAcross && p.Grain != card.GrainUp:
		return "would come out of a sheet only if it were turned"
	case !known:
		return "wants its grain in one direction, and the grain of the sheets is not known"
	}
	return "wants its grain in a direction in which it comes out of no sheet"
}

// nearest names the sheet that lacks least for a part, and what it lacks.
func (j Job) nearest(p Part) string {
	best, words := length.Length(-1), ""
	for i, s := range j.Sheets {
		if s.Quantity == 0 {
			continue
		}
		for _, turned := range [2]bool{false, true} {
			w, h := p.lying(turned)
			wide, high := max(0, w-s.W+2*s.Edge), max(0, h-s.H+2*s.Edge)
			if turned && !p.Turn || best >= 0 && wide+high >= best {
				continue
			}
			best = wide + high
			words = fmt.Sprintf("; the nearest is %s, %s by %s, which lacks %s", title("sheet", s.Name, i), s.W.Human(length.MM), s.H.Human(length.MM), lacks(wide, high))
		}
	}
	return words
}

func lacks(wide, high length.Length) string {
	switch {
	case high == 0:
		return wide.Human(length.MM) + " of width"
	case wide == 0:
		return high.Human(length.MM) + " of height"
	}
	return wide.Human(length.MM) + " of width and " + high.Human(length.MM) + " of height"
}
