package problem

import (
	"strings"
	"testing"
)

func TestClip(t *testing.T) {
	for _, test := range []struct {
		in   string
		most int
		want string
	}{
		{"", 3, ""}, {"gull", 4, "gull"}, {"gulls", 4, "gull…"}, {"½½½½", 4, "½½½½"}, {"½½½½½", 4, "½½½½…"}, {"\xff\xff\xff", 2, "\xff\xff…"},
		{strings.Repeat("9", 1_000_000), 5, "99999…"},
	} {
		if got := Clip(test.in, test.most); got != test.want {
			t.Errorf("%.20q to %d: got %q, want %q", test.in, test.most, got, test.want)
		}
	}
	if got, want := Quote(`a "b"`+strings.Repeat("c", 50)), `"a \"b\"`+strings.Repeat("c", 35)+`…"`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestCount(t *testing.T) {
	for want, got := range map[string]string{"0 scores": Count(0, "score"), "1 score": Count(1, "score"), "2 scores": Count(2, "score"), "3 copies": Count(3, "copy"), "1 copy": Count(1, "copy")} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
