package fit

import (
	"strings"
	"testing"
)

func TestEnough(t *testing.T) {
	savings := []Saving{{"one spring", 2 * mm, 7}, {"the mat of white on front.face", mm, 3}}
	thinner := Change{Dim: Thickness, Less: true, Length: 1500000}
	lighter := Change{Dim: Mass, Less: true, Grams: 3}
	for _, c := range []struct {
		name    string
		changes []Change
		want    string
	}{
		{"nothing to change", nil, ""},
		{"only the spring is thick enough", []Change{thinner}, "without one spring"},
		{"both are heavy enough", []Change{lighter}, "without one spring | without the mat of white on front.face"},
		{"both at once", []Change{lighter, thinner}, "without one spring"},
		{"nothing is thick enough", []Change{{Dim: Thickness, Less: true, Length: 2*mm + 1}}, ""},
		{"nothing is heavy enough", []Change{{Dim: Mass, Less: true, Grams: 7.1}}, ""},
		{"thicker is no saving", []Change{{Dim: Thickness, Length: mm}}, ""},
		{"nor is another envelope", []Change{lighter, {Dim: Long, Less: true, Length: mm}}, ""},
	} {
		if got := strings.Join(Enough(c.changes, savings), " | "); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
