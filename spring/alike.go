package spring

import (
	"fmt"
	"math"
	"slices"
)

// alike groups the hinges that have the same place in the card: mirrored left to right or front to back, they would be each
// other. With within, the place in their piece is what counts, and copies of a piece are alike. Two hinges are alike where
// they are equally stiff, remember the same, are shut alike, and what they hang on is alike, as far as one can follow the
// card, or the piece, from them.
//
// Method: colours are refined until no more differ (Weisfeiler and Leman 1968, from memory). Panels that glue holds
// together are one node, so that a tab counts with what it is glued to. It never parts what is alike; whether the card
// lets them move alike is for [Model.stray] to see.
func (s *Model) alike(within bool) [][]int {
	a := s.Fold.Assembly
	body := make([]int, len(a.Panels))
	for i := range body {
		body[i] = i
	}
	for _, j := range a.Joints {
		if p, q := body[j.A], body[j.B]; !within || a.Panels[j.A].Copy == a.Panels[j.B].Copy {
			for i, v := range body {
				if v == q {
					body[i] = p
				}
			}
		}
	}
	count := len(body)
	hinge := make([]int, len(a.Hinges))
	number := func(names []string, out []int) int {
		distinct := slices.Clone(names)
		slices.Sort(distinct)
		distinct = slices.Compact(distinct)
		for i, n := range names {
			out[i], _ = slices.BinarySearch(distinct, n)
		}
		return len(distinct)
	}
	names := make([]string, len(a.Hinges))
	for i := range names {
		names[i] = fmt.Sprintf("%s %.4g %.4g %v", a.Copies[a.Hinges[i].Copy].Pattern.Piece.Name, s.Stiffness[i], s.Energy.Rest[i]*s.Fold.Sense(i), s.Fold.Shut[i] != 0)
	}
	colours := number(names, hinge)
	node := s.sizes(body)
	for {
		around := make([][]int, count)
		for i, h := range a.Hinges {
			around[body[h.A]] = append(around[body[h.A]], hinge[i])
			around[body[h.B]] = append(around[body[h.B]], hinge[i])
		}
		nodes := make([]string, count)
		for i, list := range around {
			slices.Sort(list)
			nodes[i] = fmt.Sprint(node[i], list)
		}
		number(nodes, node)
		for i, h := range a.Hinges {
			p, q := node[body[h.A]], node[body[h.B]]
			names[i] = fmt.Sprint(hinge[i], min(p, q), max(p, q))
		}
		now := number(names, hinge)
		if now == colours {
			break
		}
		colours = now
	}
	groups := make([][]int, colours)
	for i, c := range hinge {
		groups[c] = append(groups[c], i)
	}
	return groups
}

// sizes numbers the nodes by their largest panel.
func (s *Model) sizes(body []int) []int {
	area := make([]int, len(body))
	for i := range s.Fold.Assembly.Panels {
		const mm2 = 1e12
		area[body[i]] = max(area[body[i]], int(math.Round(s.Fold.Assembly.Panels[i].Area()/mm2)))
	}
	return area
}

// guides works out springs between folds that are alike, so stiff that they stay alike and a row of springs stays straight:
// for the folds |x| of a group, a stiffness times their distance from the mean. In x, a pose that has only begun to open,
// folds that are alike have turned alike; a group in which they have not is not guided. nil where nothing is alike.
func (s *Model) guides(x []float64, within bool) []float64 {
	const stiff = 2000
	n := len(s.Stiffness)
	most := 0.0
	for i := range n {
		most = max(most, s.Energy.K[i*n+i])
	}
	var k []float64
	for _, g := range s.alike(within) {
		if !s.together(g, x) {
			continue
		}
		if k == nil {
			k = make([]float64, n*n)
		}
		for _, i := range g {
			k[i*n+i] += stiff * most
			for _, j := range g {
				k[i*n+j] -= stiff * most / float64(len(g)) * s.Fold.Sense(i) * s.Fold.Sense(j)
			}
		}
	}
	return k
}

// together says whether the folds of a group have turned alike from the closed card to x.
func (s *Model) together(group []int, x []float64) bool {
	const little, share = 0.01, 0.2 // radians; of the fold that turned most
	low, high := math.Inf(1), 0.0
	for _, h := range group {
		turned := math.Abs(x[h] - s.Fold.Shut[h])
		low, high = min(low, turned), max(high, turned)
		if s.Fold.Sense(h) == 0 {
			return false
		}
	}
	return len(group) > 1 && high-low < max(little, share*high)
}
