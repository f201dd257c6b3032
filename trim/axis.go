package trim

import "sort"

// How many points an axis may have before sizes are put on a coarser grid, since the time of the recurrence grows with
// their third power: the most for one exact run (some seconds), for one of many, and for a plan at once. longestAxis is
// how many units
// long an axis may be.
const (
	manyPoints  = 3600
	somePoints  = 2600
	fewPoints   = 150
	longestAxis = 1 << 20
)

// axis holds the places along one side of a sheet at which a cut can be needed, in units of the grid.
//
// Cuts are needed only at sums of part sizes: every part can be pushed to the left (normal points, Herz 1972 and
// Christofides and Whitlock 1977, from memory). Of those only the raster points are kept (Terno, Lindemann and Scheithauer
// 1987, from memory): with p(v) the largest sum up to v, the points p(W − p(W − b)) for every sum b. Proof that this
// loses nothing: let
// up(b) be the smallest raster point that is at least b. If b + c ≤ x for sums b, c and a raster point x = p(W − s), then
// c + s is a sum that is at most W − b, so up(b) ≤ p(W − p(W − b)) ≤ W − c − s, so up(b) + c is a sum that is at most
// W − s, and so at most x. The same step for c gives up(b) + up(c) ≤ x: what could be cut out of x still can.
type axis struct {
	pts   []int64   // ascending, the first is 0, the last the largest raster point
	pairs [][]split // of every point: ways to cut it in two, the smaller side first
}

// split is a cut of one point: first side, and what is left of the other, as indices of points.
type split struct{ one, two int32 }

// newAxis returns the axis of a side of size units, for parts of the given sizes; false where there are more than most
// points.
func newAxis(size int64, parts []int64, most int) (axis, bool) {
	if size > longestAxis {
		return axis{}, false
	}
	sum := make([]bool, size+1)
	sum[0] = true
	for v := range sum {
		for _, p := range parts {
			if sum[v] {
				break
			}
			sum[v] = p <= int64(v) && sum[int64(v)-p]
		}
	}
	down := make([]int64, size+1) // the largest sum up to v
	for v := range down {
		if sum[v] {
			down[v] = int64(v)
		} else {
			down[v] = down[v-1]
		}
	}
	keep := make([]bool, size+1)
	keep[0] = true
	for v := range sum {
		if sum[v] {
			keep[down[size-down[size-int64(v)]]] = true
		}
	}
	var a axis
	for v := range keep {
		if keep[v] {
			a.pts = append(a.pts, int64(v))
		}
	}
	if len(a.pts) > most {
		return axis{}, false
	}
	a.pair()
	return a, true
}

// pair lists the cuts of every point. Of cuts that leave the same rest only the one with the larger first side is kept.
func (a *axis) pair() {
	a.pairs = make([][]split, len(a.pts))
	for i, v := range a.pts {
		two := i
		for one := 1; one < i; one++ {
			for a.pts[two] > v-a.pts[one] {
				two--
			}
			if two < one {
				break
			}
			if n := len(a.pairs[i]); n > 0 && a.pairs[i][n-1].two == int32(two) {
				a.pairs[i] = a.pairs[i][:n-1]
			}
			a.pairs[i] = append(a.pairs[i], split{int32(one), int32(two)})
		}
	}
}

// up returns the index of the smallest point that is at least v.
func (a *axis) up(v int64) int {
	return sort.Search(len(a.pts), func(i int) bool { return a.pts[i] >= v })
}

// down returns the index of the largest point that is at most v; v is at least 0.
func (a *axis) down(v int64) int {
	return sort.Search(len(a.pts), func(i int) bool { return a.pts[i] > v }) - 1
}
