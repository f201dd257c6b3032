package plane

import (
	"cmp"
	"math"
	"slices"

	"foldwright/length"
)

// Segment is a straight line between two points. Tag is the caller's; it comes back on every edge that the segment
// becomes.
type Segment struct {
	A, B Point
	Tag  int
}

// Contains says, exactly, whether a point lies on the segment or is one of its ends.
func (g Segment) Contains(p Point) bool { return Side(g.A, g.B, p) == 0 && BoxOf(g.A, g.B).Contains(p) }

// Crosses says, exactly, whether two segments cross between their ends.
func (g Segment) Crosses(h Segment) bool {
	return Side(g.A, g.B, h.A)*Side(g.A, g.B, h.B) < 0 && Side(h.A, h.B, g.A)*Side(h.A, h.B, g.B) < 0
}

// Edge is a piece of one or more segments between two neighbouring points of a subdivision. Seen from Points[A] to
// Points[B] the face Left lies on the left and Right on the right; both may be the same face.
type Edge struct {
	A, B        int
	Left, Right int
	Tags        []int
}

// Face is a region bounded by edges. Outer runs counter-clockwise round the region, holes clockwise; both are indices
// of points. Faces[0] of a subdivision is the region outside everything and has no outer boundary.
type Face struct {
	Outer []int
	Holes [][]int
	// Area is that inside Outer less the holes, in nm².
	Area float64
}

// Subdivision is the plane cut up by segments.
type Subdivision struct {
	Points []Point
	Edges  []Edge
	Faces  []Face
}

// Ring returns the points of a boundary, such as the Outer of a face.
func (s *Subdivision) Ring(indices []int) []Point {
	points := make([]Point, len(indices))
	for i, k := range indices {
		points[i] = s.Points[k]
	}
	return points
}

// Subdivide cuts the plane up by segments. Points closer together than tolerance, and points closer than it to a
// segment, are made one: 0 keeps everything apart that differs by a nanometre.
//
// Exact for segments that meet in whole nanometres; a crossing between two slanted segments is put on the nearest
// nanometre, once. Segments without length are left out. Time grows with the square of the number of segments.
func Subdivide(segments []Segment, tolerance length.Length) *Subdivision {
	s := &subdivider{tolerance: float64(tolerance), at: make(map[Point]int, 2*len(segments))}
	s.split(segments)
	s.link()
	s.trace()
	s.nest()
	return &s.out
}

type subdivider struct {
	out       Subdivision
	tolerance float64
	at        map[Point]int
	// leaving holds, per point, the half-edges that leave it, counter-clockwise. Half-edge 2e runs from A to B of edge
	// e, 2e+1 back.
	leaving [][]int
	// rank is a half-edge's position in the list of the point that it leaves; cycle the boundary that it belongs to.
	rank, cycle []int
	cycles      [][]int
}

// point returns the index of p, or of a known point within the tolerance.
func (s *subdivider) point(p Point) int {
	if i, ok := s.at[p]; ok {
		return i
	}
	if s.tolerance > 0 {
		for i, q := range s.out.Points {
			if math.Abs(float64(q.X-p.X)) <= s.tolerance && math.Abs(float64(q.Y-p.Y)) <= s.tolerance {
				s.at[p] = i
				return i
			}
		}
	}
	i := len(s.out.Points)
	s.out.Points = append(s.out.Points, p)
	s.at[p] = i
	return i
}

// stop is a point on a segment, with how far along it lies.
type stop struct {
	point int
	along float64
}

// merge makes segments between the same two points one, with all their tags.
func merge(all []Segment) (segments []Segment, tags [][]int) {
	index := make(map[[2]Point]int, len(all))
	for _, g := range all {
		if g.A.X > g.B.X || (g.A.X == g.B.X && g.A.Y > g.B.Y) {
			g.A, g.B = g.B, g.A
		}
		i, ok := index[[2]Point{g.A, g.B}]
		if !ok {
			i = len(segments)
			index[[2]Point{g.A, g.B}] = i
			segments, tags = append(segments, g), append(tags, nil)
		}
		tags[i] = append(tags[i], g.Tag)
	}
	return segments, tags
}

