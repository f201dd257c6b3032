package recipe

import "foldwright/card"

// The Add methods put a new line where lines of its kind stand, and leave everything else of the text as it is. As with the
// Set methods nothing is checked.

// AddStock puts a stock behind the others.
func (r *Recipe) AddStock(s card.Stock) {
	r.add(&stockLine{s, thinUnit(s.Caliper, r.card.Unit)}, func(s statement) int {
		switch s.(type) {
		case *titleLine, *unitsLine, *marksLine, *fitsLine:
			return 1
		case *stockLine:
			return 2
		}
		return 0
	})
}

// AddMat puts a mat behind the others, so that it lies on those that its panels have.
func (r *Recipe) AddMat(m card.Mat) {
	r.add(&matLine{m}, func(s statement) int {
		switch s.(type) {
		case *matLine:
			return 2
		case *topperLine:
			return 0
		}
		return 1
	})
}

// AddTopper puts a topper behind all that there is, so that it lies on the others of its panel.
func (r *Recipe) AddTopper(t card.Topper) {
	r.add(&topperLine{topper: t, unit: thinUnit(t.Thick, r.card.Unit)}, func(s statement) int {
		switch s.(type) {
		case *topperLine, *matLine:
			return 2
		}
		return 1
	})
}

// add puts a statement behind the last line that kin says it may follow: 2 for a line of its kind, else 1, with a blank line
// between them; 0 for one that it must not follow.
func (r *Recipe) add(fresh statement, kin func(statement) int) {
	at, best := 0, 0
	for i, l := range r.lines {
		if l.statement == nil {
			continue
		}
		if k := kin(l.statement); k > 0 && k >= best {
			at, best = i+1, k
		}
	}
	put := []line{{statement: fresh}}
	if best == 1 {
		put = []line{{}, {statement: fresh}}
	}
	if best < 2 && at < len(r.lines) && !r.lines[at].blank() {
		put = append(put, line{})
	}
	r.lines = append(r.lines[:at:at], append(put, r.lines[at:]...)...)
	r.rebuild()
}
