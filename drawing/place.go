package drawing

import "math"

// pinned is a label on an axis: the place it belongs to and the room it needs along the axis, in mm.
type pinned struct{ at, room float64 }

// hang tells where a label sits at its pin.
type hang uint8

const (
	centred hang = iota
	before       // ends at the pin
	after        // starts at the pin
)

// slot is where a label has been put: its row (0 is next to the edge) and the stretch of the axis that it fills.
type slot struct {
	row      int
	hang     hang
	from, to float64
}

// Space kept free, in mm: between a flagged label and its own pin, and between a label and another label's pin.
const (
	flagGap  = 0.8
	pinClear = 0.5
)

var unbounded = math.Inf(1)

// place returns one slot for every item, so that no label overlaps another and none lies on the pin of a label in a
// deeper row. Items come by rising place. Labels stay between lo and hi where that can be done; others stick out.
//
// Items are taken from both ends of a crowd towards a split: left of it a label that finds no room beside its pin hangs
// before the pin in a deeper row, right of it behind the pin, and such a row always exists, because every pin that
// reaches as deep lies on the other side. The split with the fewest rows wins.
func place(items []pinned, gap, lo, hi float64) []slot {
	slots := make([]slot, 0, len(items))
	for len(items) > 0 {
		n := crowd(items, gap)
		slots = append(slots, placeCrowd(items[:n], gap, lo, hi)...)
		items = items[n:]
	}
	return slots
}

// crowd returns how many of the first items may get into each other's way: no label of theirs can touch one of the rest.
func crowd(items []pinned, gap float64) int {
	back := make([]float64, len(items)+1) // how far to the left the labels from i on can reach
	back[len(items)] = unbounded
	for i := len(items) - 1; i >= 0; i-- {
		back[i] = min(back[i+1], items[i].at-items[i].room-flagGap-max(gap, pinClear))
	}
	reach := -unbounded
	for i, it := range items {
		reach = max(reach, it.at+it.room+flagGap)
		if back[i+1] > reach {
			return i + 1
		}
	}
	return len(items)
}

// manySplits bounds the work in a crowd: of a larger number of splits only so many, evenly apart, are tried.
const manySplits = 12

func placeCrowd(items []pinned, gap, lo, hi float64) []slot {
	n := len(items)
	var best *placer
	tries := min(n, manySplits)
	for try := range tries + 1 {
		split := n * try / tries
		p := &placer{items: items, gap: gap, lo: lo, hi: hi, slots: make([]slot, n), done: make([]bool, n)}
		for i := range split {
			p.put(i, before)
		}
		for i := n - 1; i >= split; i-- {
			p.put(i, after)
		}
		if best == nil || p.cost() < best.cost() {
			best = p
		}
	}
	return best.slots
}

// placer puts the labels of one crowd one after another.
type placer struct {
	items  []pinned
	gap    float64
	lo, hi float64
	slots  []slot
	done   []bool
}

// put gives item i the shallowest slot that is free; where all else is taken it hangs on the outer side of its pin, in a
// row below all others.
func (p *placer) put(i int, outer hang) {
	inner := before + after - outer
	p.done[i] = true
	deepest := rows(p.slots) // what is not placed yet counts as row 0, where this one goes at the least
	for _, bounded := range []bool{true, false} {
		for row := range deepest + 1 {
			for _, h := range []hang{centred, outer, inner} {
				s := p.at(i, row, h)
				if inside := s.from >= p.lo && s.to <= p.hi; inside == bounded && p.free(i, s) {
					p.slots[i] = s
					return
				}
			}
		}
	}
	p.slots[i] = p.at(i, deepest, outer)
}

// cost weighs a whole placing: labels that stick out, then rows, then how deep the labels hang, then flags.
func (p *placer) cost() int {
	out, deep, flags := 0, 0, 0
	for _, s := range p.slots {
		if s.from < p.lo || s.to > p.hi {
			out++
		}
		deep += s.row
		if s.hang != centred {
			flags++
		}
	}
	n := len(p.items) + 1
	return ((out*n+rows(p.slots))*n*n+deep)*n + flags
}

func (p *placer) at(i, row int, h hang) slot {
	it := p.items[i]
	from := it.at - it.room/2
	switch h {
	case before:
		from = it.at - flagGap - it.room
	case after:
		from = it.at + flagGap
	}
	return slot{row, h, from, from + it.room}
}

// free says whether label i may take the slot: it overlaps no label, lies on no pin that passes or may yet pass, and its
// own pin crosses no label.
func (p *placer) free(i int, s slot) bool {
	for j, t := range p.slots {
		if j == i {
			continue
		}
		at := p.items[j].at
		covered := s.from-pinClear < at && at < s.to+pinClear
		if !p.done[j] {
			if covered {
				return false
			}
			continue
		}
		crosses := t.from-pinClear < p.items[i].at && p.items[i].at < t.to+pinClear
		switch {
		case t.row == s.row && s.from < t.to+p.gap && t.from < s.to+p.gap,
			t.row > s.row && covered,
			t.row < s.row && crosses:
			return false
		}
	}
	return true
}

// rows returns how many rows the slots fill.
func rows(slots []slot) int {
	n := 0
	for _, s := range slots {
		n = max(n, s.row+1)
	}
	return n
}
