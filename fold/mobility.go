package fold

// freedom counts the independent motions of the open card: angles less the rank of the loops, the smallest over a few
// poses, since at a special pose (all folds alike, or flat) the loops bind less than they do in general.
func (m *Model) freedom(o *Opening) int {
	n := len(m.Shut)
	if n == 0 || len(m.loops) == 0 {
		return n
	}
	s := newSolver(m)
	least := n
	rows := 9 * len(m.loops)
	for _, t := range [4]float64{0.35, 0.55, 0.75, 0.95} {
		s.measure(o.Poses[int(t*float64(len(o.Poses)-1))].Angles)
		s.jacobian()
		least = min(least, n-rank(s.j[:rows*n], rows, n, rankTolerance))
	}
	return least
}

// rankTolerance tells dependent rows from independent ones: poses are good to 1e-12, and rows of a loop that does bind are
// seldom below a hundredth of the largest.
const rankTolerance = 1e-6
