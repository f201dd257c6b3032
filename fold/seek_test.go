package fold

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// TestSeeker_agrees: near a balance the seeker finds what the cold search finds, downhill and straight, with a distance
// held and without.
func TestSeeker_agrees(t *testing.T) {
	ctx := context.Background()
	for _, name := range []string{"square-lantern", "eight-lantern", "gull-box"} {
		m := form(t, name)
		e := plain(m)
		open := m.openPose(ctx, newSolver(m))
		panels := m.Parting(open)
		for _, hold := range []Hold{{}, {Panels: panels, Apart: 0.8 * m.Apart(open, panels)}} {
			want := m.Minimise(ctx, e, m.openPose(ctx, newSolver(m)), hold)
			if !want.Found {
				t.Fatalf("%s: no balance", name)
			}
			x := append([]float64{}, want.Angles...)
			random := rand.New(rand.NewPCG(3, 9))
			for i := range x {
				x[i] += 0.01 * random.NormFloat64()
			}
			for how, seek := range map[string]func(*Seeker) Balance{
				"downhill": func(s *Seeker) Balance { return s.Least(ctx, x, hold) },
				"straight": func(s *Seeker) Balance { return s.Straight(ctx, x, hold) },
			} {
				got := seek(m.Seek(e))
				if !got.Found || got.LoopError > 1e-6 || math.Abs(got.Energy-want.Energy) > 1e-6*(1+want.Energy) {
					t.Errorf("%s, %s: found %v, loops %g mm, %g mJ, want %g", name, how, got.Found, got.LoopError, got.Energy, want.Energy)
				}
				if math.Abs(got.Force-want.Force) > 1e-5*(1+math.Abs(want.Force)) {
					t.Errorf("%s, %s: pushes with %g N, want %g", name, how, got.Force, want.Force)
				}
			}
		}
	}
}

// TestSeeker_plates: pressed between plates the card lies between them, and what they feel is the slope of the energy.
func TestSeeker_plates(t *testing.T) {
	ctx := context.Background()
	m := form(t, "gull-box")
	e := plain(m)
	s := m.Seek(e)
	rest := s.Least(ctx, m.openPose(ctx, newSolver(m)), Hold{})
	before, behind := m.Reach(rest.Angles)
	share := before / (before + behind)
	at := func(d float64) Balance {
		b := s.Least(ctx, rest.Angles, Hold{Plates: d, Before: share})
		if !b.Found {
			t.Fatalf("nothing balances at %g mm", d)
		}
		if p, q := m.Reach(b.Angles); p > d*share+0.02 || q > d*(1-share)+0.02 {
			t.Errorf("between plates %g mm apart the card is %g deep", d, p+q)
		}
		return b
	}
	d := 0.9 * (before + behind)
	const h = 0.05
	up, down := at(d+h), at(d-h)
	if got, want := at(d).Force, -(up.Energy-down.Energy)/(2*h); !(got > 0) || math.Abs(got-want) > 1e-3*want {
		t.Errorf("the plates feel %g N, the energy falls by %g mJ/mm", got, want)
	}
}

// TestSeeker_meets: a panel that is pushed at another one leans against it and does not go through it. Without the watch it
// would: the same balance sought by Minimise lies beyond.
func TestSeeker_meets(t *testing.T) {
	ctx := context.Background()
	m := parse(t, `card "Two flaps"
units mm
stock plain "plain card" 250 gsm, 0.3 mm
piece sheet of plain
  size 160 x 60
  score across at 50, 110
  panels left, middle, right
  fold m m
`)
	n := len(m.Shut)
	e := Energy{K: make([]float64, n*n), Rest: make([]float64, n)}
	for i := range n {
		e.K[i*n+i] = 10 * float64(i+1)
		e.Rest[i] = 2.6 * m.Sense(i)
	}
	from := make([]float64, n)
	for i := range from {
		from[i] = 1.2 * m.Sense(i)
	}
	through := m.Minimise(ctx, e, from, Hold{})
	if !through.Found || len(m.Crossings(ctx, m.Standing(through.Angles))) == 0 {
		t.Skipf("the flaps do not meet: %v", through.Angles)
	}
	s := m.Seek(e)
	b := s.Least(ctx, from, Hold{})
	if len(m.Crossings(ctx, m.Standing(b.Angles))) > 0 {
		t.Errorf("the flaps pass through each other at %v", b.Angles)
	}
	if b.Found && len(s.Touching()) == 0 {
		t.Errorf("the flaps do not touch at %v", b.Angles)
	}
}

func TestSeeker_stops(t *testing.T) {
	m := form(t, "square-lantern")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s := m.Seek(plain(m))
	if b := s.Least(ctx, m.Ajar(0.3), Hold{}); b.Found || b.Stable {
		t.Error("a search that was stopped found something")
	}
	if b := s.Straight(ctx, m.Ajar(0.3), Hold{}); b.Found || b.Stable {
		t.Error("a search that was stopped found something")
	}
}

// TestEliminate: what solves a x = b gives b back, also where a is not positive.
func TestEliminate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		a := rapid.SliceOfN(rapid.Float64Range(-3, 3), n*n, n*n).Draw(t, "a")
		for i := range n {
			a[i*n+(i+1)%n] += 30 // largest off the diagonal, so that rows must be changed about
		}
		x := rapid.SliceOfN(rapid.Float64Range(-5, 5), n, n).Draw(t, "x")
		b := make([]float64, n)
		for i := range n {
			b[i] = dot(a[i*n:(i+1)*n], x)
		}
		if !eliminate(append([]float64{}, a...), n, b) {
			t.Fatal("not solved")
		}
		for i, v := range b {
			if math.Abs(v-x[i]) > 1e-9 {
				t.Fatalf("entry %d: got %g, want %g", i, v, x[i])
			}
		}
	})
	if eliminate(make([]float64, 4), 2, make([]float64, 2)) {
		t.Error("a matrix of noughts was solved")
	}
}
