package spring

import "math"

// Measured is a result with what the errors of reading make of it.
type Measured struct {
	Value float64
	// Spread is one standard deviation, in the unit of the value.
	Spread float64
}

// Share returns the spread over the value; infinity where the value is nought.
func (m Measured) Share() float64 {
	if m.Value == 0 {
		return math.Inf(1)
	}
	return math.Abs(m.Spread / m.Value)
}

// reading is one thing that was read, with one standard deviation.
type reading struct{ value, sigma float64 }

// propagate returns the results of f with their spreads: each reading is moved by its error to both sides, and the effects
// are added in squares. Source: the law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2, with the differences of
// its 5.1.3 note 2; readings are independent of each other.
func propagate(f func(x []float64) []float64, readings []reading) []Measured {
	x := make([]float64, len(readings))
	for i, r := range readings {
		x[i] = r.value
	}
	var out []Measured
	for _, v := range f(x) {
		out = append(out, Measured{Value: v})
	}
	for i, r := range readings {
		if r.sigma == 0 {
			continue
		}
		x[i] = r.value + r.sigma
		up := f(x)
		x[i] = r.value - r.sigma
		down := f(x)
		x[i] = r.value
		for k := range out {
			out[k].Spread = math.Hypot(out[k].Spread, (up[k]-down[k])/2)
		}
	}
	return out
}

// mean returns the mean of several readings and its standard deviation: that of one reading, or what the readings
// themselves scatter if that is more.
func mean(values []float64, sigma float64) reading {
	n := float64(len(values))
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	m := sum / n
	if n < 2 {
		return reading{m, sigma}
	}
	squares := 0.0
	for _, v := range values {
		squares += (v - m) * (v - m)
	}
	return reading{m, max(sigma, math.Sqrt(squares/(n-1))) / math.Sqrt(n)}
}
