package flat

import (
	"cmp"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/pattern"
	"foldwright/plane"
)

// Vertex is a point inside a piece where scores meet.
type Vertex struct {
	At plane.Point
	// Hinges are the indices in the pattern of the hinges that meet, counter-clockwise; Sectors the angles in radians from each
	// to the next.
	Hinges  []int
	Sectors []float64
}

// Kawasaki returns the alternating sum of the sector angles round a point, in radians; a single vertex with all its
// scores folded lies flat exactly if it is zero, whether the sheet round it is flat or a cone.
// Source: Kawasaki 1989 and Justin 1986, as cited by Hull 1994, Congressus Numerantium 100:215-224.
func Kawasaki(sectors []float64) float64 {
	sum, sign := 0.0, 1.0
	for _, s := range sectors {
		sum += sign * s
		sign = -sign
	}
	return sum
}

// Maekawa says whether mountains and valleys round a point can lie flat: they differ by two.
// Source: Maekawa, as cited by Hull 1994 (see Kawasaki).
func Maekawa(mountains, valleys int) bool {
	return mountains-valleys == 2 || valleys-mountains == 2
}

// Vertices lists the points inside a piece where scores meet with card all round.
func Vertices(p *pattern.Pattern) []Vertex {
	type spoke struct {
		hinge int
		angle float64
	}
	spokes := make(map[plane.Point][]spoke)
	var points []plane.Point
	add := func(at, to plane.Point, hinge int) {
		if len(spokes[at]) == 0 {
			points = append(points, at)
		}
		d := to.Sub(at)
		spokes[at] = append(spokes[at], spoke{hinge, math.Atan2(float64(d.Y), float64(d.X))})
	}
	for i, h := range p.Hinges {
		for _, part := range h.Parts {
			add(part.A, part.B, i)
			add(part.B, part.A, i)
		}
	}
	var out []Vertex
	for _, at := range points {
		list := spokes[at]
		if len(list) < 2 || corners(p, at) != len(list) {
			continue
		}
		slices.SortFunc(list, func(a, b spoke) int { return cmp.Compare(a.angle, b.angle) })
		v := Vertex{At: at}
		for i, s := range list {
			next := list[(i+1)%len(list)].angle
			if i+1 == len(list) {
				next += 2 * math.Pi
			}
			v.Hinges = append(v.Hinges, s.hinge)
			v.Sectors = append(v.Sectors, next-s.angle)
		}
		out = append(out, v)
	}
	return out
}

// corners counts the panels that have a corner at a point. Inside a piece there are as many as scores that end there; on
// an edge there is one more.
func corners(p *pattern.Pattern, at plane.Point) int {
	n := 0
	for _, q := range p.Panels {
		for _, ring := range q.Rings() {
			for _, c := range ring {
				if c == at {
					n++
				}
			}
		}
	}
	return n
}

// FoldsFlat says whether some choice of at least two of the vertex's scores folds flat while the others stay straight, and
// whether all of them do. must names hinges that have to be folded (nil for none).
func (v Vertex) FoldsFlat(senses []card.Sense, must []bool) (some, all bool) {
	n := len(v.Hinges)
	if n > 16 {
		return true, false // too many to try; the search decides
	}
	for set := 1; set < 1<<n; set++ {
		if !v.allows(set, senses, must) {
			continue
		}
		some = true
		if set == 1<<n-1 {
			all = true
		}
	}
	return some, all
}

// allows tests one choice of folded scores against Kawasaki and Maekawa.
func (v Vertex) allows(set int, senses []card.Sense, must []bool) bool {
	var sectors []float64
	mountains, valleys, known := 0, 0, true
	for i := range v.Hinges {
		if must != nil && must[i] && set>>i&1 == 0 {
			return false
		}
		if set>>i&1 == 0 {
			if len(sectors) > 0 {
				sectors[len(sectors)-1] += v.Sectors[i]
			}
			continue
		}
		sectors = append(sectors, v.Sectors[i])
		switch senses[i] {
		case card.Mountain:
			mountains++
		case card.Valley:
			valleys++
		default:
			known = false
		}
	}
	// Sectors before the first fold belong to the last one.
	for i := range v.Hinges {
		if set>>i&1 == 1 {
			break
		}
		sectors[len(sectors)-1] += v.Sectors[i]
	}
	return len(sectors)%2 == 0 && math.Abs(Kawasaki(sectors)) < 1e-7 && (!known || Maekawa(mountains, valleys))
}
