package fold

import (
	"context"
	"math"
	"testing"
)

// TestStanding: the last pose of a path, stood up by itself, has the size that the path says.
func TestStanding(t *testing.T) {
	m := form(t, "harbour-light")
	o := m.Path(context.Background(), 20)
	last := o.Poses[len(o.Poses)-1]
	got := m.Standing(last.Angles)
	if math.Hypot(got.Depth-o.Depth, got.Width-o.Width) > 1e-9 || got.Panels != o.Panels || m.Parting(last.Angles) != o.Panels {
		t.Errorf("got %g x %g, panels %v; want %g x %g, %v", got.Width, got.Depth, got.Panels, o.Width, o.Depth, o.Panels)
	}
	if d := m.Apart(last.Angles, o.Panels); math.Abs(d-last.Drive) > 1e-9 || math.Abs(d-got.Poses[0].Drive) > 1e-9 {
		t.Errorf("the panels are %g mm apart, the path says %g", d, last.Drive)
	}
	for i, a := range m.Ajar(0.1) {
		if a < m.Low[i] || a > m.High[i] || math.Abs(math.Abs(a-m.Shut[i])-0.1) > 1e-12 && a != 0 {
			t.Errorf("hinge %d: %g from %g", i, a, m.Shut[i])
		}
	}
}
