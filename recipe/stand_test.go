package recipe

import (
	"os"
	"testing"
)

func TestStand(t *testing.T) {
	text, err := os.ReadFile("testdata/harbour-light.card")
	if err != nil {
		t.Fatal(err)
	}
	r, problems := Parse("harbour-light.card", text)
	for _, p := range problems {
		t.Error(p)
	}
	if got := string(r.Format()); got != string(text) {
		t.Errorf("got\n%s", got)
	}
}

func BenchmarkParse(b *testing.B) {
	text, err := os.ReadFile("testdata/harbour-light.card")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if r, _ := Parse("harbour-light.card", text); r == nil {
			b.Fatal("the recipe has problems")
		}
	}
}
