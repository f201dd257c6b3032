package main

import (
	"io"
	"strings"
	"testing"
)

// BenchmarkSizes brings the stand to twenty sizes, each proven. Wanted: 300 ms at most.
func BenchmarkSizes(b *testing.B) {
	const sizes = "C6,DL,A7,6x6in,150x150mm,A6,5x7in,105x148mm,120x170mm,130x180mm,140x190mm,145x145mm,100x150mm,4x6in,5x5in," +
		"110x155mm,115x160mm,125x175mm,135x185mm,128x178mm"
	for b.Loop() {
		e := env{b.Context(), strings.NewReader(""), io.Discard, io.Discard}
		if code := run(e, []string{"sizes", "../../forms/harbour-light.card", "--to", sizes}); code != exitDone {
			b.Fatalf("exit code %d", code)
		}
	}
}
