package cutlist

import (
	"slices"

	"foldwright/card"
)

// split parts a piece that is cut several times where the form has pieces of another name that are cut alike: two covers
// are a front cover and a back cover. It says whether it parted any.
func (b *builder) split() bool {
	done := false
	for j := range b.form.Pieces {
		g := &b.form.Pieces[j]
		if slices.ContainsFunc(b.pairs, func(p pair) bool { return p.form == j }) {
			continue
		}
		for _, p := range b.pairs {
			f := &b.form.Pieces[p.form]
			mine := &b.pieces[p.read]
			if !cutAlike(f, g) || mine.Copies < f.Copies+g.Copies || len(b.pieces) >= maxDrafts {
				continue
			}
			other := *mine
			other.Scores = slices.Clone(mine.Scores)
			mine.Copies, other.Copies = mine.Copies-g.Copies, g.Copies
			other.Name = b.freeName(g.Name)
			d := *b.drafts[p.read]
			b.drafts[p.read].name, d.name = "", "" // the name was that of both; they get those of the form
			b.pieces, b.drafts = append(b.pieces, other), append(b.drafts, &d)
			done = true
			break
		}
	}
	return done
}

// cutAlike says whether two pieces are the same card with the same scores.
func cutAlike(f, g *card.Piece) bool {
	same := func(a, b card.Score) bool { return a.Kind == b.Kind && a.At == b.At }
	return f.Size == g.Size && len(f.Outline)+len(g.Outline) == 0 && slices.EqualFunc(f.Scores, g.Scores, same)
}

// freeName returns a name that no piece has yet.
func (b *builder) freeName(name string) string {
	for slices.ContainsFunc(b.pieces, func(p card.Piece) bool { return p.Name == name }) {
		name += "-2"
	}
	return name
}

// again compares the pieces, some of them parted, with the form that was found.
func (b *builder) again() (float64, []pair) {
	read := make([]shape, len(b.pieces))
	for i := range b.pieces {
		read[i] = shapeOf(&b.pieces[i], true)
	}
	c := b.compareForm(read, b.form)
	return c.sure, c.pairs
}
