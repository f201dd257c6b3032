package cutlist

import (
	"slices"
	"strings"

	"foldwright/length"
)

// typed is one number of a list with its unit and place.
type typed struct {
	text string
	unit length.Unit
	item int
	col  int // columns behind the start of the item
}

// listed works out a list: which unit, and which commas are decimal marks.
func (r *resolver) listed(g *group, side length.Length) (int, func() []placed) {
	best, bestBad := []typed(nil), -1
	us, spread := r.listUnits(g)
	runs := slices.ContainsFunc(g.list, func(k int) bool { return r.items[k].num.run != nil })
	unclear := false
	for _, u := range us {
		apart := r.typed(g, u, spread, false)
		bad := disorder(apart, side)
		pick := apart
		if joined := r.typed(g, u, spread, true); runs && joined != nil {
			b := disorder(joined, side)
			tie := b == bad
			small := joined[0].unit == length.CM // millimetres are mostly whole, centimetres are not
			if b < bad || tie && (r.h.commas || !r.h.points && (small || len(g.list) > 1)) {
				pick, bad = joined, b
			}
			if tie && !r.h.commas && !r.h.points && len(g.list) == 1 && best == nil {
				unclear = true
			}
		}
		if bestBad < 0 || bad < bestBad {
			best, bestBad = pick, bad
		}
	}
	chosen := best
	first := us[0]
	if slices.Contains(us, r.unit) {
		first = r.unit
	}
	return bestBad, func() []placed {
		if unclear {
			how := "the latter"
			if strings.Contains(chosen[0].text, ".") {
				how = "the former"
			}
			r.warn("comma-unclear", g.list[0], "the comma may be a decimal mark or stand between two numbers; it is read as "+how, "a space behind a comma between two numbers")
		}
		if len(chosen) > 0 && len(us) > 1 && !r.items[chosen[0].item].num.said && chosen[0].unit != first && !spread[chosen[0].item].said {
			r.tellGuess(r.h, chosen[0].item, chosen[0].unit)
		}
		return r.exact(chosen)
	}
}

// spreadUnit is the unit that a number of a list takes from its neighbours.
type spreadUnit struct {
	unit length.Unit
	said bool
}

// listUnits returns the units to try for a list, and those that its numbers take from each other: "4, 8 and 12 cm".
func (r *resolver) listUnits(g *group) ([]length.Unit, map[int]spreadUnit) {
	spread := map[int]spreadUnit{}
	var last spreadUnit
	for _, k := range g.list {
		if n := r.items[k].num; n.said {
			last = spreadUnit{n.unit, true}
		}
		spread[k] = last
	}
	last = spreadUnit{}
	for _, k := range slices.Backward(g.list) {
		if n := r.items[k].num; n.said {
			last = spreadUnit{n.unit, true}
		}
		if last.said {
			spread[k] = last
		}
	}
	return r.candidates(g.list...), spread
}

// typed returns the numbers of a list; joined says that commas without a space are decimal marks. It is nil where they
// cannot be.
func (r *resolver) typed(g *group, u length.Unit, spread map[int]spreadUnit, joined bool) []typed {
	var out []typed
	for _, k := range g.list {
		n, unit := r.items[k].num, u
		if s := spread[k]; s.said {
			unit = s.unit
		}
		if last := len(out) - 1; last >= 0 && n.frac && !strings.Contains(n.text, " ") && r.items[k].first && r.items[out[last].item].num.whole && !r.items[out[last].item].num.said {
			out[last].text += " " + n.text // the line ends between 8 and 1/4
			r.also(out[last].item, k)
			continue
		}
		switch {
		case n.run == nil:
			out = append(out, typed{text: n.text, unit: unit, item: k})
		case joined && len(n.run)%2 != 0:
			return nil
		default:
			out = append(out, parts(n.run, unit, k, joined)...)
		}
	}
	return out
}

// also remembers that item k belongs to the number of another item.
func (r *resolver) also(item, k int) {
	if r.d.tails == nil {
		r.d.tails = map[int]int{}
	}
	r.d.tails[item] = k
}

func parts(run []string, unit length.Unit, k int, joined bool) []typed {
	var out []typed
	col := 0
	for i := 0; i < len(run); i++ {
		t := typed{text: run[i], unit: unit, item: k, col: col}
		col += len(run[i]) + 1
		if joined {
			t.text += "." + run[i+1]
			col += len(run[i+1]) + 1
			i++
		}
		out = append(out, t)
	}
	return out
}

// disorder counts what is out of order or outside the side.
func disorder(list []typed, side length.Length) int {
	bad, up, down := 0, 0, 0
	last := length.Length(0)
	for i, t := range list {
		l, err := length.Parse(t.text, t.unit)
		if err != nil || l <= 0 || l >= side {
			bad++
			continue
		}
		if i > 0 && l <= last {
			up++
		}
		if i > 0 && l >= last {
			down++
		}
		last = l
	}
	if down == 0 {
		return bad // counted down from the far end
	}
	return bad + up
}

// exact returns the lengths of a list, and marks its numbers as read.
func (r *resolver) exact(list []typed) []placed {
	var out []placed
	for _, t := range list {
		l, err := length.Parse(t.text, t.unit)
		if err != nil {
			r.refuse(t.item, err)
			r.items[t.item].used = false
			r.d.refused = append(r.d.refused, t.item)
			continue
		}
		at := r.place(t.item)
		at.Column += t.col
		if !slices.Contains(r.d.refused, t.item) {
			r.mark(t.item)
		}
		if k, ok := r.d.tails[t.item]; ok {
			r.mark(k)
		}
		r.compare(t.item, l)
		out = append(out, placed{l, at})
	}
	return out
}
