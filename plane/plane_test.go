package plane

import (
	"math"
	"testing"

	"foldwright/length"

	"pgregory.net/rapid"
)

const mm = length.Millimetre

func pt(x, y int) Point { return Point{length.Length(x) * mm, length.Length(y) * mm} }

func seg(x1, y1, x2, y2, tag int) Segment { return Segment{pt(x1, y1), pt(x2, y2), tag} }

// square returns the sides of a square of 100 mm.
func square() []Segment {
	return []Segment{seg(0, 0, 100, 0, 0), seg(100, 0, 100, 100, 0), seg(100, 100, 0, 100, 0), seg(0, 100, 0, 0, 0)}
}

func TestSubdivide(t *testing.T) {
	for _, c := range []struct {
		name   string
		extra  []Segment
		faces  int // inside
		points int
		edges  int
	}{
		{"bare square", nil, 1, 4, 4},
		{"one line across", []Segment{seg(50, 0, 50, 100, 1)}, 2, 6, 7},
		{"a cross", []Segment{seg(50, 0, 50, 100, 1), seg(0, 50, 100, 50, 2)}, 4, 9, 12},
		{"a loose end", []Segment{seg(50, 0, 50, 60, 1)}, 1, 6, 6},
		{"an island", []Segment{seg(20, 20, 40, 20, 1), seg(40, 20, 40, 40, 1), seg(40, 40, 20, 40, 1), seg(20, 40, 20, 20, 1)}, 2, 8, 8},
		{"a slit in the middle", []Segment{seg(20, 20, 40, 40, 1)}, 1, 6, 5},
		{"overlapping lines", []Segment{seg(50, 0, 50, 60, 1), seg(50, 40, 50, 100, 2)}, 2, 8, 9},
		{"diagonals", []Segment{seg(0, 0, 100, 100, 1), seg(0, 100, 100, 0, 2)}, 4, 5, 8},
		{"the same line twice", []Segment{seg(50, 0, 50, 100, 1), seg(50, 100, 50, 0, 2)}, 2, 6, 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Subdivide(append(square(), c.extra...), 0)
			if got := len(s.Faces) - 1; got != c.faces {
				t.Errorf("faces: got %d, want %d", got, c.faces)
			}
			if len(s.Points) != c.points || len(s.Edges) != c.edges {
				t.Errorf("points and edges: got %d, %d, want %d, %d", len(s.Points), len(s.Edges), c.points, c.edges)
			}
			wantWhole(t, s, 100*100)
		})
	}
}

type tester interface {
	Helper()
	Errorf(string, ...any)
}

// wantWhole checks that the faces fill the square: their areas add up, and every edge has a face on each side.
func wantWhole(t tester, s *Subdivision, mm2 float64) {
	t.Helper()
	sum := 0.0
	for f := 1; f < len(s.Faces); f++ {
		sum += s.Faces[f].Area
		if x, y, ok := s.InnerPoint(f); ok && !Inside(s.Points, s.Faces[f].Outer, x, y) {
			t.Errorf("the inner point of face %d is outside it", f)
		}
	}
	if got := sum / 1e12; math.Abs(got-mm2) > 1e-3 {
		t.Errorf("areas: got %g mm², want %g", got, mm2)
	}
}

// TestSubdivideRandom cuts a square by random chords. It checks
//
//	(1) the areas of the faces add up to the square;
//	(2) points - edges + faces = 1 + connected parts (Euler; every chord is joined to the square, so one part);
//	(3) no two edges cross between their ends.
func TestSubdivideRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		segments := square()
		for i := range rapid.IntRange(0, 12).Draw(t, "chords") {
			a, b := onSquare(t), onSquare(t)
			if a != b {
				segments = append(segments, Segment{a, b, i + 1})
			}
		}
		s := Subdivide(segments, 0)
		wantWhole(t, s, 100*100)
		if v, e, f := len(s.Points), len(s.Edges), len(s.Faces); v-e+f != 2 {
			t.Fatalf("%d points - %d edges + %d faces = %d, want 2", v, e, f, v-e+f)
		}
		for i, a := range s.Edges {
			for _, b := range s.Edges[:i] {
				p, q, r, u := s.Points[a.A], s.Points[a.B], s.Points[b.A], s.Points[b.B]
				if Side(p, q, r)*Side(p, q, u) < 0 && Side(r, u, p)*Side(r, u, q) < 0 && !nearby(p, q, r, u) {
					t.Fatalf("edges %v-%v and %v-%v cross", p, q, r, u)
				}
			}
		}
	})
}

// nearby says whether the ends of two edges are within a few nanometres: where three chords meet almost in a point, the
// rounding of their crossings may swap them.
func nearby(a, b, c, d Point) bool {
	for _, p := range [2]Point{a, b} {
		for _, q := range [2]Point{c, d} {
			if (p.X-q.X).Abs() < 5 && (p.Y-q.Y).Abs() < 5 {
				return true
			}
		}
	}
	return false
}

func onSquare(t *rapid.T) Point {
	at := rapid.IntRange(0, 399).Draw(t, "at")
	k := at % 100
	switch at / 100 {
	case 0:
		return pt(k, 0)
	case 1:
		return pt(100, k)
	case 2:
		return pt(100-k, 100)
	}
	return pt(0, 100-k)
}

// TestMotionExact: motions on a ruler grid move whole nanometres to whole nanometres, without rounding.
func TestMotionExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Stay()
		var undo []Motion
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			n := gridMotion(t)
			m = m.Then(n)
			undo = append(undo, n)
		}
		p := Point{length.Length(rapid.Int64Range(0, 2e9).Draw(t, "x")), length.Length(rapid.Int64Range(0, 2e9).Draw(t, "y"))}
		x, y := m.At(float64(p.X), float64(p.Y))
		if x != math.Trunc(x) || y != math.Trunc(y) {
			t.Fatalf("%v goes to (%v, %v): not whole", p, x, y)
		}
		q := m.Point(p)
		for i := len(undo) - 1; i >= 0; i-- {
			q = undo[i].Inverse().Point(q)
		}
		if q != p {
			t.Fatalf("there and back: got %v, want %v", q, p)
		}
	})
}

func gridMotion(t *rapid.T) Motion {
	a := Point{length.Length(rapid.Int64Range(0, 2e9).Draw(t, "ax")), length.Length(rapid.Int64Range(0, 2e9).Draw(t, "ay"))}
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0:
		return Mirror(a, Point{a.X, a.Y + 7})
	case 1:
		return Mirror(a, Point{a.X + 7, a.Y})
	case 2:
		return Mirror(a, Point{a.X + 7, a.Y + 7})
	case 3:
		return Turn(90 * float64(rapid.IntRange(0, 3).Draw(t, "turns")))
	}
	return Shift(a.X, a.Y)
}

func TestMirror(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b, p Point
		want    Point
	}{
		{"upright", pt(10, 0), pt(10, 50), pt(3, 4), pt(17, 4)},
		{"level", pt(0, 10), pt(50, 10), pt(3, 4), pt(3, 16)},
		{"diagonal", pt(0, 0), pt(10, 10), pt(3, 4), pt(4, 3)},
		{"other diagonal", pt(0, 10), pt(10, 0), pt(3, 4), pt(6, 7)},
		{"3-4-5 line", pt(0, 0), pt(40, 30), pt(0, 25), pt(24, -7)},
	} {
		m := Mirror(c.a, c.b)
		if got := m.Point(c.p); got != c.want {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
		if !m.Flips() {
			t.Errorf("%s: a mirror flips", c.name)
		}
	}
}
