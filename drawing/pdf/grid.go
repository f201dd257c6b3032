package pdf

import (
	"cmp"
	"math"
	"slices"

	"foldwright/drawing"
)

// grid is how a drawing is cut into tiles. A seam is the middle of the overlap of two tiles.
type grid struct {
	w, h float64 // of the turned drawing, mm
	// across are the places of the upright seams, up those of the level ones, rising.
	across, up []float64
}

// How far a seam stays away from scores and cuts beside it, in mm: the dotted line, the crosses and the tape are in the way.
const (
	seamClear = 3
	seamFree  = overlap/2 + seamClear // the line stands on one of the tiles only
)

// newGrid cuts a drawing into as few tiles of at most roomW x roomH mm as can be.
func newGrid(d *drawing.Drawing, turned bool, roomW, roomH float64) *grid {
	w, h := turnedSize(d, turned)
	f := frame{turned: turned, height: d.H}
	scoreX, scoreY := linesAt(d.Group(drawing.GroupScore), f)
	cutX, cutY := linesAt(d.Group(drawing.GroupCut), f)
	return &grid{
		w: w, h: h,
		across: seamsAlong(w, roomW, scoreX, cutX),
		up:     seamsAlong(h, roomH, scoreY, cutY),
	}
}

func (g *grid) columns() int { return len(g.across) + 1 }
func (g *grid) rows() int    { return len(g.up) + 1 }

// window returns the part of the drawing in a tile; columns count from the left, rows from the bottom, both from 0.
func (g *grid) window(column, row int) drawing.Box {
	x0, x1 := tileSpan(g.across, g.w, column)
	y0, y1 := tileSpan(g.up, g.h, row)
	return drawing.Box{Min: drawing.Point{X: x0, Y: y0}, Max: drawing.Point{X: x1, Y: y1}}
}

// tileSpan returns where tile k begins and ends along size mm.
func tileSpan(seams []float64, size float64, k int) (from, to float64) {
	to = size
	if k > 0 {
		from = seams[k-1] - overlap/2.0
	}
	if k < len(seams) {
		to = seams[k] + overlap/2.0
	}
	return from, to
}

// linesAt returns where upright lines stand and where level ones lie, in the turned drawing.
func linesAt(shapes []drawing.Shape, f frame) (x, y []float64) {
	add := func(a, b drawing.Point) {
		a, b = f.turn(a), f.turn(b)
		switch across, up := math.Abs(b.X-a.X), math.Abs(b.Y-a.Y); {
		case across < 0.01:
			x = append(x, a.X)
		case up < 0.01:
			y = append(y, a.Y)
		}
	}
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Polyline:
			for i := 1; i < len(s.Points); i++ {
				add(s.Points[i-1], s.Points[i])
			}
		case drawing.Polygon:
			for _, ring := range s.Rings() {
				for i, p := range ring {
					add(p, ring[(i+1)%len(ring)])
				}
			}
		}
	}
	return x, y
}

// tilesAlong returns how many windows of at most room mm, overlapping, cover size mm.
func tilesAlong(size, room float64) int {
	if size <= room {
		return 1
	}
	return int(math.Ceil((size - overlap) / (room - overlap)))
}

// seamsAlong returns the seams of the fewest tiles of at most room mm that cover size mm: as evenly apart as they can be
// while they stay clear of scores and cuts: free of both where that can be done, else clear of both, else of scores alone.
func seamsAlong(size, room float64, scores, cuts []float64) []float64 {
	n := tilesAlong(size, room)
	lines := append(slices.Clone(scores), cuts...)
	var out []float64
	last := overlap / 2.0
	for k := 1; k < n; k++ {
		even := overlap/2 + (size-overlap)*float64(k)/float64(n)
		// Neither this tile nor those that are left may grow larger than the room.
		high := last + room - overlap
		low := max(last+overlap, size-overlap/2-float64(n-k)*(room-overlap))
		last = min(max(even, low), high)
		for _, try := range []struct {
			lines []float64
			clear float64
		}{{lines, seamFree}, {lines, seamClear}, {scores, seamClear}} {
			if at, ok := clearSeam(even, low, high, try.lines, try.clear); ok {
				last = at
				break
			}
		}
		out = append(out, last)
	}
	return out
}

// clearSeam returns the place between low and high nearest to the even one that is so many mm clear of lines; false if there is none.
func clearSeam(even, low, high float64, lines []float64, off float64) (float64, bool) {
	tries := []float64{min(max(even, low), high), low, high}
	for _, l := range lines {
		tries = append(tries, l-off, l+off)
	}
	slices.SortStableFunc(tries, func(a, b float64) int { return cmp.Compare(math.Abs(a-even), math.Abs(b-even)) })
	for _, at := range tries {
		inside := low <= at && at <= high
		if inside && !slices.ContainsFunc(lines, func(l float64) bool { return math.Abs(l-at) < off-1e-6 }) {
			return at, true
		}
	}
	return 0, false
}
