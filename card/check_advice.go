package card

import (
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// boardFrom is the caliper from which a scored stock counts as board: its folds then take room that a program which counts
// sheets without thickness does not see. Assumed; the heaviest card in the tables of stock is about half of it.
const boardFrom = length.Millimetre

// checkAdvice warns of what may be meant, but seldom is, in a card that has nothing worse.
func (k *checker) checkAdvice() {
	if k.problems.HasErrors() {
		return
	}
	for i := range k.card.Pieces {
		p := &k.card.Pieces[i]
		if s := k.card.StockNamed(p.Stock); s != nil && s.Caliper >= boardFrom && s.Caliper <= maxCaliper && len(p.Scores) > 0 {
			k.problems.Add(problem.Problem{
				Rule: "board", Severity: problem.Warning, Where: s.CaliperWhere,
				What:  "stock " + s.Name + " is board of " + s.Caliper.Both(length.MM) + ": its folds take room, and lying flat is judged for sheets without thickness",
				Needs: "a thinner stock for what is folded, or a trial with a strip of it",
			})
		}
		for _, name := range p.Strip {
			if isTab(name.Name) && !k.gap("", "glue") && !k.glued(p.Name, name.Name) {
				k.problems.Add(problem.Problem{
					Rule: "tab-loose", Severity: problem.Warning, Where: name.Where,
					What: "panel " + problem.Quote(p.Name+"."+name.Name) + " is glued to nothing", Needs: "a glue line for it, or another name if it is no tab",
				})
			}
		}
	}
}

// isTab says whether a panel is called a tab: tab, front-tab, tab-2.
func isTab(name string) bool {
	for word := range strings.FieldsFuncSeq(strings.ToLower(name), func(r rune) bool { return r == '-' || r == '_' }) {
		if word == "tab" {
			return true
		}
	}
	return false
}

// glued says whether a glue line names a panel.
func (k *checker) glued(piece, panel string) bool {
	for _, g := range k.card.Glues {
		if g.A.Piece == piece && g.A.Panel == panel || g.B.Piece == piece && g.B.Panel == panel {
			return true
		}
	}
	return false
}
