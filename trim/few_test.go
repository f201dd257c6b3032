package trim

import (
	"context"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// TestCheapest_neat: ten kits of a part of 60 by 60 and two of 40 by 30 mm come out of ten sheets of 100 by 60 cut up one
// way, with the fence at 60 and at 30 mm.
func TestCheapest_neat(t *testing.T) {
	j := Job{
		Sheets: []Sheet{{W: 100 * mm, H: 60 * mm, Quantity: Unlimited, Price: 1}},
		Parts:  []Part{{W: 60 * mm, H: 60 * mm, Count: 10}, {W: 40 * mm, H: 30 * mm, Count: 20}},
	}
	r, l := Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(l) != 0 || a.Price != 10 || len(r.Plan.Layouts) != 1 || a.Fences != 2 || a.Cuts != 20 {
		t.Errorf("got %d layouts, %d fences, %d cuts, price %d", len(r.Plan.Layouts), a.Fences, a.Cuts, a.Price)
	}
}

// TestCheapest_neatCard: the kit of one card takes no more layouts, cuts and places of the fence than the best that small
// integer programs over many layouts found (our own, of an earlier program with another solver; upper bounds).
func TestCheapest_neatCard(t *testing.T) {
	j := one(t, "testdata/b1_one_card_in.txt", "b1_one_card_in", false)
	r, _ := Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(r.Plan.Layouts) > 2 || a.Cuts > 20 || a.Fences > 15 {
		t.Errorf("got %d layouts, %d cuts, %d fences", len(r.Plan.Layouts), a.Cuts, a.Fences)
	}
}

// TestFrugal. Property 11: a frugal plan makes all that is wanted and costs no more than it may.
func TestFrugal(t *testing.T) {
	plans := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{drawSheet(t), drawSheet(t)}, Parts: drawParts(t, 2)}
		for i := range j.Sheets {
			j.Sheets[i].Price = int64(rapid.IntRange(1, 30).Draw(t, "price"))
		}
		j.Sheets[0].Quantity = rapid.IntRange(0, 6).Draw(t, "quantity")
		wanted := 0
		for i := range j.Parts {
			j.Parts[i].Count = rapid.IntRange(0, 20).Draw(t, "count")
			wanted += j.Parts[i].Count
		}
		if len(j.Check()) != 0 || wanted == 0 {
			t.Skip("nothing comes out of these sheets")
		}
		m := newMaster(j.plain())
		most := int64(rapid.IntRange(1, 300).Draw(t, "most"))
		plan, ok := m.frugal(context.Background(), most/2, most, rand.New(rand.NewPCG(1, 2)))
		if !ok {
			return
		}
		a, l := Audit(j, tidied(m.job, m.planOf(plan)))
		if len(l) != 0 || a.Price > most {
			t.Fatalf("property 11: %d of at most %d; %v", a.Price, most, l)
		}
		plans++
	})
	if plans == 0 {
		t.Error("there was no plan")
	}
}
