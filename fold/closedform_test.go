package fold

import (
	"context"
	"fmt"
	"math"
	"testing"

	"foldwright/card"
	"foldwright/internal/check"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/recipe"
)

// TestDegree4 solves single vertices with one angle held and compares the other three with the published relation.
func TestDegree4(t *testing.T) {
	check.Each(t, "testdata/check/degree4.csv", func(t *testing.T, r check.Row) {
		m := parse(t, oneSheet+spokes(r.Float("a1_deg"), r.Float("a2_deg"), r.Float("a3_deg"), r.Float("a4_deg"))+"opens by itself\n")
		want := []float64{r.Float("rho1_deg"), r.Float("expected_rho2_deg"), r.Float("expected_rho3_deg"), r.Float("expected_rho4_deg")}
		x := make([]float64, 4)
		for i, w := range want {
			x[i] = math.Round(w/30) * 30 * degree // only which of the two modes is meant
			if math.Abs(w) < 15 {
				x[i] = math.Copysign(10*degree, w)
			}
		}
		s := newSolver(m)
		s.hold(driver{hinges: []int{0}, angles: []float64{want[0] * degree}})
		if rest := s.settle(x, append([]float64{}, x...), warmPulls[:]); rest > found {
			t.Fatalf("the loop does not close: %g", rest)
		}
		for i, c := range []string{"expected_rho2_deg", "expected_rho3_deg", "expected_rho4_deg"} {
			r.NearColumn(c, x[i+1]/degree)
		}
	})
}

// vfold builds two pages of 100 mm with a V-fold whose vertex is on the spine 100 mm up. al are the angles of the glue
// lines from the spine, ga those of the panels; the tabs lie outside the V. Its joints are placed by hand, since glue lines
// align edges and not angles.
func vfold(t testing.TB, al, ga [2]float64) *Model {
	t.Helper()
	piece, vertex := vee(ga)
	text := `card "V"
stock plain "plain card" 250 gsm, 0.3 mm
piece page of plain
  size 300 x 300
  score across at 150
  panels first, second
  fold all mountain
piece vee of plain
` + piece + `
opens at page.1 to 180
`
	r, problems := recipe.Parse("v.card", []byte(text))
	if r == nil {
		t.Fatalf("%v\n%s", problems, text)
	}
	c := r.Card()
	c.Glues = []card.Glue{{Joint: card.Facing}, {Joint: card.Facing}}
	bare := *c
	bare.Glues = nil
	a := &pattern.Assembly{Card: c}
	whole, err := assembleLoose(&bare)
	if err != nil {
		t.Fatal(err)
	}
	a.Copies, a.Panels, a.Hinges = whole.Copies, whole.Panels, whole.Hinges
	for i, tab := range []string{"tab1", "tab2"} {
		p, _ := a.Find(card.PanelRef{Piece: "vee", Panel: tab})
		q, _ := a.Find(card.PanelRef{Piece: "page", Panel: []string{"second", "first"}[i]})
		// In the pattern the glue line leaves the vertex at 90 ± ga degrees, on the page, seen from outside, at 90 ∓ al.
		from, to := 90+ga[0], 90-al[0]
		if i == 1 {
			from, to = 90-ga[1], 90+al[1]
		}
		flip := plane.Motion{XX: -1, YY: 1}
		place := plane.Shift(-length.FromMM(vertex[0]), -length.FromMM(vertex[1])).Then(flip).Then(plane.Turn(to - (180 - from))).Then(plane.Shift(150*length.Millimetre, 100*length.Millimetre))
		a.Joints = append(a.Joints, pattern.Joint{Glue: &c.Glues[i], A: p, B: q, Place: place})
	}
	return model(t, a)
}

// assembleLoose is pattern.Assemble for a card whose pieces are joined by hand afterwards.
func assembleLoose(c *card.Card) (*pattern.Assembly, error) {
	var copies []pattern.Copy
	a := &pattern.Assembly{Card: c}
	for i := range c.Pieces {
		one := *c
		one.Pieces = c.Pieces[i : i+1]
		part, problems := pattern.Assemble(&one)
		if part == nil {
			return nil, fmt.Errorf("%v", problems)
		}
		cp := part.Copies[0]
		cp.Piece, cp.FirstPanel, cp.FirstHinge = i, len(a.Panels), len(a.Hinges)
		for _, p := range part.Panels {
			p.Copy = i
			a.Panels = append(a.Panels, p)
		}
		for _, h := range part.Hinges {
			h.Copy, h.A, h.B = i, h.A+cp.FirstPanel, h.B+cp.FirstPanel
			a.Hinges = append(a.Hinges, h)
		}
		copies = append(copies, cp)
	}
	a.Copies = copies
	return a, nil
}

// vee writes the V's piece and returns where its vertex is: the middle fold is upright above it, panels reach 60 mm along
// their glue lines, tabs are 6 mm deep.
func vee(ga [2]float64) (text string, vertex [2]float64) {
	l, r := 90+ga[0], 90-ga[1]
	at := func(angle, along, off float64) [2]float64 {
		s, c := math.Sincos(angle * degree)
		return [2]float64{along*c - off*s, along*s + off*c}
	}
	ring := [][2]float64{{0, 0}, at(r, 8, -6), at(r, 50, -6), at(r, 60, 0), {0, 60}, at(l, 60, 0), at(l, 50, 6), at(l, 8, 6)}
	for _, p := range ring {
		vertex = [2]float64{max(vertex[0], -p[0]), max(vertex[1], -p[1])}
	}
	vertex = [2]float64{math.Round(vertex[0]*1e6) / 1e6, math.Round(vertex[1]*1e6) / 1e6}
	point := func(p [2]float64) string { return fmt.Sprintf("(%.6f, %.6f)", vertex[0]+p[0], vertex[1]+p[1]) }
	text = "  outline"
	for _, p := range ring {
		text += " " + point(p)
	}
	for _, end := range [][2]float64{at(l, 60, 0), at(r, 60, 0), {0, 60}} {
		text += "\n  score " + point([2]float64{}) + " to " + point(end)
	}
	for _, n := range []struct {
		name string
		at   [2]float64
	}{{"tab1", at(l, 30, 2)}, {"tab2", at(r, 30, -2)}, {"wing1", at(l, 30, -2)}, {"wing2", at(r, 30, 2)}} {
		text += "\n  panel " + n.name + " at " + point(n.at)
	}
	return text + "\n  fold v v m\n", vertex
}

