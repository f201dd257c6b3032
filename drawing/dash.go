package drawing

import "math"

// FitDash stretches or shrinks a dash pattern (dash, gap, dash, gap … in mm) so that a line of the given length begins
// and ends with the pattern's first dash, and shows at least one whole period, so that a short mountain score cannot be
// taken for a plain line. An empty pattern stays empty.
func FitDash(pattern []float64, length float64) []float64 {
	period := 0.0
	for _, v := range pattern {
		period += v
	}
	if len(pattern) < 2 || !(length > 0) || !(period > 0) {
		return nil
	}
	n := max(1, math.Round((length-pattern[0])/period))
	k := length / (n*period + pattern[0])
	fitted := make([]float64, len(pattern))
	for i, v := range pattern {
		fitted[i] = v * k
	}
	return fitted
}

// Dash returns the dashes with which the line is drawn, in mm: fitted where it is straight.
func (p Polyline) Dash() []float64 {
	pen, _ := p.Line.Pen()
	if len(p.Points) != 2 {
		return pen.Dash
	}
	return FitDash(pen.Dash, p.Points[1].Sub(p.Points[0]).Len())
}
