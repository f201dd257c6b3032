package spring

import (
	"math"
	"math/rand/v2"
	"testing"

	"foldwright/plane"

	"pgregory.net/rapid"
)

// TestBody_flex: one plate between two ends has the compliance w/(6 B h)·(2, -1; -1, 2), whatever it is cut into; an end
// in the middle turns against neither of the others more than against itself (Maxwell: the matrix is symmetric).
func TestBody_flex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(1, 200).Draw(t, "w")
		stiff := rapid.Float64Range(10, 1e4).Draw(t, "stiff")
		at := rapid.Float64Range(-50, 50).Draw(t, "at")
		cut := at + w*rapid.Float64Range(0.1, 0.9).Draw(t, "cut")
		b := &body{ends: []end{{0, at, 1}, {1, at + w, 1}}}
		for _, plates := range [][]plate{
			{{at, at + w, stiff}},
			{{at - 10, cut, stiff}, {cut, at + w + 3, stiff}},
			{{at, at + w, stiff / 4}, {at - 1, at + w + 1, 3 * stiff / 4}}, // glued faces add their stiffnesses
		} {
			for i, v := range b.flex(plates) {
				want := w / (6 * stiff) * []float64{2, -1, -1, 2}[i]
				if math.Abs(v-want) > 1e-9*math.Abs(want) {
					t.Fatalf("entry %d: got %g, want %g", i, v, want)
				}
			}
		}
		b.ends = []end{{0, at, 1}, {1, cut, 1}, {2, at + w, 1}}
		f := b.flex([]plate{{at, at + w, stiff}})
		for i := range 3 {
			for j := range 3 {
				if f[3*i+j] != f[3*j+i] || math.Abs(f[3*i+j]) > math.Sqrt(f[4*i]*f[4*j])*(1+1e-12) {
					t.Fatalf("entries %d, %d of %v", i, j, f)
				}
			}
		}
	})
}

// TestModel_softer: panels that bend only make a card softer, and rigid ones leave its creases as they are.
func TestModel_softer(t *testing.T) {
	for _, name := range []string{"harbour-light", "gull-box", "leaning-sail", "eight-lantern"} {
		s := form(t, name)
		n := len(s.Stiffness)
		random := rand.New(rand.NewPCG(3, 4))
		for range 50 {
			x, hard := make([]float64, n), 0.0
			for i := range x {
				d := random.NormFloat64()
				x[i] = s.Energy.Rest[i] + d
				hard += s.Stiffness[i] * d * d / 2
			}
			if e := s.Energy.At(x); !(e > 0 && e < hard*(1+1e-12)) {
				t.Fatalf("%s: %g mJ with panels that bend, %g with rigid ones", name, e, hard)
			}
		}
		s.energy(func(int, float64, float64) float64 { return math.Inf(1) })
		for i, k := range s.Stiffness {
			if got := s.Energy.K[i*n+i]; math.Abs(got-k) > 1e-9*k {
				t.Fatalf("%s: rigid panels make %g of a crease of %g", name, got, k)
			}
		}
	}
}

// TestBodies: every panel is in one body, and its motion takes glued panels onto each other.
func TestBodies(t *testing.T) {
	a := form(t, "harbour-light").Fold.Assembly
	count := 0
	for _, b := range bodies(a) {
		count += len(b.panels)
		for _, j := range a.Joints {
			m, ok := b.motion[j.A]
			if !ok {
				continue
			}
			p := plane.Point{X: mm(7), Y: mm(11)}
			x, y := m.At(float64(p.X), float64(p.Y))
			q := j.Place.Point(p)
			u, v := b.motion[j.B].At(float64(q.X), float64(q.Y))
			if math.Hypot(x-u, y-v) > 10 {
				t.Errorf("%s: %g nm apart", a.Panels[j.A].Ref, math.Hypot(x-u, y-v))
			}
		}
	}
	if count != len(a.Panels) {
		t.Errorf("%d panels in bodies, %d in the card", count, len(a.Panels))
	}
}

// TestModel_said: what stock and piece say is what the creases have.
func TestModel_said(t *testing.T) {
	s := springy(t, `card "Said"
units mm
stock plain "plain card" 250 gsm, 0.3 mm, crease 0.25 N/rad, rest 100 deg, scored 30 deg
piece wall of plain
  size 210 x 80
  score across at 40, 100, 140, 200
  panels left, front, right, back, tab
  fold m m m m
  crease 0.5 N/rad at 2
  rest 45 deg at 4
glue wall.tab inside wall.left, left
opens by itself
`)
	for i, stiffness := range []float64{20, 40, 20, 20} {
		rest := 30.0 // degrees; folds that are shut in the closed card remember 100
		if s.Fold.Shut[i] != 0 {
			rest = 100
		}
		if i == 3 {
			rest = 45
		}
		if got := s.Stiffness[i]; math.Abs(got-stiffness) > 1e-9 {
			t.Errorf("score %d: %g N·mm, want %g", i+1, got, stiffness)
		}
		if got := s.Energy.Rest[i] / degree; math.Abs(got-rest) > 1e-9 {
			t.Errorf("score %d remembers %g degrees, want %g", i+1, got, rest)
		}
	}
}

func TestInvert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		a := make([]float64, n*n)
		for k := range 2 * n { // a sum of squares is positive
			row := rapid.SliceOfN(rapid.Float64Range(-3, 3), n, n).Draw(t, "row")
			row[k%n] += 4
			for i := range n {
				for j := range n {
					a[i*n+j] += row[i] * row[j]
				}
			}
		}
		for i := range n {
			a[i*n+i]++
		}
		inverse, ok := invert(append([]float64{}, a...), n)
		if !ok {
			t.Fatal("not inverted")
		}
		for i := range n {
			for j := range n {
				sum := 0.0
				for k := range n {
					sum += a[i*n+k] * inverse[k*n+j]
				}
				want := 0.0
				if i == j {
					want = 1
				}
				if math.Abs(sum-want) > 1e-8 {
					t.Fatalf("entry %d, %d of the product is %g", i, j, sum)
				}
			}
		}
	})
	if _, ok := invert([]float64{1, 2, 2, 1}, 2); ok {
		t.Error("a matrix that is not positive was inverted")
	}
}
