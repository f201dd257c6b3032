package fold

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// plain returns the energy of creases that are all alike, with the rest angles that the stock remembers.
func plain(m *Model) Energy {
	n := len(m.Shut)
	e := Energy{K: make([]float64, n*n), Rest: m.remembered()}
	for i := range n {
		e.K[i*n+i] = 10 + float64(i%3)
	}
	return e
}

// TestMinimiser_derivatives compares gradient and curvature of the merit with differences of it, off the loops and with
// forces on all of them, with and without a distance held. No card here has a hinge that carries a whole loop: it turns the
// loop's residual as well, which the Jacobian leaves out since it vanishes where the loop is closed.
func TestMinimiser_derivatives(t *testing.T) {
	for _, name := range []string{"gull-box", "leaning-sail", "square-lantern"} {
		m := form(t, name)
		s := newMinimiser(m, plain(m))
		random := rand.New(rand.NewPCG(7, 11))
		last := len(m.Assembly.Panels) - 1
		s.touches([]Contact{{Panel: last, On: 0, Corner: Vec{500, 3, 0}, Side: 1}, {Panel: 1, On: last, Corner: Vec{-400, 7, 0}, Side: -1}})
		s.touch[0].push, s.touch[0].plate = 30, true // so that it pushes, whatever the gap
		for _, d := range []driver{{}, {p: 0, q: len(m.Assembly.Panels) - 1, apart: 33}} {
			s.hold(d)
			x := m.Ajar(0.5)
			for i := range x {
				x[i] += 0.2 * random.NormFloat64()
			}
			for i := range s.pull {
				s.pull[i] = random.NormFloat64()
			}
			const stiff, h = 3, 1e-5
			s.merit(x, stiff)
			s.model(x, stiff)
			grad, k := append([]float64{}, s.grad...), append([]float64{}, s.k...)
			n, scale := s.n, 0.0
			for _, v := range grad {
				scale = max(scale, math.Abs(v))
			}
			for i := range n {
				was := x[i]
				x[i] = was + h
				up := s.merit(x, stiff)
				s.model(x, stiff)
				above := append([]float64{}, s.grad...)
				x[i] = was - h
				down := s.merit(x, stiff)
				s.model(x, stiff)
				if got := (up - down) / (2 * h); math.Abs(got-grad[i]) > 1e-6*scale {
					t.Errorf("%s, hinge %d: slope %g, by differences %g", name, i, grad[i], got)
				}
				for j := range i + 1 {
					if got := (above[j] - s.grad[j]) / (2 * h); math.Abs(got-k[i*n+j]) > 1e-5*scale {
						t.Errorf("%s, hinges %d and %d: curvature %g, by differences %g", name, i, j, k[i*n+j], got)
					}
				}
				x[i] = was
			}
		}
	}
}

// TestMinimise: a balance closes its loops, keeps its senses, and no pose near it on the loops has less energy.
func TestMinimise(t *testing.T) {
	for _, name := range []string{"harbour-light", "square-lantern", "eight-lantern"} {
		m := form(t, name)
		e := plain(m)
		b := m.Minimise(context.Background(), e, m.openPose(context.Background(), newSolver(m)), Hold{})
		if !b.Found || !b.Stable || b.LoopError > 1e-6 || b.Force != 0 {
			t.Fatalf("%s: %+v", name, b)
		}
		random := rand.New(rand.NewPCG(1, 2))
		s := newSolver(m)
		s.hold(driver{})
		for range 20 {
			x := append([]float64{}, b.Angles...)
			for i := range x {
				x[i] += 0.05 * random.NormFloat64()
			}
			if s.settle(x, append([]float64{}, x...), warmPulls[:]) > found {
				continue
			}
			if other := e.At(x); other < b.Energy-1e-9*math.Abs(b.Energy) {
				t.Errorf("%s: a pose near by has %g mJ, the balance %g", name, other, b.Energy)
			}
		}
	}
}

// TestMinimise_force: the force at a held distance is less the change of energy by distance.
func TestMinimise_force(t *testing.T) {
	m := form(t, "square-lantern")
	e, ctx := plain(m), context.Background()
	open := m.openPose(ctx, newSolver(m))
	panels := m.Parting(open)
	at := m.Apart(open, panels)
	held := func(d float64) Balance {
		b := m.Minimise(ctx, e, open, Hold{Panels: panels, Apart: d})
		if !b.Found {
			t.Fatalf("nothing balances at %g mm", d)
		}
		return b
	}
	const h = 1e-3
	want := -(held(at-5+h).Energy - held(at-5-h).Energy) / (2 * h)
	if got := held(at - 5).Force; math.Abs(got-want) > 1e-5*math.Abs(want) {
		t.Errorf("force %g N, by differences %g", got, want)
	}
}

func TestMinimise_stops(t *testing.T) {
	m := form(t, "square-lantern")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if b := m.Minimise(ctx, plain(m), m.Ajar(0.3), Hold{}); b.Found || b.Stable {
		t.Errorf("a search that was stopped found %+v", b)
	}
}

func BenchmarkMinimise(b *testing.B) {
	m := form(b, "harbour-light")
	e := plain(m)
	x := m.Ajar(0.9)
	for b.Loop() {
		m.Minimise(context.Background(), e, x, Hold{})
	}
}
