package trim

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestTidied. Property 8: a tidied plan is right and makes the same out of the same sheets, with no more layouts and cuts.
func TestTidied(t *testing.T) {
	merged := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{{W: 9 * mm, H: 7 * mm, Quantity: Unlimited}, {W: 5 * mm, H: 8 * mm, Quantity: Unlimited}}}
		var p Plan
		for range rapid.IntRange(1, 4).Draw(t, "layouts") {
			k := rapid.IntRange(0, 1).Draw(t, "sheet")
			tree := drawTree(t, j.Sheets[k].W, j.Sheets[k].H, 4, &j.Parts)
			p.Layouts = append(p.Layouts, Layout{k, rapid.IntRange(1, 3).Draw(t, "times"), tree})
		}
		before, l := Audit(j, p)
		if len(l) != 0 {
			t.Fatalf("the plan is not right: %v", l)
		}
		q := tidied(j, p)
		after, l := Audit(j, q)
		if len(l) != 0 || !slices.Equal(before.Made, after.Made) || !slices.Equal(before.Sheets, after.Sheets) ||
			after.Cuts > before.Cuts || len(q.Layouts) > len(p.Layouts) {
			t.Fatalf("property 8: %v\nbefore %+v\nafter %+v", l, before, after)
		}
		if len(q.Layouts) < len(p.Layouts) {
			merged++
		}
	})
	if merged == 0 {
		t.Error("no layouts were merged")
	}
}

// TestTidied_alike: two layouts that hold the same strips in another order are one, and the strip whose width nobody else
// needs comes last.
func TestTidied_alike(t *testing.T) {
	j := Job{Sheets: []Sheet{{W: 10 * mm, H: 4 * mm, Quantity: 3}}, Parts: []Part{{W: 3 * mm, H: 4 * mm}, {W: 4 * mm, H: 4 * mm}}}
	p := Plan{[]Layout{
		{0, 1, x(3, part(0, false), x(4, part(1, false), part(0, false)))},
		{0, 2, x(6, x(3, part(0, false), part(0, false)), part(1, false))},
	}}
	got := tidied(j, p)
	want := x(3, part(0, false), x(3, part(0, false), part(1, false)))
	if len(got.Layouts) != 1 || got.Layouts[0].Times != 3 || !sameTree(got.Layouts[0].Root, want) {
		t.Errorf("got %+v", got)
	}
}

// TestLean. Property 12: a lean plan is right, makes no less than is wanted, takes no more cuts, and makes nothing too much
// in a layout of one sheet.
func TestLean(t *testing.T) {
	leaner := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{{W: 9 * mm, H: 7 * mm, Quantity: Unlimited}}}
		var p Plan
		for range rapid.IntRange(1, 3).Draw(t, "layouts") {
			p.Layouts = append(p.Layouts, Layout{0, rapid.IntRange(1, 3).Draw(t, "times"), drawTree(t, 9*mm, 7*mm, 4, &j.Parts)})
		}
		before, _ := Audit(j, p)
		for i := range j.Parts {
			j.Parts[i].Count = rapid.IntRange(0, before.Made[i]).Draw(t, "count")
		}
		q := lean(j, p)
		after, l := Audit(j, q)
		if len(l) != 0 || after.Cuts > before.Cuts {
			t.Fatalf("property 12: %v\nbefore %+v\nafter %+v", l, before, after)
		}
		for _, at := range after.Placed {
			if q.Layouts[at.Layout].Times == 1 && after.Made[at.Part] > j.Parts[at.Part].Count {
				t.Fatalf("property 12: %d of part %d, wanted %d", after.Made[at.Part], at.Part, j.Parts[at.Part].Count)
			}
		}
		if after.Cuts < before.Cuts {
			leaner++
		}
	})
	if leaner == 0 {
		t.Error("nothing was left out")
	}
}
