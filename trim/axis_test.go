package trim

import (
	"slices"
	"testing"
)

func TestNewAxis(t *testing.T) {
	// The sums up to 10 of 4 and 5 are 0 4 5 8 9 10; what is left beside 4 is p(6) = 5, and beside that p(5) = 5: 4 is not
	// needed.
	a, ok := newAxis(10, []int64{4, 5}, 100)
	if !ok || !slices.Equal(a.pts, []int64{0, 5, 10}) {
		t.Fatalf("got %v", a.pts)
	}
	if a.up(4) != 1 || a.up(5) != 1 || a.up(6) != 2 || a.down(4) != 0 || a.down(9) != 1 || a.down(10) != 2 {
		t.Error("up and down")
	}
	if !slices.Equal(a.pairs[2], []split{{1, 1}}) || len(a.pairs[1]) != 0 {
		t.Errorf("pairs: got %v", a.pairs)
	}
	if _, ok := newAxis(1000, []int64{1}, 100); ok {
		t.Error("1001 points went into 100")
	}
	if a, ok := newAxis(7, nil, 100); !ok || len(a.pts) != 1 {
		t.Errorf("no parts: got %v", a.pts)
	}
}
