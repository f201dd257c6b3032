package fold

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"
)

const tube = `card "Tube"
stock plain "plain card" 250 gsm, 0.3 mm
piece wall of plain
  size 252 x 72
  score across at 42, 78, 120, 162, 198, 240
  panels left, front, right, back-right, back, back-left, tab
  fold all mountain
glue wall.tab inside wall.left, left
opens by itself
`

// TestPath checks of every card of the catalogue that
//
//	(1) the path starts at the closed card and every loop of every pose meets itself within a millionth of a millimetre;
//	(2) every angle keeps to the sense of its score;
//	(3) the path does not jump: no angle moves by more than 30 degrees from one of 60 poses to the next;
//	(4) panels keep their shape: the corners of a pose are as far apart as on the flat piece;
//	(5) no two panels pass through each other.
func TestPath(t *testing.T) {
	for _, name := range []string{"harbour-light", "harbour-light-inches", "gull-box", "rising-gull", "harbour-steps"} {
		t.Run(name, func(t *testing.T) {
			m := form(t, name)
			o := m.Path(context.Background(), 60)
			if o.Outcome != Opens || len(o.Poses) != 60 {
				t.Fatalf("outcome %v, %d poses", o.Outcome, len(o.Poses))
			}
			for k, p := range o.Poses {
				if p.LoopError > 1e-6 {
					t.Errorf("pose %d: loop error %g mm", k, p.LoopError)
				}
				for h, a := range p.Angles {
					if a < m.Low[h]-1e-12 || a > m.High[h]+1e-12 {
						t.Errorf("pose %d, hinge %d: %g degrees against its sense", k, h, a/degree)
					}
					if k > 0 && math.Abs(a-o.Poses[k-1].Angles[h]) > 30*degree {
						t.Errorf("pose %d, hinge %d: jumps by %g degrees", k, h, (a-o.Poses[k-1].Angles[h])/degree)
					}
				}
				wantRigid(t, m, p)
			}
			for h, a := range o.Poses[0].Angles {
				if a != m.Shut[h] {
					t.Errorf("the path does not start shut: hinge %d at %g degrees", h, a/degree)
				}
			}
			if x := m.Crossings(context.Background(), o); len(x) > 0 {
				t.Errorf("%s and %s pass through each other in pose %d", m.Assembly.Panels[x[0].A].Ref, m.Assembly.Panels[x[0].B].Ref, x[0].Pose)
			}
		})
	}
}

func wantRigid(t *testing.T, m *Model, p Pose) {
	t.Helper()
	for i, q := range m.Assembly.Panels {
		for k, c := range q.Outline {
			d := q.Outline[(k+1)%len(q.Outline)]
			flat := vec(c).Sub(vec(d)).Norm()
			if got := p.Panels[i].At(vec(c)).Sub(p.Panels[i].At(vec(d))).Norm(); math.Abs(got-flat) > 1e-9 {
				t.Fatalf("%s: an edge of %g mm is %g mm long in the pose", q.Ref, flat, got)
			}
		}
	}
}

// TestHexagon: a bare six-panel wall is a ring of six bars, so it moves in 6 - 3 = 3 ways (Grübler's count, from memory),
// among them into a rectangle: without springs nothing holds it six-sided.
func TestHexagon(t *testing.T) {
	m := parse(t, tube)
	o := m.Path(context.Background(), 30)
	if o.Freedom != 3 {
		t.Errorf("freedom: got %d, want 3", o.Freedom)
	}
	// The rectangle: the two middle panels 84 mm apart, scores 1, 2, 4, 5 square, 3 and 6 straight.
	x := []float64{90 * degree, 90 * degree, 0, 90 * degree, 90 * degree, 0}
	if e := m.LoopError(x); e > 1e-9 {
		t.Errorf("the rectangle does not close: %g mm", e)
	}
	s := newSolver(m)
	s.hold(driver{p: 1, q: 4, apart: 84})
	y := append([]float64{}, o.Poses[29].Angles...)
	if rest := s.settle(y, x, coldPulls[:]); rest > found {
		t.Errorf("it cannot be pushed into the rectangle: %g", rest)
	}
}

// TestTubeWidth compares the width of the open tube at a given depth with the closed form of a ring s a s s a s:
// depth d = 2 s sin ψ, width a + 2 s cos ψ.
func TestTubeWidth(t *testing.T) {
	m := parse(t, tube)
	for _, psi := range []float64{20, 45, 60, 80} {
		s := newSolver(m)
		d := 84 * math.Sin(psi*degree)
		s.hold(driver{p: 1, q: 4, apart: d})
		turn := psi * degree
		x := []float64{turn, turn, math.Pi - 2*turn, turn, turn, math.Pi - 2*turn}
		if rest := s.settle(x, append([]float64{}, x...), warmPulls[:]); rest > found {
			t.Fatalf("%g degrees: %g", psi, rest)
		}
		s.measure(x)
		left := s.frames[0].At(Vec{0, 0, 0})
		right := s.frames[2].At(Vec{120, 0, 0})
		if got, want := left.Sub(right).Norm(), 36+84*math.Cos(psi*degree); math.Abs(got-want) > 1e-6 {
			t.Errorf("%g degrees: width %g mm, want %g", psi, got, want)
		}
	}
}

