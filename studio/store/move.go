package store

import (
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/kit"
	"foldwright/length"
	"foldwright/problem"
)

// OffcutNote is the note by which off-cuts are told from bought sheets. A row of the papers with this note goes away with its
// last sheet.
const OffcutNote = "off-cut"

// Move is what goes out of the drawer and what comes in; OnHand of each paper is how many sheets.
type Move struct{ Take, Put []kit.Paper }

// MoveOf works out the move of some plans: the sheets that they cut up are taken, off-cuts whose sides are both at least
// least long are put in, and so are the sheets that are left of packs that have to be bought.
func MoveOf(plans []kit.Planned, least length.Length) Move {
	var m Move
	for _, p := range plans {
		for i, used := range p.Account.Sheets {
			paper := p.Supply[i].Paper
			paper.OnHand = used
			if p.Supply[i].Bought {
				paper.OnHand = p.Packs[i]*paper.Pack - used
				m.Put = join(m.Put, paper)
				continue
			}
			m.Take = join(m.Take, paper)
		}
		for _, o := range p.Account.Offcuts {
			if o.W < least || o.H < least {
				continue
			}
			l := p.Result.Plan.Layouts[o.Layout]
			from := p.Supply[l.Sheet].Paper
			cut := kit.Paper{Stock: from.Stock, W: o.W, H: o.H, Unit: from.Unit, Grain: from.Grain, Directed: from.Directed, OnHand: l.Times, Note: OffcutNote}
			if cut.Stock == kit.AnyStock { // what was cut for one stock is of that stock from now on
				cut.Stock = p.Stock.Name
			}
			m.Put = join(m.Put, cut)
		}
	}
	return m
}

// back returns the move that takes this one back.
func (m Move) back() Move { return Move{Take: m.Put, Put: m.Take} }

// join adds sheets to a list, to those of the same kind that are in it.
func join(list []kit.Paper, p kit.Paper) []kit.Paper {
	if p.OnHand <= 0 {
		return list
	}
	for i := range list {
		if same(list[i], p) {
			list[i].OnHand += p.OnHand
			return list
		}
	}
	return append(list, p)
}

// same says whether two sheets cannot be told apart in the hand.
func same(a, b kit.Paper) bool {
	return strings.EqualFold(a.Stock, b.Stock) && a.W == b.W && a.H == b.H && a.Directed == b.Directed && grainWord(a) == grainWord(b)
}

// grainWord is the grain in a drawer file.
func grainWord(p kit.Paper) string {
	switch p.Grain {
	case card.GrainAcross:
		return "across"
	case card.GrainUp:
		return "up"
	}
	return "unknown"
}

func grainNamed(word string) card.Grain {
	switch word {
	case "across":
		return card.GrainAcross
	case "up":
		return card.GrainUp
	}
	return card.GrainUnknown
}

// apply makes a move in the text of the papers. Remarks and all other rows stay as they are.
func (m Move) apply(text string) (string, error) {
	f, err := readPapers(text)
	if err != nil {
		return "", err
	}
	for _, p := range m.Put {
		if err := f.put(p); err != nil {
			return "", err
		}
	}
	for _, p := range m.Take {
		if err := f.take(p); err != nil {
			return "", err
		}
	}
	out, err := f.text()
	if err != nil {
		return "", err
	}
	_, before := kit.ReadDrawer(Papers.String(), []byte(text))
	if _, after := kit.ReadDrawer(Papers.String(), []byte(out)); len(after) > len(before) {
		return "", refused(Papers.String(), "the drawer cannot hold that: "+after[len(after)-1].What, after[len(after)-1].Needs)
	}
	return out, nil
}

// take takes sheets out of the rows that hold them.
func (f *paperFile) take(p kit.Paper) error {
	left := p.OnHand
	for i := range f.rows {
		r := &f.rows[i]
		if r.paper == nil || !same(*r.paper, p) {
			continue
		}
		n := min(left, r.paper.OnHand)
		if n > 0 {
			left -= n
			f.setOnHand(r, r.paper.OnHand-n)
		}
	}
	if left > 0 {
		return refused(Papers.String(), fmt.Sprintf("the drawer holds %d of %s; %d are to be taken", p.OnHand-left, describe(p), p.OnHand),
			"correct how many there are, or plan again")
	}
	return nil
}

// put puts sheets into the first row of their kind, or into a new one.
func (f *paperFile) put(p kit.Paper) error {
	for i := range f.rows {
		if r := &f.rows[i]; r.paper != nil && same(*r.paper, p) {
			f.setOnHand(r, r.paper.OnHand+p.OnHand)
			return nil
		}
	}
	return f.add(p)
}

// describe names a kind of sheet in a message.
func describe(p kit.Paper) string {
	s := fmt.Sprintf("%s %s x %s", problem.Quote(p.Stock), p.W.Human(p.Unit), p.H.Human(p.Unit))
	if g := grainWord(p); g != "unknown" {
		s += ", grain " + g
	}
	return s
}