// crease returns the direction of the V's middle fold in the frame of the pages: x along the spine, z up between the
// pages, y to the side of the second page.
func creaseOf(m *Model, p Pose) Vec {
	hinge := len(m.Assembly.Hinges) - 1
	h := m.Assembly.Hinges[hinge]
	f := p.Panels[h.A]
	top, foot := vec(h.To), vec(h.From)
	if foot[1] > top[1] {
		top, foot = foot, top
	}
	d := f.Turn(top.Sub(foot)).Unit()
	spine := p.Panels[0].Turn(Vec{0, 1, 0})
	up := p.Panels[0].Z.Scale(-1).Add(p.Panels[1].Z.Scale(-1)).Unit()
	side := up.Cross(spine)
	return Vec{d.Dot(spine), d.Dot(side), d.Dot(up)}
}

// pathTo180 returns poses every 30 degrees.
func pathTo180(t testing.TB, m *Model) []Pose {
	t.Helper()
	o := m.Path(context.Background(), 61)
	if o.Outcome != Opens {
		t.Fatalf("outcome %v after %d poses", o.Outcome, len(o.Poses))
	}
	var out []Pose
	for k := 0; k <= 60; k += 10 {
		out = append(out, o.Poses[k])
	}
	return out
}

func TestVFold(t *testing.T) {
	poses := map[[2]float64][]Pose{}
	models := map[[2]float64]*Model{}
	check.Each(t, "testdata/check/vfold.csv", func(t *testing.T, r check.Row) {
		key := [2]float64{r.Float("alpha_deg"), r.Float("gamma_deg")}
		if poses[key] == nil {
			models[key] = vfold(t, [2]float64{key[0], key[0]}, [2]float64{key[1], key[1]})
			poses[key] = pathTo180(t, models[key])
		}
		p := poses[key][int(r.Float("opening_deg"))/30]
		d := creaseOf(models[key], p)
		r.NearColumn("expected_phi_deg", math.Acos(min(max(d[0], -1), 1))/degree)
		r.NearColumn("expected_centre_deg", 180-math.Abs(p.Angles[3])/degree)
		r.NearColumn("expected_glue_deg", math.Abs(p.Angles[1])/degree)
	})
}

func TestVFoldAsymmetric(t *testing.T) {
	check.Each(t, "testdata/check/vfold_asymmetric.csv", func(t *testing.T, r check.Row) {
		m := vfold(t, [2]float64{r.Float("alpha1_deg"), r.Float("alpha2_deg")}, [2]float64{r.Float("gamma1_deg"), r.Float("gamma2_deg")})
		p := pathTo180(t, m)[int(r.Float("opening_deg"))/30]
		d := creaseOf(m, p)
		for i, c := range []string{"expected_x", "expected_y", "expected_z"} {
			r.NearColumn(c, d[i])
		}
	})
}

// TestStep opens strips over a spine and compares the place of the ridge with the closed form.
func TestStep(t *testing.T) {
	check.Each(t, "testdata/check/step.csv", func(t *testing.T, r check.Row) {
		a, c, s1, s2 := r.Float("a_mm"), r.Float("c_mm"), r.Float("s1_mm"), r.Float("s2_mm")
		m := parse(t, fmt.Sprintf(`card "Step"
stock plain "plain card" 250 gsm, 0.3 mm
piece page of plain
  size 200 x 100
  score across at 100
  panels first, second
  fold all mountain
piece step of plain
  size %g x 30
  score across at 12, %g, %g
  panels tab1, riser, tread, tab2
  fold m v m
glue step.tab1 inside page.first, right, over %g
glue step.tab2 inside page.second, left, over %g
opens at page.1 to 180
`, 24+s1+s2, 12+s1, 12+s1+s2, -a, c))
		p := pathTo180(t, m)[int(r.Float("opening_deg"))/30]
		spine := p.Panels[0].At(Vec{100, 50, 0})
		h := m.Assembly.Hinges[2] // the ridge
		ridge := p.Panels[h.A].At(Vec{12 + s1, 15, 0}).Sub(spine)
		first := p.Panels[0].Turn(Vec{-1, 0, 0})
		inward := p.Panels[0].Z.Scale(-1)
		r.NearColumn("expected_x_mm", ridge.Dot(first))
		r.NearColumn("expected_y_mm", ridge.Dot(inward))
	})
}

// TestStandMobility checks the number of free motions against the count in the design of the engine: 29 angles, 5 loops
// of 6 equations of which 17 are independent.
func TestStandMobility(t *testing.T) {
	m := form(t, "harbour-light")
	if got := len(m.loops); got != 5 {
		t.Errorf("loops: got %d, want 5", got)
	}
	if got := len(m.Shut); got != 29 {
		t.Errorf("hinges: got %d, want 29", got)
	}
	if got := m.Path(context.Background(), 20).Freedom; got != 29-17 {
		t.Errorf("freedom: got %d, want 12", got)
	}
}