// TestLocks: a tie that is too short for the pages stops them on the way.
func TestLocks(t *testing.T) {
	m := parse(t, `card "Locked"
stock plain "plain card" 250 gsm, 0.3 mm
piece page of plain
  size 200 x 100
  score across at 100
  panels first, second
  fold all mountain
piece tie of plain
  size 114 x 30
  score across at 12, 57, 102
  panels tab1, riser, tread, tab2
  fold m v m
glue tie.tab1 inside page.first, right, over -50
glue tie.tab2 inside page.second, left, over 50
opens at page.1 to 180
`)
	o := m.Path(context.Background(), 61)
	if o.Outcome != Locks {
		t.Fatalf("outcome %v, want locks: 90 mm of tie span at most 90 of the 100 mm between the glue lines", o.Outcome)
	}
	// The tie is straight when 2 * 50 sin(b/2) = 90.
	want := 2 * math.Asin(0.9) / degree
	if got := o.Poses[len(o.Poses)-1].Drive / degree; got > want+1e-6 || got < want-3.1 {
		t.Errorf("opens to %.2f degrees, want at most %.2f and within one step of it", got, want)
	}
}

// TestCrossing: a spring whose leaves stay straight because of a wrong score reaches through the wall as it opens; the
// spring as it should be does not (see TestPath).
func TestCrossing(t *testing.T) {
	text, err := os.ReadFile("../forms/harbour-light.card")
	if err != nil {
		t.Fatal(err)
	}
	m := parse(t, strings.Replace(string(text), "36, 54,", "36, 57,", 1))
	o := m.Path(context.Background(), 60)
	x := m.Crossings(context.Background(), o)
	if len(x) == 0 {
		t.Fatal("no crossing found")
	}
	for _, c := range x {
		if c.Pose == 0 {
			t.Errorf("%v: the closed card has no crossings", c)
		}
		a, b := m.Assembly.Panels[c.A].Ref, m.Assembly.Panels[c.B].Ref
		if strings.HasPrefix(a, "spring") == strings.HasPrefix(b, "spring") {
			t.Errorf("%s and %s: want a panel of a spring and one of the wall", a, b)
		}
	}
}

// TestStopped: a context that has ended stops the path.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if o := form(t, "rising-gull").Path(ctx, 60); o.Outcome != Stopped {
		t.Errorf("outcome %v, want stopped", o.Outcome)
	}
}

// TestJacobian compares the Jacobian with differences of the residuals.
func TestJacobian(t *testing.T) {
	for _, name := range []string{"harbour-light", "rising-gull", "gull-box", "harbour-steps"} {
		m := form(t, name)
		s := newSolver(m)
		if len(m.loops) > 0 {
			s.hold(driver{p: m.loops[0].p, q: m.loops[0].q, apart: 10})
		}
		p := m.Path(context.Background(), 10).Poses[6]
		s.measure(p.Angles)
		s.jacobian()
		j := append([]float64{}, s.j...)
		const step = 1e-6
		for h := range p.Angles {
			x := append([]float64{}, p.Angles...)
			x[h] += step
			s.measure(x)
			above := append([]float64{}, s.r...)
			x[h] -= 2 * step
			s.measure(x)
			for r := range above {
				if got, want := j[r*s.n+h], (above[r]-s.r[r])/(2*step); math.Abs(got-want) > 1e-6 {
					t.Errorf("%s: row %d, hinge %d: got %g, want %g", name, r, h, got, want)
				}
			}
		}
	}
}

// BenchmarkPath60 follows the stand in 60 poses. Wanted: 60 ms at most.
func BenchmarkPath60(b *testing.B) {
	m := form(b, "harbour-light")
	b.ReportAllocs()
	for b.Loop() {
		m.Path(context.Background(), 60)
	}
}

// BenchmarkWarmPose solves one pose of the stand from its neighbour. Wanted: 1 ms at most.
func BenchmarkWarmPose(b *testing.B) {
	m := form(b, "harbour-light")
	o := m.Path(context.Background(), 60)
	s := newSolver(m)
	s.hold(driver{p: o.Panels[0], q: o.Panels[1], apart: o.Poses[40].Drive})
	for b.Loop() {
		x := append([]float64{}, o.Poses[39].Angles...)
		if s.settle(x, o.Poses[40].Angles, warmPulls[:]) > found {
			b.Fatal("not found")
		}
	}
}

// BenchmarkCrossings looks for crossings in 60 poses of the stand.
func BenchmarkCrossings(b *testing.B) {
	m := form(b, "harbour-light")
	o := m.Path(context.Background(), 60)
	for b.Loop() {
		m.Crossings(context.Background(), o)
	}
}
