package spring

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/flat"
	"foldwright/fold"
	"foldwright/internal/check"
	"foldwright/pattern"
	"foldwright/recipe"
)

// springy returns the model of a recipe that must lie flat.
func springy(t testing.TB, text string) *Model {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(text))
	if r == nil {
		t.Fatalf("recipe: %v\n%s", problems, text)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatalf("assemble: %v\n%s", problems, text)
	}
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatalf("the card does not lie flat: %v\n%s", closed.Status, text)
	}
	return New(fold.New(closed), assume(t))
}

// bellows is a closed strip of two end panels with 2·pairs pleats on either side.
type bellows struct {
	end, pleat, height, crease, dihedral, bending float64
	pairs, copies                                 int
}

func (b bellows) piece() string {
	var panels, senses []string
	var scores []string
	x := 0.0
	add := func(name, sense string, w float64) {
		x += w
		panels, senses, scores = append(panels, name), append(senses, sense), append(scores, fmt.Sprintf("%g", x))
	}
	for _, end := range []string{"front", "back"} {
		add(end, "m", b.end)
		for k := range 2 * b.pairs {
			add("leaf", []string{"v", "m"}[k%2], b.pleat)
		}
	}
	s := fmt.Sprintf("piece bellows of plain, %d of\n  size %g x %g\n", b.copies, x+10, b.height)
	if b.copies < 2 {
		s = strings.Replace(s, ", 1 of", "", 1)
	}
	return s + "  score across at " + strings.Join(scores, ", ") + "\n  panels " + strings.Join(panels, ", ") + ", tab\n  fold " +
		strings.Join(senses, " ") + fmt.Sprintf("\n  rest %g deg\n  crease %g N/rad\n", 180-b.dihedral, b.crease)
}

func (b bellows) glue() string {
	s := ""
	for i := range b.copies {
		n := ""
		if b.copies > 1 {
			n = fmt.Sprintf("#%d", i+1)
		}
		s += fmt.Sprintf("glue bellows%s.tab inside bellows%s.front, left\n", n, n)
	}
	return s
}

// tube is a closed strip of six panels: side, middle, side, side, middle, side.
type tube struct{ side, middle, height, edge, score, dihedral, turn, bending float64 }

func (b tube) piece() string {
	s, a := b.side, b.middle
	return fmt.Sprintf("piece wall of plain\n  size %g x %g\n  score across at %g, %g, %g, %g, %g, %g\n", 4*s+2*a+10, b.height, s, s+a, 2*s+a, 3*s+a, 3*s+2*a, 4*s+2*a) +
		"  panels left, front, right, back-right, back, back-left, tab\n  fold all mountain\n" +
		fmt.Sprintf("  rest %g deg at 3, 6\n  rest %g deg at 1, 2, 4, 5\n  crease %g N/rad at 3, 6\n  crease %g N/rad at 1, 2, 4, 5\n", 180-b.dihedral, b.turn, b.edge, b.score)
}

const head = "card \"Mechanism\"\nunits mm\nstock plain \"plain card\" 250 gsm, 0.3 mm\n"

// bends makes the panels of the check values bend: pleats with one stiffness, the sides of the wall with another. The end
// panels and the middles are rigid there, and there are no tabs that would stiffen a side.
func (s *Model) bends(pleats, wall float64) {
	a := s.Fold.Assembly
	s.energy(func(panel int, _, _ float64) float64 {
		ref := a.Panels[panel].Ref
		switch {
		case strings.Contains(ref, "tab"):
			return 0
		case strings.Contains(ref, "leaf"):
			return pleats
		case strings.HasPrefix(ref, "wall") && !strings.HasSuffix(ref, "front") && !strings.HasSuffix(ref, "back"):
			return wall
		}
		return math.Inf(1)
	})
}

func panelsOf(t testing.TB, s *Model, refs ...string) (out [2]int) {
	t.Helper()
	for i, ref := range refs {
		out[i] = -1
		for k, p := range s.Fold.Assembly.Panels {
			if p.Ref == ref {
				out[i] = k
			}
		}
		if out[i] < 0 {
			t.Fatalf("there is no panel %s", ref)
		}
	}
	return out
}

func rest(t testing.TB, s *Model) Rest {
	t.Helper()
	r := s.Rest(context.Background())
	if !r.Found || r.LoopError > 1e-6 {
		t.Fatalf("no rest pose: found %v, loops within %g mm", r.Found, r.LoopError)
	}
	return r
}

func bellowsOf(r check.Row) bellows {
	return bellows{r.Float("end_mm"), r.Float("pleat_mm"), r.Float("height_mm"), r.Float("crease"), 180 - r.Float("rest_fold_deg"), r.Float("bending_mNm"), int(r.Int("pairs")), 1}
}

