package fit

import "testing"

// The stand without its topper: 33 panels, two springs.
func BenchmarkBlockOf(b *testing.B) {
	c := shut(b, harbourLight(b, 2))
	for b.Loop() {
		BlockOf(c)
	}
}

func BenchmarkSavings(b *testing.B) {
	c := shut(b, harbourLight(b, 2))
	for b.Loop() {
		Savings(c)
	}
}

func BenchmarkSending_Ways(b *testing.B) {
	c := shut(b, harbourLight(b, 2))
	s := Sending{Block: BlockOf(c), Limits: UsualLimits()}
	s.Weight, _ = Weigh(c, Load{})
	seats, _ := Rank(s.Block, envelopes(b), load(b).Clearances(), s.Unit)
	l := ladder(b, "DE")
	for b.Loop() {
		s.Ways(seats, l)
	}
}
