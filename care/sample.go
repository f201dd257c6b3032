package care

import (
	"math"
	"math/rand/v2"
	"slices"

	"foldwright/flat"
	"foldwright/plane"
)

// sample cuts cards in thought and measures them closed. Corners move in proportion to the errors; which of them are the
// outermost is looked for in every card anew.
func (s *Study) sample(m *model, closed *flat.Closed, seed uint64) {
	near := m.outer(closed.Box, 10*max(s.Hand.Cut.MM(), s.Hand.Score.MM()))
	r := rand.New(rand.NewPCG(seed, 0))
	corners := make([]vec, len(near))
	var widths, heights []float64
	fits := 0
	limit := closed.Assembly.Card.Fits
	for range Samples {
		for k, i := range near {
			corners[k] = m.base.corners[i]
		}
		for l := range m.lines {
			e := r.NormFloat64() * m.sd[l]
			by := m.byCorner[l]
			for k, i := range near {
				corners[k].x += e * by[i].x
				corners[k].y += e * by[i].y
			}
		}
		b := box(corners)
		widths, heights = append(widths, b.x), append(heights, b.y)
		if limit != nil && b.x <= limit.W.MM()+exact && b.y <= limit.H.MM()+exact {
			fits++
		}
	}
	s.Width, s.Height = spread(widths), spread(heights)
	if s.FitsSaid = limit != nil; s.FitsSaid {
		s.Fits = float64(fits) / Samples
	}
}

// exact is one nanometre in millimetres: what floats lose.
const exact = 1e-6

func spread(sizes []float64) Size {
	n := float64(len(sizes))
	mean, squares := 0.0, 0.0
	for _, v := range sizes {
		mean += v / n
	}
	for _, v := range sizes {
		squares += (v - mean) * (v - mean)
	}
	slices.Sort(sizes)
	return Size{Mean: mean, SD: math.Sqrt(squares / n), Most: sizes[len(sizes)*9/10]}
}

// outer lists the corners that lie near enough to the edge of the closed card to become the outermost.
func (m *model) outer(b plane.Box, far float64) []int {
	var out []int
	for i, c := range m.base.corners {
		inner := min(c.x-b.Min.X.MM(), b.Max.X.MM()-c.x, c.y-b.Min.Y.MM(), b.Max.Y.MM()-c.y)
		if inner <= far {
			out = append(out, i)
		}
	}
	return out
}
