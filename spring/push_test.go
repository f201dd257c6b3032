package spring

import (
	"context"
	"math"
	"testing"
)

// TestOpening_bellows: pleats with rigid panels push with the force of their closed form, all the way, and so do the plates
// between which they are pressed. Source: mechanics of pleats with one tilt ψ, sin ψ = d/2p, derived by hand:
// F = 2 h κ (2(f - 2ψ) + 2(f - ψ))/(2 p cos ψ) for one pair of pleats with all rest angles f between the panels.
func TestOpening_bellows(t *testing.T) {
	const p, h, k, f = 15.0, 60.0, 0.2, 60 * degree
	b := theBellows("B1", 1)
	s := springy(t, head+b.piece()+b.glue()+"opens by itself\n")
	s.bends(math.Inf(1), math.Inf(1))
	o := s.Opening(context.Background(), rest(t, s), 60)
	if !o.Complete || !o.ByItself || len(o.Steps) != 60 || len(o.Snaps) > 0 {
		t.Fatalf("complete %v, by itself %v, %d steps, snaps %v", o.Complete, o.ByItself, len(o.Steps), o.Snaps)
	}
	force := func(d float64) float64 {
		psi := math.Asin(d / (2 * p))
		return h * k * (4*(f-2*psi) + 4*(f-psi)) / (2 * p * math.Cos(psi))
	}
	for i, st := range o.Steps {
		want := force(st.Depth)
		if math.Abs(st.Depth-st.Apart) > 1e-6 {
			t.Errorf("step %d: %g mm deep, %g mm apart", i, st.Depth, st.Apart)
		}
		if i > 0 && math.Abs(st.Force-want) > 1e-6 {
			t.Errorf("step %d: pushes with %g N, want %g", i, st.Force, want)
		}
	}
	if math.Abs(o.HoldShut-force(0)) > 1e-4*force(0) {
		t.Errorf("shut it takes %g N, want %g", o.HoldShut, force(0))
	}
}

// TestOpening checks of cards that open by themselves that the energy falls all the way, that the force is its slope, and
// that the last step is the rest pose.
func TestOpening(t *testing.T) {
	for _, name := range []string{"square-lantern", "eight-lantern", "gull-box"} {
		s := form(t, name)
		r := rest(t, s)
		o := s.Opening(context.Background(), r, 40)
		t.Logf("%s: %d steps, complete %v, by itself %v, shut %.2f N, snaps %v, crosses %v", name, len(o.Steps), o.Complete, o.ByItself, o.HoldShut, o.Snaps, o.Crosses)
		if !o.Complete || !o.ByItself {
			t.Errorf("%s: complete %v, by itself %v", name, o.Complete, o.ByItself)
			continue
		}
		for i := 2; i < len(o.Steps)-1; i++ {
			st, before, after := o.Steps[i], o.Steps[i-1], o.Steps[i+1]
			want := -(after.Energy - before.Energy) / (after.Apart - before.Apart)
			if math.Abs(st.Force-want) > 0.1*o.Steps[1].Force && len(o.Snaps) == 0 {
				t.Errorf("%s, step %d: %g N, the energy falls by %g mJ/mm", name, i, st.Force, want)
			}
		}
		if last := o.Steps[len(o.Steps)-1]; !same(last.Angles, r.Angles) || math.Abs(last.Force) > 1e-6 {
			t.Errorf("%s: the last step is not the rest pose", name)
		}
	}
}

// TestOpening_row: the stand with two springs behind each other opens by itself all the way between plates, its force falls
// all the way and is the slope of its energy, nothing passes through anything, and near open a nudge would let it lean
// to one side, which the steps say.
func TestOpening_row(t *testing.T) {
	for _, name := range []string{"harbour-light", "harbour-light-inches"} {
		s := form(t, name)
		r := rest(t, s)
		o := s.Opening(context.Background(), r, 60)
		if !o.Complete || !o.ByItself || !o.Plates || len(o.Snaps) > 0 || len(o.Crosses) > 0 || !(o.HoldShut > 0) {
			t.Fatalf("%s: complete %v, by itself %v, plates %v, snaps %v, crosses %v, shut %g N", name, o.Complete, o.ByItself, o.Plates, o.Snaps, o.Crosses, o.HoldShut)
		}
		for i, st := range o.Steps[1:] {
			if before := o.Steps[i]; !(st.Force < before.Force && st.Energy < before.Energy && st.Depth > before.Depth) {
				t.Errorf("%s, step %d: %g N, %g mJ, %g mm after %g N, %g mJ, %g mm", name, i+1, st.Force, st.Energy, st.Depth, before.Force, before.Energy, before.Depth)
			}
		}
		for i := 1; i < len(o.Steps)-1; i++ {
			want := -(o.Steps[i+1].Energy - o.Steps[i-1].Energy) / (o.Steps[i+1].Apart - o.Steps[i-1].Apart)
			if math.Abs(o.Steps[i].Force-want) > 0.01*o.HoldShut {
				t.Errorf("%s, step %d: %g N, the energy falls by %g mJ/mm", name, i, o.Steps[i].Force, want)
			}
		}
		if last := len(o.Steps) - 1; !o.Steps[last-1].Ridge {
			t.Errorf("%s: on no ridge near open", name)
		}
	}
}

func TestOpening_stops(t *testing.T) {
	s := form(t, "square-lantern")
	r := rest(t, s)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if o := s.Opening(ctx, r, 40); o.Complete || o.ByItself {
		t.Error("a path that was stopped is complete")
	}
	if _, ok := s.Others(ctx, r, 4, 1); ok {
		t.Error("a search that was stopped is complete")
	}
}

// TestOthers checks of what the search finds that every pose balances, no two are the same, energies ascend, and that the
// same seed finds the same.
func TestOthers(t *testing.T) {
	s := form(t, "harbour-light")
	r := rest(t, s)
	list, ok := s.Others(context.Background(), r, 32, 1)
	if !ok {
		t.Fatal("stopped")
	}
	t.Logf("rest %.3f mJ, %.2f deep", r.Energy, r.Standing.Depth)
	for i, o := range list {
		t.Logf("other %.3f mJ, %.2f deep", o.Energy, o.Standing.Depth)
		if !o.Found || !o.Stable || o.LoopError > loopError || same(o.Angles, r.Angles) {
			t.Errorf("pose %d does not count", i)
		}
		for _, q := range list[:i] {
			if same(q.Angles, o.Angles) || q.Energy > o.Energy {
				t.Errorf("pose %d is there twice or out of order", i)
			}
		}
	}
	again, _ := s.Others(context.Background(), r, 32, 1)
	if len(again) != len(list) {
		t.Fatalf("the same seed finds %d poses, then %d", len(list), len(again))
	}
	for i := range list {
		if list[i].Energy != again[i].Energy {
			t.Errorf("the same seed finds %g mJ, then %g", list[i].Energy, again[i].Energy)
		}
	}
}

func BenchmarkOpening(b *testing.B) {
	s := form(b, "harbour-light")
	r := s.Rest(context.Background())
	for b.Loop() {
		s.Opening(context.Background(), r, 60)
	}
}

func BenchmarkOthers(b *testing.B) {
	s := form(b, "harbour-light")
	r := s.Rest(context.Background())
	for b.Loop() {
		s.Others(context.Background(), r, 32, 1)
	}
}
