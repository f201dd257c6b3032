package flat

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/internal/check"

	"pgregory.net/rapid"
)

// star writes a square sheet of 200 mm with scores from its middle at the sums of the sector angles in degrees.
func star(sectors []float64, extra string) string {
	var b strings.Builder
	b.WriteString(header + "piece sheet of plain\n  size 200 x 200\n")
	at := 10.0 // no score meets a corner
	for _, s := range sectors {
		sin, cos := math.Sincos(at * math.Pi / 180)
		k := 100 / max(math.Abs(sin), math.Abs(cos))
		fmt.Fprintf(&b, "  score (100, 100) to (%.6f, %.6f)\n", 100+k*cos, 100+k*sin)
		at += s
	}
	return b.String() + extra + "opens by itself\n"
}

func TestKawasaki(t *testing.T) {
	check.Each(t, "testdata/check/kawasaki.csv", func(t *testing.T, r check.Row) {
		sectors := []float64{r.Float("a1_deg"), r.Float("a2_deg"), r.Float("a3_deg"), r.Float("a4_deg")}
		a := assemble(t, read(t, star(sectors, "")))
		v := Vertices(a.Copies[0].Pattern)
		if len(v) != 1 {
			t.Fatalf("vertices: got %d, want 1", len(v))
		}
		// The sum alternates from score 1.
		first := slices.Index(v[0].Hinges, 0)
		from := append(slices.Clone(v[0].Sectors[first:]), v[0].Sectors[:first]...)
		r.NearColumn("expected_residual_deg", Kawasaki(from)*180/math.Pi)
	})
}

// TestVertexFolds folds random vertices and compares with the theorems: all scores fold flat exactly if the angles
// alternate to zero (Kawasaki, Justin), and then mountains and valleys differ by two (Maekawa); as cited by Hull 1994,
// Congressus Numerantium 100:215-224.
func TestVertexFolds(t *testing.T) {
	flat, cannot := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "pairs")
		var odd, even []int
		for range n {
			odd = append(odd, rapid.IntRange(5, 40).Draw(t, "odd"))
			even = append(even, rapid.IntRange(5, 40).Draw(t, "even"))
		}
		// The last sectors fill up to 180 degrees each, so the vertex folds flat, unless it is spoilt.
		odd[n-1], even[n-1] = 180-sum(odd[:n-1]), 180-sum(even[:n-1])
		if rapid.Bool().Draw(t, "spoilt") {
			odd[n-1]++
			even[n-1]--
		}
		var sectors []float64
		for i := range n {
			sectors = append(sectors, float64(odd[i]), float64(even[i]))
		}
		all := make([]string, len(sectors))
		for i := range all {
			all[i] = itoa(i + 1)
		}
		c := Close(t.Context(), assemble(quiet{}, read(quiet{}, star(sectors, "  closed folds "+strings.Join(all, ", ")+"\n"))))
		want := sum(odd) == 180
		if c.LiesFlat() != want {
			t.Fatalf("sectors %v: lies flat %v (%v), want %v", sectors, c.LiesFlat(), c.Status, want)
		}
		if !want {
			cannot++
			return
		}
		flat++
		m, v := 0, 0
		for h := range c.Folded {
			switch c.Sense(h) {
			case card.Mountain:
				m++
			case card.Valley:
				v++
			}
		}
		if !Maekawa(m, v) {
			t.Fatalf("sectors %v: %d mountains and %d valleys", sectors, m, v)
		}
	})
	if flat == 0 || cannot == 0 {
		t.Errorf("%d vertices lay flat and %d did not; the test needs both", flat, cannot)
	}
}

func sum(list []int) int {
	s := 0
	for _, v := range list {
		s += v
	}
	return s
}

// TestFoldsFlat asks single vertices which choices of folds they allow.
func TestFoldsFlat(t *testing.T) {
	for _, c := range []struct {
		name      string
		sectors   []float64
		senses    string
		some, all bool
	}{
		{"square corner, three to one", []float64{90, 90, 90, 90}, "mmmv", true, true},
		{"square corner, all mountain: only straight through", []float64{90, 90, 90, 90}, "mmmm", true, false},
		{"flat-foldable", []float64{60, 80, 120, 100}, "mmmv", true, true},
		{"not flat-foldable", []float64{50, 100, 120, 90}, "mmmv", false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			fold := "  fold " + strings.Join(strings.Split(c.senses, ""), " ") + "\n"
			p := assemble(t, read(t, star(c.sectors, fold))).Copies[0].Pattern
			v := Vertices(p)[0]
			var senses []card.Sense
			for _, h := range v.Hinges {
				senses = append(senses, p.Hinges[h].Sense)
			}
			some, all := v.FoldsFlat(senses, nil)
			if some != c.some || all != c.all {
				t.Errorf("got some %v, all %v; want %v, %v", some, all, c.some, c.all)
			}
		})
	}
}
