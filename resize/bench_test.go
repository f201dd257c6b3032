package resize

import (
	"context"
	"testing"

	catalogue "foldwright/forms"
)

// benchSizes are what the benchmarks bring a card to, in mm.
var benchSizes = [][2]int{{105, 148}, {150, 150}, {90, 120}}

func resizeOften(b *testing.B, text string) {
	r, closed := Shut(b, text)
	i := 0
	for b.Loop() {
		to := benchSizes[i%len(benchSizes)]
		q := Millimetres(to[0], to[1], 1)
		q.Marks, q.Unit, q.MarksUnit = r.Card().Marks, r.Card().Unit, r.Card().Unit
		if _, err := Resize(context.Background(), r, closed, q); err != nil {
			b.Fatal(err)
		}
		i++
	}
}

// BenchmarkResizeStand resizes the six-sided stand, with its proof that it lies flat and the reasons.
func BenchmarkResizeStand(b *testing.B) {
	text, err := catalogue.Text("harbour-light")
	if err != nil {
		b.Fatal(err)
	}
	resizeOften(b, string(text))
}

// BenchmarkResizeForms resizes every form of the catalogue.
func BenchmarkResizeForms(b *testing.B) {
	for _, name := range catalogue.Names() {
		text, err := catalogue.Text(name)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) { resizeOften(b, string(text)) })
	}
}

// BenchmarkMILP solves the same models with both: the whole of Resize, and the reference's solver alone, without the time
// that it takes to start and to read. Prints milliseconds a card and how many times faster Resize is.
func BenchmarkMILP(b *testing.B) {
	needMILP(b)
	for _, name := range catalogue.Names() {
		text, err := catalogue.Text(name)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			r, closed := Shut(b, string(text))
			var models []string
			var requests []Request
			for _, to := range benchSizes {
				q := Millimetres(to[0], to[1], 1)
				q.Marks, q.Unit, q.MarksUnit = r.Card().Marks, r.Card().Unit, r.Card().Unit
				requests = append(requests, q)
				models = append(models, modelOf(conditionsOf(b, closed, q), func(int) bool { return true }).text(8))
			}
			own, reference, rounds := 0.0, 0.0, 0
			for b.Loop() {
				start := b.Elapsed()
				for _, q := range requests {
					if _, err := Resize(context.Background(), r, closed, q); err != nil {
						b.Fatal(err)
					}
				}
				own += (b.Elapsed() - start).Seconds() * 1000
				b.StopTimer()
				// The first answer warms the solver up.
				for _, a := range solveMILP(b, append([]string{models[0]}, models...))[1:] {
					reference += a.MS
				}
				rounds++
				b.StartTimer()
			}
			n := float64(rounds * len(requests))
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(own/n, "ms/resize")
			b.ReportMetric(reference/n, "ms/milp")
			b.ReportMetric(reference/own, "times")
		})
	}
}
