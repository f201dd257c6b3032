package recipe

import (
	"os"
	"testing"
)

func stand(b *testing.B) []byte {
	text, err := os.ReadFile("testdata/canonical/harbour-light.card")
	if err != nil {
		b.Fatal(err)
	}
	return text
}

// The page reads the recipe at every key stroke: below 200 µs for the stand it cannot be felt.
func BenchmarkParse(b *testing.B) {
	text := stand(b)
	b.ReportAllocs()
	for b.Loop() {
		if r, _ := Parse("harbour-light.card", text); r == nil {
			b.Fatal("the recipe has problems")
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	r, _ := Parse("harbour-light.card", stand(b))
	b.ReportAllocs()
	for b.Loop() {
		if len(r.Format()) == 0 {
			b.Fatal("nothing was written")
		}
	}
}
