package trim

import (
	"fmt"
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// Words says what is to be done, in one sentence, lengths in the unit: "fence to 36 mm; 17 × sheet blue of 210 mm by
// 297 mm, the edge of 297 mm at the fence, 2 at once: cut 5 strips off each; that makes 85 × strip A of 36 mm by 297 mm".
func (s Step) Words(j Job, u length.Unit) string {
	var b strings.Builder
	if s.Moved {
		b.WriteString("fence to " + s.Fence.Human(u) + "; ")
	}
	long := s.Take.H
	if s.Way == AtY {
		long = s.Take.W
	}
	b.WriteString(s.Take.words(j, u))
	if s.Turned {
		b.WriteString(", turned")
	}
	fmt.Fprintf(&b, ", the edge of %s at the fence", long.Human(u))
	if s.Layers > 1 {
		fmt.Fprintf(&b, ", %d at once", s.Layers)
	}
	if s.Square {
		b.WriteString(": cut off the edge behind the blade, to have it square; then turn it half round")
		return b.String()
	}
	b.WriteString(": cut " + problem.Count(s.Each, "strip") + " off " + each(s.Take.Count) + "; that makes ")
	var out []string
	for _, o := range s.Out {
		out = append(out, o.words(j, u))
	}
	b.WriteString(strings.Join(out, ", "))
	if s.Left.Count > 0 {
		fmt.Fprintf(&b, "; %s by %s stay to be cut again", s.Left.W.Human(u), s.Left.H.Human(u))
	}
	return b.String()
}

func each(n int) string {
	if n == 1 {
		return "it"
	}
	return "each"
}

// words names a pile.
func (p Pile) words(j Job, u length.Unit) string {
	size := p.W.Human(u) + " by " + p.H.Human(u)
	switch p.Kind {
	case Sheets:
		return fmt.Sprintf("%d × %s of %s", p.Count, title("sheet", j.Sheets[p.Number].Name, p.Number), size)
	case Strips:
		return fmt.Sprintf("%d × strip %s of %s", p.Count, p.Name, size)
	case Finished:
		return fmt.Sprintf("%d × %s", p.Count, title("part", j.Parts[p.Number].Name, p.Number))
	}
	return fmt.Sprintf("%d × off-cut of %s", p.Count, size)
}