func (s *subdivider) split(all []Segment) {
	segments, tags := merge(all)
	stops := make([][]stop, len(segments))
	boxes := make([]Box, len(segments))
	add := func(i int, p Point) {
		d, v := segments[i].B.Sub(segments[i].A), p.Sub(segments[i].A)
		along := float64(d.X)*float64(v.X) + float64(d.Y)*float64(v.Y)
		stops[i] = append(stops[i], stop{s.point(p), along})
	}
	grow := length.Length(s.tolerance)
	for i, g := range segments {
		b := BoxOf(g.A, g.B)
		boxes[i] = Box{Point{b.Min.X - grow, b.Min.Y - grow}, Point{b.Max.X + grow, b.Max.Y + grow}}
		add(i, g.A)
		add(i, g.B)
	}
	for i := range segments {
		for j := i + 1; j < len(segments); j++ {
			if apart(boxes[i], boxes[j]) {
				continue
			}
			s.meet(segments, i, j, boxes, add)
		}
	}
	edges := make(map[[2]int]int, 2*len(segments))
	for i := range stops {
		slices.SortFunc(stops[i], func(a, b stop) int { return cmp.Compare(a.along, b.along) })
		for k := 1; k < len(stops[i]); k++ {
			s.edge(edges, stops[i][k-1].point, stops[i][k].point, tags[i])
		}
	}
}

func apart(a, b Box) bool {
	return a.Max.X < b.Min.X || b.Max.X < a.Min.X || a.Max.Y < b.Min.Y || b.Max.Y < a.Min.Y
}

// meet adds the points that segments i and j share to both.
func (s *subdivider) meet(segments []Segment, i, j int, boxes []Box, add func(int, Point)) {
	a, b := segments[i], segments[j]
	touching := false
	for _, e := range [4]struct {
		on    int
		line  Segment
		point Point
	}{{i, a, b.A}, {i, a, b.B}, {j, b, a.A}, {j, b, a.B}} {
		if boxes[e.on].Contains(e.point) && s.lies(e.line, e.point) {
			touching = true
			add(e.on, e.point)
		}
	}
	if touching {
		return
	}
	if a.Crosses(b) {
		p := crossing(a, b)
		add(i, p)
		add(j, p)
	}
}

// lies says whether p, which is in the box of g, lies on the line through g.
func (s *subdivider) lies(g Segment, p Point) bool {
	if s.tolerance == 0 {
		return Side(g.A, g.B, p) == 0
	}
	d, v := g.B.Sub(g.A), p.Sub(g.A)
	cross := float64(d.X)*float64(v.Y) - float64(d.Y)*float64(v.X)
	return math.Abs(cross) <= s.tolerance*math.Hypot(float64(d.X), float64(d.Y))
}

// crossing returns the point where two segments that cross do so, to the nearest nanometre.
func crossing(a, b Segment) Point {
	d, e, v := a.B.Sub(a.A), b.B.Sub(b.A), b.A.Sub(a.A)
	den := float64(d.X)*float64(e.Y) - float64(d.Y)*float64(e.X)
	t := (float64(v.X)*float64(e.Y) - float64(v.Y)*float64(e.X)) / den
	return a.A.Add(Point{length.Length(math.Round(t * float64(d.X))), length.Length(math.Round(t * float64(d.Y)))})
}

func (s *subdivider) edge(edges map[[2]int]int, a, b int, tags []int) {
	if a == b {
		return
	}
	key := [2]int{min(a, b), max(a, b)}
	e, ok := edges[key]
	if !ok {
		e = len(s.out.Edges)
		edges[key] = e
		s.out.Edges = append(s.out.Edges, Edge{A: a, B: b})
	}
	edge := &s.out.Edges[e]
	for _, t := range tags {
		if !slices.Contains(edge.Tags, t) {
			edge.Tags = append(edge.Tags, t)
		}
	}
}

