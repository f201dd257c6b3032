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

// BenchmarkMILP solves the same models with both. Prints milliseconds a card: of the search alone, of the whole of Resize
// (with its layouts, proof and reasons), and of the reference's solver alone, without the time that it takes to start and
// to read; then how many times as long as the search, and as the whole of Resize, the reference takes.
func BenchmarkMILP(b *testing.B) {
	needMILP(b)
	all := func(int) bool { return true }
	for _, name := range catalogue.Names() {
		text, err := catalogue.Text(name)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			r, closed := Shut(b, string(text))
			var models []string
			var requests []Request
			var problems []*conditions
			for _, to := range benchSizes {
				q := Millimetres(to[0], to[1], 1)
				q.Marks, q.Unit, q.MarksUnit = r.Card().Marks, r.Card().Unit, r.Card().Unit
				requests = append(requests, q)
				problems = append(problems, conditionsOf(b, closed, q))
				models = append(models, modelOf(problems[len(problems)-1], all).text(8))
			}
			// The reference is asked once: it is slow. Its first answer warms it up.
			reference := 0.0
			for _, a := range solveMILP(b, append([]string{models[0]}, models...))[1:] {
				reference += a.MS
			}
			search, own, rounds := 0.0, 0.0, 0
			for b.Loop() {
				start := b.Elapsed()
				for _, q := range requests {
					if _, err := Resize(context.Background(), r, closed, q); err != nil {
						b.Fatal(err)
					}
				}
				own += (b.Elapsed() - start).Seconds() * 1000
				start = b.Elapsed()
				for _, p := range problems {
					p.solve(context.Background(), all, nil)
				}
				search += (b.Elapsed() - start).Seconds() * 1000
				rounds++
			}
			n := float64(rounds * len(requests))
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(search/n, "ms/search")
			b.ReportMetric(own/n, "ms/resize")
			b.ReportMetric(reference/float64(len(requests)), "ms/milp")
			b.ReportMetric(reference*float64(rounds)/search, "times/search")
			b.ReportMetric(reference*float64(rounds)/own, "times/resize")
		})
	}
}
