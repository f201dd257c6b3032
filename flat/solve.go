package flat

import "slices"

// collect writes down the circles of three, in terms of roots, each once. A cell whose stack lies within that of a
// neighbour with the same unknowns adds nothing new, and its circles are dropped as repeats.
func (s *orderer) collect() {
	work := 0
	for _, cell := range s.o.Cells {
		n := len(cell.Stack)
		work += n * n * n / 6
	}
	if work > mostCircles {
		s.gaveUp = true
		return
	}
	seen := make(map[[3]unknown]bool)
	var circles []clause
	for c, cell := range s.o.Cells {
		for k := 2; k < len(cell.Stack); k++ {
			for j := 1; j < k; j++ {
				jk := s.find(s.ask(c, j, k))
				for i := range j {
					u := [3]unknown{s.find(s.ask(c, i, j)), jk, s.find(s.ask(c, k, i))}
					if s.settled(u) {
						continue
					}
					key := u
					sort3(&key)
					if key[0] == key[1] && key[1] == key[2] {
						s.fail(s.ask(c, i, j))
						return
					}
					if !seen[key] {
						seen[key] = true
						circles = append(circles, clause{3, [4]unknown{u[0], u[1], u[2]}})
					}
				}
			}
		}
	}
	for i := range s.clauses {
		for k := range s.clauses[i].u {
			s.clauses[i].u[k] = s.find(s.clauses[i].u[k])
		}
	}
	s.clauses = append(s.clauses, circles...)
	s.watch = make([][]int32, len(s.parent))
	for i, cl := range s.clauses {
		for _, u := range cl.u[:cl.n] {
			s.watch[u>>1] = append(s.watch[u>>1], int32(i))
		}
	}
}

// settled says whether a circle is impossible already: two of its unknowns are opposite, or two are decided differently.
func (s *orderer) settled(u [3]unknown) bool {
	if u[0] == u[1].not() || u[1] == u[2].not() || u[0] == u[2].not() {
		return true
	}
	a, b, c := s.valueOf(u[0]), s.valueOf(u[1]), s.valueOf(u[2])
	return a*b < 0 || b*c < 0 || a*c < 0
}

func sort3(u *[3]unknown) {
	if u[0] > u[1] {
		u[0], u[1] = u[1], u[0]
	}
	if u[1] > u[2] {
		u[1], u[2] = u[2], u[1]
	}
	if u[0] > u[1] {
		u[0], u[1] = u[1], u[0]
	}
}

// solve propagates everything that is decided and searches the rest, lower-numbered panels in front first.
func (s *orderer) solve() {
	if s.clash != nil || s.gaveUp {
		return
	}
	all := make([]int32, len(s.clauses))
	for i := range all {
		all[i] = int32(i)
	}
	var trail []int32
	if bad := s.propagate(all, &trail); bad >= 0 {
		s.fail(s.clauses[bad].u[0])
		return
	}
	budget := searchBudget
	if bad := s.search(0, &budget); bad >= 0 {
		s.fail(s.clauses[bad].u[0])
	}
}

// searchBudget bounds how many open unknowns are tried: cards of the catalogue need fewer than a hundred.
const searchBudget = 20000

// search decides the open unknowns from number i on. It returns a clause that cannot be met, or -1.
func (s *orderer) search(i int, budget *int) int {
	for ; i < len(s.parent); i++ {
		if s.parent[i]>>1 != unknown(i) || s.value[i] != 0 || len(s.watch[i]) == 0 {
			if s.parent[i]>>1 == unknown(i) && s.value[i] == 0 {
				s.value[i] = 1
			}
			continue
		}
		bad := -1
		for _, v := range [2]int8{1, -1} {
			*budget--
			if *budget < 0 {
				s.gaveUp = true
				return max(bad, 0)
			}
			trail := []int32{int32(i)}
			s.value[i] = v
			if bad = s.propagate(slices.Clone(s.watch[i]), &trail); bad < 0 {
				if bad = s.search(i+1, budget); bad < 0 {
					return -1
				}
			}
			for _, r := range trail {
				s.value[r] = 0
			}
		}
		return bad
	}
	return -1
}

// propagate works through a queue of clauses until nothing more follows. It returns a broken clause or -1, and appends
// the roots that it decided to trail.
func (s *orderer) propagate(queue []int32, trail *[]int32) int {
	for len(queue) > 0 {
		k := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		u, v, broken := s.implied(&s.clauses[k])
		if broken {
			return int(k)
		}
		if v == 0 {
			continue
		}
		s.put(u, v)
		*trail = append(*trail, int32(u>>1))
		queue = append(queue, s.watch[u>>1]...)
	}
	return -1
}

// implied returns the unknown that a clause decides and its value, or 0; broken means that it cannot be met.
func (s *orderer) implied(c *clause) (u unknown, v int8, broken bool) {
	open, product, sum := -1, int8(1), int8(0)
	for i, w := range c.u[:c.n] {
		x := s.valueOf(w)
		if x == 0 {
			if open >= 0 {
				return s.impliedByPair(c)
			}
			open = i
			continue
		}
		product *= x
		sum += x
	}
	if c.n == 4 {
		// An even number of true ones among four: the product of all four signs is +1.
		if open < 0 {
			return 0, 0, product < 0
		}
		return c.u[open], product, false
	}
	if open < 0 {
		return 0, 0, sum == 3 || sum == -3
	}
	switch sum {
	case 2:
		return c.u[open], -1, false
	case -2:
		return c.u[open], 1, false
	}
	return 0, 0, false
}

// impliedByPair handles a circle in which the same unknown stands twice: the third must differ from it once decided.
func (s *orderer) impliedByPair(c *clause) (unknown, int8, bool) {
	if c.n != 3 {
		return 0, 0, false
	}
	for i := range 3 {
		a, b, other := c.u[i], c.u[(i+1)%3], c.u[(i+2)%3]
		if a == b {
			if v := s.valueOf(other); v != 0 && s.valueOf(a) == 0 {
				return a, -v, false
			}
		}
	}
	return 0, 0, false
}
