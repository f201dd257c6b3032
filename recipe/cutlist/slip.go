package cutlist

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// pattern tells which panels are not as wide as those that they equal in the form.
func (b *builder) pattern(p *card.Piece, mine shape, v []length.Length, form string) {
	u := mine.widths
	if i, e := oneSlip(mine, v); e != nil {
		b.scoreOff(p, mine, v, e, i, form)
		return
	}
	e := evened(u, v)
	var off []int // scores that do not stand where the equal panels put them
	var at, want length.Length
	for i := range len(u) - 1 {
		at, want = at+u[i], want+e[i]
		if at != want {
			off = append(off, i)
		}
	}
	if len(off) == 1 {
		b.scoreOff(p, mine, v, e, off[0], form)
		return
	}
	for i := range u {
		if u[i] != e[i] {
			b.panelOff(p, mine, v, e, i, form)
		}
	}
}

// scoreOff tells of a single score that is off.
func (b *builder) scoreOff(p *card.Piece, mine shape, v, e []length.Length, i int, form string) {
	k := mine.order[i]
	want := length.Length(0)
	for _, w := range e[:i+1] {
		want += w
	}
	head := fmt.Sprintf("score %d at %s: in %s ", k+1, b.bare(mine.ats[i]), form)
	what := head + "the panels on both sides of it are equal"
	if v[i] != v[i+1] {
		j := i
		if mine.widths[j] == e[j] || equals(v, j) == nil {
			j = i + 1
		}
		what = head + panelName(p, j) + " is as wide as " + b.list(p, equals(v, j))
	}
	next := mine.along
	if i+1 < len(mine.ats) {
		next = mine.ats[i+1]
	}
	b.problems.Add(problem.Problem{Rule: "width-pattern", Severity: problem.Warning, Where: p.Scores[k].Where, What: what,
		Needs: fmt.Sprintf("a score at %s, so that %s is %s and %s is %s", b.bare(want), panelName(p, i), b.bare(e[i]), panelName(p, i+1), b.bare(next-want))})
}

// panelOff tells of a panel that is not as wide as its like.
func (b *builder) panelOff(p *card.Piece, mine shape, v, e []length.Length, i int, form string) {
	where := p.Where
	if k := min(i, len(mine.order)-1); k >= 0 {
		where = p.Scores[mine.order[k]].Where
	}
	b.problems.Add(problem.Problem{Rule: "width-pattern", Severity: problem.Warning, Where: where,
		What:  fmt.Sprintf("%s of %s is %s wide: in %s it is as wide as %s", panelName(p, i), p.Name, b.bare(mine.widths[i]), form, b.list(p, equals(v, i))),
		Needs: b.bare(e[i])})
}

// oneSlip returns the score that alone has to move for all panels to be as wide as those that they equal in the form, and
// the widths after that; nil where there is none. Where several would do, it is the one that leaves the panels nearest to
// the proportions of the form.
func oneSlip(mine shape, v []length.Length) (score int, widths []length.Length) {
	u := mine.widths
	if uneven(u, v) == 0 {
		return 0, nil
	}
	best := math.Inf(1)
	for i := range len(u) - 1 {
		both := u[i] + u[i+1]
		for _, w := range slipWidths(u, v, i) {
			if w <= 0 || w >= both {
				continue
			}
			moved := slices.Clone(u)
			moved[i], moved[i+1] = w, both-w
			if away := apart(moved, v); uneven(moved, v) == 0 && away < best {
				best, score, widths = away, i, moved
			}
		}
	}
	return score, widths
}

// slipWidths returns the widths that panel i may have been meant to have: those of its like, what leaves the panel behind
// it as wide as its like, and half of both.
func slipWidths(u, v []length.Length, i int) []length.Length {
	both := u[i] + u[i+1]
	var out []length.Length
	if v[i] == v[i+1] && both%2 == 0 {
		out = append(out, both/2)
	}
	for j := range v {
		if j == i || j == i+1 {
			continue
		}
		if v[j] == v[i] {
			out = append(out, u[j])
		}
		if v[j] == v[i+1] {
			out = append(out, both-u[j])
		}
	}
	return out
}

// uneven counts the panels that are not as wide as the first of their like.
func uneven(u, v []length.Length) int {
	n := 0
	for i := range v {
		if u[i] != u[slices.Index(v, v[i])] {
			n++
		}
	}
	return n
}

// apart says how far the proportions of two rows of panels are apart.
func apart(u, v []length.Length) float64 {
	var mine, its, sum float64
	for i := range u {
		mine, its = mine+u[i].MM(), its+v[i].MM()
	}
	for i := range u {
		sum += math.Abs(u[i].MM()/mine - v[i].MM()/its)
	}
	return sum
}

// equals returns the other panels that are as wide as panel i.
func equals(v []length.Length, i int) []int {
	var out []int
	for j := range v {
		if j != i && v[j] == v[i] {
			out = append(out, j)
		}
	}
	return out
}

func panelName(p *card.Piece, i int) string {
	if i < len(p.Strip) && p.Strip[i].Name != "" {
		n := 0
		for _, s := range p.Strip {
			if s.Name == p.Strip[i].Name {
				n++
			}
		}
		if n == 1 {
			return p.Strip[i].Name
		}
		return fmt.Sprintf("%s (panel %d)", p.Strip[i].Name, i+1)
	}
	return fmt.Sprintf("panel %d", i+1)
}

func (b *builder) list(p *card.Piece, panels []int) string {
	var out []string
	for _, i := range panels[:min(len(panels), 4)] {
		out = append(out, panelName(p, i))
	}
	if len(panels) > 4 {
		out = append(out, "others")
	}
	return strings.Join(out, ", ")
}
