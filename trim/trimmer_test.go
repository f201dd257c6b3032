package trim

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"foldwright/length"
)

// TestAudit_edgesAndDust: two parts of 40 mm and one cut of 2 mm come out of 82 mm between edges of 5 mm.
func TestAudit_edgesAndDust(t *testing.T) {
	j := Job{Sheets: []Sheet{{W: 92 * mm, H: 60 * mm, Edge: 5 * mm, Quantity: 1}}, Parts: []Part{{W: 40 * mm, H: 50 * mm, Count: 2}}, Trimmer: Trimmer{Blade: 2 * mm}}
	a, l := Audit(j, Plan{[]Layout{{0, 1, x(40, part(0, false), part(0, false))}}})
	if len(l) != 0 || a.Made[0] != 2 || a.Cuts != 5 || len(a.Offcuts) != 0 || a.Fences != 5 {
		t.Errorf("got %+v %v", a, l)
	}
	if p := a.Placed[1]; p.X != 47*mm || p.Y != 5*mm {
		t.Errorf("the second part lies at %v, %v", p.X, p.Y)
	}
	r, l := Cheapest(context.Background(), j, nil)
	if audited(t, j, r.Plan); len(l) != 0 || r.Status != Optimal {
		t.Errorf("got %+v %v", r, l)
	}
	j.Trimmer.Blade = 3 * mm
	if _, l := Cheapest(context.Background(), j, nil); !l.HasErrors() {
		t.Error("two parts and 3 mm of dust came out of 82 mm")
	}
}

// TestCheapest_longest: a trimmer of 60 mm cuts a sheet of 100 by 60 into parts of 100 by 20 never, since the first cut
// would be 100 long; into parts of 20 by 60 at once.
func TestCheapest_longest(t *testing.T) {
	j := Job{Sheets: []Sheet{{W: 100 * mm, H: 60 * mm, Quantity: 5, Price: 1}}, Parts: []Part{{W: 100 * mm, H: 20 * mm, Count: 3}}, Trimmer: Trimmer{Longest: 60 * mm}}
	if _, l := Cheapest(context.Background(), j, nil); len(l) != 1 || l[0].Rule != "trim-too-long" {
		t.Errorf("got %v", l)
	}
	j.Parts[0].W, j.Parts[0].H = 20*mm, 60*mm
	r, l := Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(l) != 0 || a.Sheets[0] != 1 {
		t.Errorf("got %+v %v", a, l)
	}
	// Of 45 by 25 four would come out of a sheet, if it could be cut in two along its length first. They still do, since the
	// first cut can be upright.
	j.Parts[0] = Part{W: 45 * mm, H: 25 * mm, Count: 4}
	r, l = Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(l) != 0 || a.Sheets[0] != 1 {
		t.Errorf("got %+v %v", a, l)
	}
}

// TestCheapest_narrowest: strips of 6 mm are too narrow for the fence; they are cut off the far end as long as 10 mm can be
// held, so that 9 of them come out of 60 mm, and 6 mm are left over.
func TestCheapest_narrowest(t *testing.T) {
	j := Job{Sheets: []Sheet{{W: 60 * mm, H: 40 * mm, Quantity: Unlimited, Price: 1}}, Parts: []Part{{W: 6 * mm, H: 40 * mm, Count: 8}}, Trimmer: Trimmer{Narrowest: 10 * mm}}
	r, l := Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(l) != 0 || a.Sheets[0] != 1 {
		t.Errorf("got %+v %v", a, l)
	}
}

// TestCheapest_trimmer. Property 9: whatever the trimmer, the edges and the dust, a plan is right by the audit, and the bound
// is not above it.
func TestCheapest_trimmer(t *testing.T) {
	plans := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{drawSheet(t), drawSheet(t)}, Parts: drawParts(t, 2), Trimmer: Trimmer{
			Longest:   mm * length.Length(rapid.IntRange(0, 9).Draw(t, "longest")),
			Narrowest: mm * length.Length(rapid.IntRange(0, 3).Draw(t, "narrowest")),
			Blade:     mm / 2 * length.Length(rapid.IntRange(0, 2).Draw(t, "blade")),
		}}
		for i := range j.Sheets {
			j.Sheets[i].W, j.Sheets[i].H = j.Sheets[i].W*3/2, j.Sheets[i].H*3/2
			j.Sheets[i].Edge = mm / 4 * length.Length(rapid.IntRange(0, 2).Draw(t, "edge"))
			j.Sheets[i].Price = int64(rapid.IntRange(0, 9).Draw(t, "price"))
		}
		for i := range j.Parts {
			j.Parts[i].Count = rapid.IntRange(0, 5).Draw(t, "count")
		}
		r, l := Cheapest(context.Background(), j, nil)
		if len(l) != 0 {
			t.Skip(l[0].What)
		}
		a, faults := Audit(j, r.Plan)
		if len(faults) != 0 || a.Price != r.Value || r.Bound > r.Value {
			t.Fatalf("property 9: %d, bound %d, the audit counts %d: %v", r.Value, r.Bound, a.Price, faults)
		}
		plans++
	})
	if plans == 0 {
		t.Error("there was no plan")
	}
}

func TestTrimmer_Layers(t *testing.T) {
	for _, c := range []struct {
		stack, caliper length.Length
		want           int
	}{{0, mm, 1}, {mm, 0, 1}, {mm, mm / 3, 3}, {mm, 2 * mm, 1}} {
		if got := (Trimmer{Stack: c.stack}).Layers(c.caliper); got != c.want {
			t.Errorf("%v of %v: got %d, want %d", c.stack, c.caliper, got, c.want)
		}
	}
}
