package view

import (
	"math"

	"foldwright/drawing"
	"foldwright/plane"
)

// link is a straight line between two points of a subdivision.
type link struct{ a, b int }

// paths joins links into lines that run on as far as they can, straight ahead where there is a choice, so that a knife or
// a pen is set down as seldom as can be. A link that is given twice counts once. closed says that a line ends where it began.
func paths(points []plane.Point, links []link) (lines [][]plane.Point, closed []bool) {
	j := joiner{points: points, at: map[int][]int{}}
	seen := map[link]bool{}
	for _, l := range links {
		if l.a > l.b {
			l.a, l.b = l.b, l.a
		}
		if seen[l] || l.a == l.b {
			continue
		}
		seen[l] = true
		j.at[l.a] = append(j.at[l.a], len(j.links))
		j.at[l.b] = append(j.at[l.b], len(j.links))
		j.links = append(j.links, l)
	}
	j.used = make([]bool, len(j.links))
	for _, ends := range []bool{true, false} {
		for i, l := range j.links {
			for _, p := range [2]int{l.a, l.b} {
				if j.used[i] || ends && j.free(p)%2 == 0 {
					continue
				}
				line := j.walk(i, p)
				loop := line[0] == line[len(line)-1]
				if loop {
					line = line[:len(line)-1]
				}
				lines, closed = append(lines, j.corners(line, loop)), append(closed, loop)
			}
		}
	}
	return lines, closed
}

type joiner struct {
	points []plane.Point
	links  []link
	at     map[int][]int
	used   []bool
}

// free returns how many links at a point are not used.
func (j *joiner) free(p int) int {
	n := 0
	for _, i := range j.at[p] {
		if !j.used[i] {
			n++
		}
	}
	return n
}

// walk follows links from point p along link i until no unused link goes on.
func (j *joiner) walk(i, p int) []int {
	line := []int{p}
	for i >= 0 {
		j.used[i] = true
		q := j.links[i].a + j.links[i].b - p
		line = append(line, q)
		i = j.ahead(p, q)
		p = q
	}
	return line
}

// ahead returns the unused link at q that turns least against p→q, -1 if there is none.
func (j *joiner) ahead(p, q int) int {
	best, least := -1, math.Inf(1)
	d := j.points[q].Sub(j.points[p])
	for _, i := range j.at[q] {
		if j.used[i] {
			continue
		}
		e := j.points[j.links[i].a+j.links[i].b-q].Sub(j.points[q])
		turn := math.Abs(math.Atan2(float64(d.X)*float64(e.Y)-float64(d.Y)*float64(e.X), float64(d.X)*float64(e.X)+float64(d.Y)*float64(e.Y)))
		if turn < least-1e-9 {
			best, least = i, turn
		}
	}
	return best
}

func (j *joiner) corners(line []int, loop bool) []plane.Point {
	out := make([]plane.Point, len(line))
	for i, p := range line {
		out[i] = j.points[p]
	}
	if loop {
		return straight(out)
	}
	return straightOpen(out)
}

// straightOpen leaves out the points of an open line at which it runs straight on.
func straightOpen(line []plane.Point) []plane.Point {
	out := line[:1:1]
	for i := 1; i+1 < len(line); i++ {
		if !between(out[len(out)-1], line[i], line[i+1]) {
			out = append(out, line[i])
		}
	}
	return append(out, line[len(line)-1])
}

// stroke returns links as shapes of one role.
func stroke(role drawing.Role, points []plane.Point, links []link) []drawing.Shape {
	var out []drawing.Shape
	lines, closed := paths(points, links)
	for i, l := range lines {
		if closed[i] && len(l) > 2 {
			out = append(out, drawing.Polygon{Line: role, Outer: drawing.OfAll(l)})
		} else {
			out = append(out, drawing.Polyline{Line: role, Points: drawing.OfAll(l)})
		}
	}
	return out
}
