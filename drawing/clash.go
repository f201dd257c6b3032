package drawing

import "fmt"

// Clashes returns what a reader of the drawing would stumble over, in the order of the drawing: texts that overlap, and
// lines of the given roles that run through a text. Texts are counted with [TextRoom]; a text
// without words and a line without length are nowhere to stumble over. For tests of views.
func Clashes(d *Drawing, lines ...Role) []string {
	const touch = 1e-6
	var texts []Text
	var strokes []Polyline
	for _, s := range d.Shapes() {
		switch s := s.(type) {
		case Text:
			if s.Words != "" {
				texts = append(texts, s)
			}
		case Polyline:
			for _, r := range lines {
				if s.Line == r {
					strokes = append(strokes, s)
				}
			}
		}
	}
	var out []string
	for i, a := range texts {
		ca := a.Corners()
		for _, b := range texts[i+1:] {
			if cb := b.Corners(); Overlap(ca[:], cb[:], touch) {
				out = append(out, fmt.Sprintf("%q overlaps %q", a.Words, b.Words))
			}
		}
		for _, l := range strokes {
			for k := 1; k < len(l.Points); k++ {
				if l.Points[k] != l.Points[k-1] && Overlap(ca[:], l.Points[k-1:k+1], touch) {
					out = append(out, fmt.Sprintf("a %s line runs through %q", l.Line, a.Words))
				}
			}
		}
	}
	return out
}

// Overlap says whether two convex shapes (a polygon, or a segment of two points) overlap by more than touch mm: no
// direction across a side of either keeps them apart. Sides without length keep nothing apart.
func Overlap(a, b []Point, touch float64) bool {
	for _, ring := range [2][]Point{a, b} {
		for i, p := range ring {
			d := ring[(i+1)%len(ring)].Sub(p)
			n := Point{-d.Y, d.X}
			size := n.Len()
			if size < 1e-9 {
				continue
			}
			aLow, aHigh := spread(a, n)
			bLow, bHigh := spread(b, n)
			if aHigh <= bLow+touch*size || bHigh <= aLow+touch*size {
				return false
			}
		}
	}
	return true
}

func spread(points []Point, n Point) (low, high float64) {
	low, high = unbounded, -unbounded
	for _, p := range points {
		v := p.X*n.X + p.Y*n.Y
		low, high = min(low, v), max(high, v)
	}
	return low, high
}
