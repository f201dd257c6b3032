package recipe

import (
	"bytes"
	"testing"

	"foldwright/card"
	"foldwright/problem"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// difference says how two cards differ, apart from the places at which things were said.
func difference(a, b *card.Card) string {
	return cmp.Diff(a, b,
		cmpopts.IgnoreTypes(problem.Place{}, []problem.Place{}), cmpopts.EquateEmpty(),
		cmpopts.IgnoreFields(card.Piece{}, "FoldNames")) // how a fold line names its senses is not what it says
}

func sameCard(t testing.TB, want, got *card.Card) {
	t.Helper()
	if d := difference(want, got); d != "" {
		t.Errorf("the cards differ (-want +got):\n%s", d)
	}
}

// fixedPoint checks that what a recipe writes reads as the same card and is written again the same.
func fixedPoint(t testing.TB, r *Recipe) {
	t.Helper()
	once := r.Format()
	again, problems := Read("again", once)
	if len(problems) > 0 {
		t.Fatalf("what was written cannot be read:\n%s\n%s", printed(problems), once)
	}
	sameCard(t, r.Card(), again.Card())
	if twice := again.Format(); !bytes.Equal(once, twice) {
		t.Errorf("written once:\n%s\nwritten twice:\n%s", once, twice)
	}
}
