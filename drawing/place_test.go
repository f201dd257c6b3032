package drawing

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// faults returns what is wrong with a placing: labels that overlap in a row, or that lie on the pin of a deeper label.
func faults(items []pinned, slots []slot, gap float64) []string {
	var out []string
	for i, s := range slots {
		if s.to-s.from < items[i].room-1e-9 {
			out = append(out, "a label has less room than it needs")
		}
		for j, t := range slots {
			if i == j {
				continue
			}
			if s.row == t.row && s.from < t.to+gap-1e-9 && t.from < s.to+gap-1e-9 {
				out = append(out, "two labels of a row are too close")
			}
			if at := items[j].at; t.row > s.row && s.from < at && at < s.to {
				out = append(out, "a label lies on the pin of a deeper one")
			}
		}
	}
	return out
}

// TestPlace asserts, for any crowd of labels: (1) every label has a slot with the room it needs; (2) labels of a row stay
// apart; (3) no label lies on the pin of a deeper one; (4) a label lies at its own pin; (5) no more rows than labels.
func TestPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 30).Draw(t, "labels")
		var items []pinned
		for range n {
			items = append(items, pinned{rapid.Float64Range(0, 100).Draw(t, "at"), rapid.Float64Range(1, 25).Draw(t, "room")})
		}
		slices.SortFunc(items, func(a, b pinned) int {
			if a.at < b.at {
				return -1
			}
			return 1
		})
		lo, hi := -unbounded, unbounded
		if rapid.Bool().Draw(t, "within") {
			lo, hi = -1, 101
		}
		slots := place(items, 1.5, lo, hi)
		if len(slots) != n {
			t.Fatalf("%d labels got %d slots", n, len(slots))
		}
		for _, f := range faults(items, slots, 1.5) {
			t.Error(f)
		}
		for i, s := range slots {
			if items[i].at < s.from-flagGap-1e-9 || items[i].at > s.to+flagGap+1e-9 {
				t.Errorf("label %d at %g is put at %g to %g", i, items[i].at, s.from, s.to)
			}
		}
		if r := rows(slots); r > n {
			t.Errorf("%d labels fill %d rows", n, r)
		}
	})
}

// TestFaults sees that faults finds what TestPlace relies on it to find.
func TestFaults(t *testing.T) {
	items := []pinned{{10, 4}, {11, 4}}
	for name, slots := range map[string][]slot{
		"overlap": {{0, centred, 8, 12}, {0, centred, 9, 13}},
		"on pin":  {{1, centred, 8, 12}, {0, centred, 9, 13}},
		"no room": {{0, before, 7, 9}, {1, after, 12, 16}},
	} {
		if len(faults(items, slots, 1.5)) == 0 {
			t.Errorf("%s: nothing was found", name)
		}
	}
}

func TestPlace_Rows(t *testing.T) {
	even := func(n int, pitch, room float64) []pinned {
		var items []pinned
		for i := range n {
			items = append(items, pinned{float64(i) * pitch, room})
		}
		return items
	}
	for _, c := range []struct {
		name  string
		items []pinned
		want  int
	}{
		{"none", nil, 0},
		{"one", even(1, 0, 10), 1},
		{"far apart", even(12, 18, 13), 1},
		{"two rows in turn", even(8, 9, 12), 2},
		{"two at one place", []pinned{{5, 10}, {5, 10}}, 1},
		{"three at one place", []pinned{{5, 10}, {5, 10}, {5, 10}}, 2},
		{"seven close together", even(7, 3, 12), 4},
	} {
		got := place(c.items, 1.5, -unbounded, unbounded)
		if rows(got) != c.want {
			t.Errorf("%s: %d rows, want %d", c.name, rows(got), c.want)
		}
		for _, f := range faults(c.items, got, 1.5) {
			t.Errorf("%s: %s", c.name, f)
		}
	}
}

func TestPlace_Within(t *testing.T) {
	items := []pinned{{0, 2}, {42, 12}, {240, 12}, {252, 13}}
	for i, s := range place(items, 1.5, -1.5, 253.5) {
		if s.from < -1.5 || s.to > 253.5 {
			t.Errorf("label %d sticks out: %g to %g", i, s.from, s.to)
		}
	}
	// A label that is wider than the whole edge cannot stay within; it is put all the same.
	wide := place([]pinned{{1, 30}}, 1.5, 0, 2)
	if len(wide) != 1 || wide[0].row != 0 {
		t.Errorf("the wide label got %+v", wide)
	}
}

func TestPlace_LargeCrowd(t *testing.T) {
	var items []pinned
	for i := range 4 * manySplits {
		items = append(items, pinned{float64(i) * 2, 12})
	}
	slots := place(items, 1.5, -unbounded, unbounded)
	for _, f := range faults(items, slots, 1.5) {
		t.Error(f)
	}
}
