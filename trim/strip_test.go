package trim

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/length"
)

// drawTree is any tree of cuts of a piece, in whole millimetres; its leaves are rests, or parts that it adds to the list.
func drawTree(t *rapid.T, w, h length.Length, depth int, parts *[]Part) *Cut {
	kind := CutKind(rapid.IntRange(0, 3).Draw(t, "kind"))
	across := w
	if kind == AtY {
		across = h
	}
	switch {
	case kind == IsPart:
		turned := rapid.Bool().Draw(t, "turned")
		p := Part{W: w, H: h, Turn: true}
		if turned {
			p.W, p.H = h, w
		}
		at := slices.Index(*parts, p)
		if at < 0 {
			at = len(*parts)
			*parts = append(*parts, p)
		}
		return &Cut{Kind: IsPart, Part: at, Turned: turned}
	case kind == Rest || depth == 0 || across < 2*mm:
		return nil
	}
	at := mm * length.Length(rapid.Int64Range(1, int64(across/mm)-1).Draw(t, "at"))
	c := &Cut{Kind: kind, At: at}
	if kind == AtX {
		c.First, c.Second = drawTree(t, at, h, depth-1, parts), drawTree(t, w-at, h, depth-1, parts)
	} else {
		c.First, c.Second = drawTree(t, w, at, depth-1, parts), drawTree(t, w, h-at, depth-1, parts)
	}
	return c
}

// TestStrip. Property 7: strips make the same parts out of the same sheet by a right plan, with fewer cuts, or as
// many and a largest off-cut that is no smaller, and strips of strips are the same.
func TestStrip(t *testing.T) {
	fewer := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{{W: 9 * mm, H: 7 * mm, Quantity: 1}}}
		tree := drawTree(t, 9*mm, 7*mm, 6, &j.Parts)
		before, l := Audit(j, Plan{[]Layout{{0, 1, tree}}})
		if len(l) != 0 {
			t.Fatalf("the tree is not right: %v", l)
		}
		s := Trimmer{}.stripOf(tree, 9*mm, 7*mm)
		s.sort()
		after, l := Audit(j, Plan{[]Layout{{0, 1, s.tree()}}})
		if len(l) != 0 || !slices.Equal(before.Made, after.Made) || after.Cuts > before.Cuts ||
			after.Cuts == before.Cuts && largest(after) < largest(before) {
			t.Fatalf("property 7: %v\nbefore %+v\nafter %+v", l, before, after)
		}
		again := Trimmer{}.stripOf(s.tree(), 9*mm, 7*mm)
		again.sort()
		if !slices.Equal(again.key(nil), s.key(nil)) {
			t.Fatal("property 7: strips of strips differ")
		}
		if after.Cuts < before.Cuts {
			fewer++
		}
	})
	if fewer == 0 {
		t.Error("no tree lost a cut")
	}
}

func largest(a Account) (most int64) {
	for _, o := range a.Offcuts {
		most = max(most, area(o.W, o.H))
	}
	return most
}

// TestStrip_hoist: three parts in a row, each with a rest above it, are cut out of one strip.
func TestStrip_hoist(t *testing.T) {
	col := y(5, part(0, false), nil)
	s := Trimmer{}.stripOf(x(3, col, x(3, col, x(3, col, nil))), 10*mm, 9*mm)
	want := y(5, x(3, part(0, false), x(3, part(0, false), x(3, part(0, false), nil))), nil)
	if got := s.tree(); !sameTree(got, want) {
		t.Errorf("got %+v", got)
	}
}

func sameTree(a, b *Cut) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Kind == b.Kind && a.At == b.At && a.Part == b.Part && a.Turned == b.Turned && sameTree(a.First, b.First) && sameTree(a.Second, b.Second)
}