func tubeOf(r check.Row) tube {
	return tube{r.Float("side_mm"), r.Float("middle_mm"), r.Float("height_mm"), r.Float("edge_crease"), r.Float("score_crease"),
		r.Float("edge_dihedral_deg"), r.Float("score_turn_deg"), r.Float("bending_mNm")}
}

func held(t testing.TB, s *Model, panels [2]int, apart float64) fold.Balance {
	t.Helper()
	b := s.Held(context.Background(), rest(t, s).Angles, panels, apart)
	if !b.Found || b.LoopError > 1e-6 {
		t.Fatalf("nothing balances at %g mm", apart)
	}
	return b
}

func TestBellows(t *testing.T) {
	for _, c := range []struct {
		file   string
		rigid  bool
		energy bool
	}{{"bellows", false, false}, {"bellows_curve", false, true}, {"bellows_rigid", true, true}} {
		check.Each(t, "testdata/check/"+c.file+".csv", func(t *testing.T, r check.Row) {
			b := bellowsOf(r)
			s := springy(t, head+b.piece()+b.glue()+"opens by itself\n")
			if c.rigid {
				b.bending = math.Inf(1)
			}
			s.bends(b.bending, b.bending)
			got := held(t, s, panelsOf(t, s, "bellows.front", "bellows.back"), r.Float("apart_mm"))
			r.NearColumn("expected_force_N", got.Force)
			if c.energy {
				r.NearColumn("expected_energy_mJ", got.Energy)
			}
		})
	}
}

func TestTube(t *testing.T) {
	for _, c := range []struct {
		file   string
		rigid  bool
		energy bool
	}{{"tube", false, false}, {"tube_curve", false, false}, {"tube_rigid", true, true}} {
		check.Each(t, "testdata/check/"+c.file+".csv", func(t *testing.T, r check.Row) {
			b := tubeOf(r)
			s := springy(t, head+b.piece()+"glue wall.tab inside wall.left, left\nopens by itself\n")
			if c.rigid {
				b.bending = math.Inf(1)
			}
			s.bends(b.bending, b.bending)
			got := held(t, s, panelsOf(t, s, "wall.front", "wall.back"), r.Float("apart_mm"))
			r.NearColumn("expected_force_N", got.Force)
			if c.energy {
				r.NearColumn("expected_energy_mJ", got.Energy)
			}
		})
	}
}

func TestTube_rest(t *testing.T) {
	check.Each(t, "testdata/check/tube_rest.csv", func(t *testing.T, r check.Row) {
		b := tubeOf(r)
		s := springy(t, head+b.piece()+"glue wall.tab inside wall.left, left\nopens by itself\n")
		s.bends(math.Inf(1), math.Inf(1))
		// A bare wall can also sway, so its rest pose is a ridge there or not: only the depth is compared.
		got := s.Rest(context.Background())
		r.NearColumn("expected_depth_mm", s.Fold.Apart(got.Angles, panelsOf(t, s, "wall.front", "wall.back")))
	})
}

// The bellows and tubes of the balances, as in the tables of the parts alone.
func theBellows(name string, copies int) bellows {
	b := bellows{end: 40, pleat: 15, height: 60, crease: 0.2, dihedral: 60, bending: 10, pairs: 1, copies: copies}
	if name == "B2" {
		b.pairs = 2
	}
	return b
}

// together glues bellows one behind the other between the middle panels of a tube.
func together(w tube, b bellows) string {
	s := head + w.piece() + b.piece() + "glue wall.tab inside wall.left, left\n" + b.glue()
	if b.copies == 1 {
		return s + "glue bellows.front inside wall.front\nglue bellows.back inside wall.back\nopens by itself\n"
	}
	return s + "glue bellows#1.front inside wall.front\nglue bellows#2.front against bellows#1.back\nglue bellows#2.back inside wall.back\nopens by itself\n"
}

func TestBalance(t *testing.T) {
	check.Each(t, "testdata/check/balance.csv", func(t *testing.T, r check.Row) {
		if r.Text("tube") != "T1" {
			t.Fatal("this tube is not known here")
		}
		w := tube{30, 40, 80, 0.2, 0.05, 60, 0, 10}
		s := springy(t, together(w, theBellows(r.Text("bellows"), int(r.Int("number")))))
		panels := panelsOf(t, s, "wall.front", "wall.back")
		s.bends(10, 10)
		r.NearColumn("expected_depth_mm", s.Fold.Apart(rest(t, s).Angles, panels))
		s.bends(math.Inf(1), math.Inf(1))
		r.NearColumn("expected_rigid_mm", s.Fold.Apart(rest(t, s).Angles, panels))
	})
}