// from and to return the ends of a half-edge.
func (s *subdivider) from(h int) int {
	if h%2 == 0 {
		return s.out.Edges[h/2].A
	}
	return s.out.Edges[h/2].B
}

func (s *subdivider) to(h int) int { return s.from(h ^ 1) }

// link sorts the half-edges round every point.
func (s *subdivider) link() {
	s.leaving = make([][]int, len(s.out.Points))
	for h := range 2 * len(s.out.Edges) {
		f := s.from(h)
		s.leaving[f] = append(s.leaving[f], h)
	}
	s.rank = make([]int, 2*len(s.out.Edges))
	for p, list := range s.leaving {
		o := s.out.Points[p]
		slices.SortFunc(list, func(g, h int) int {
			return compareAngle(s.out.Points[s.to(g)].Sub(o), s.out.Points[s.to(h)].Sub(o))
		})
		for k, h := range list {
			s.rank[h] = k
		}
	}
}

// compareAngle orders directions counter-clockwise from the positive x axis, exactly.
func compareAngle(u, v Point) int {
	if c := cmp.Compare(half(u), half(v)); c != 0 {
		return c
	}
	return -Side(Point{}, u, v)
}

func half(u Point) int {
	if u.Y > 0 || (u.Y == 0 && u.X > 0) {
		return 0
	}
	return 1
}

// trace follows the boundaries: after a half-edge comes the one that turns most to the left at its end.
func (s *subdivider) trace() {
	s.cycle = make([]int, 2*len(s.out.Edges))
	for h := range s.cycle {
		s.cycle[h] = -1
	}
	for start := range s.cycle {
		if s.cycle[start] >= 0 {
			continue
		}
		var points []int
		for h := start; s.cycle[h] < 0; h = s.next(h) {
			s.cycle[h] = len(s.cycles)
			points = append(points, s.from(h))
		}
		s.cycles = append(s.cycles, points)
	}
}

func (s *subdivider) next(h int) int {
	list := s.leaving[s.to(h)]
	return list[(s.rank[h^1]+len(list)-1)%len(list)]
}

// nest makes a face of every counter-clockwise boundary and gives it the clockwise ones inside.
func (s *subdivider) nest() {
	face := make([]int, len(s.cycles))
	s.out.Faces = []Face{{}}
	var holes []int
	for c, points := range s.cycles {
		area := SignedArea(s.out.Points, points)
		if area <= 0 {
			holes = append(holes, c)
			continue
		}
		face[c] = len(s.out.Faces)
		s.out.Faces = append(s.out.Faces, Face{Outer: points, Area: area})
	}
	for _, c := range holes {
		f := s.around(s.cycles[c])
		face[c] = f
		s.out.Faces[f].Holes = append(s.out.Faces[f].Holes, s.cycles[c])
		s.out.Faces[f].Area += SignedArea(s.out.Points, s.cycles[c])
	}
	for e := range s.out.Edges {
		s.out.Edges[e].Left = face[s.cycle[2*e]]
		s.out.Edges[e].Right = face[s.cycle[2*e+1]]
	}
}

// around returns the smallest face whose outer boundary lies round a hole, 0 if none does.
func (s *subdivider) around(hole []int) int {
	best := 0
	own := make(map[int]bool, len(hole))
	for _, p := range hole {
		own[p] = true
	}
	for f := 1; f < len(s.out.Faces); f++ {
		outer := s.out.Faces[f].Outer
		if best != 0 && s.outerArea(f) >= s.outerArea(best) {
			continue
		}
		// A face that touches the hole in a point belongs to the same connected figure and cannot lie round it.
		if slices.ContainsFunc(outer, func(p int) bool { return own[p] }) {
			continue
		}
		p := s.out.Points[hole[0]]
		if Inside(s.out.Points, outer, float64(p.X), float64(p.Y)) {
			best = f
		}
	}
	return best
}

func (s *subdivider) outerArea(f int) float64 { return SignedArea(s.out.Points, s.out.Faces[f].Outer) }
