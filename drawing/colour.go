package drawing

import (
	"fmt"
	"math"
)

// Colour is a colour in sRGB.
type Colour struct{ R, G, B uint8 }

// Hex returns the colour as #rrggbb.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Mixed returns the colour on the way from c to d: c for t = 0, d for t = 1.
func (c Colour) Mixed(d Colour, t float64) Colour {
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + (float64(b)-float64(a))*t)) }
	return Colour{mix(c.R, d.R), mix(c.G, d.G), mix(c.B, d.B)}
}

// Luminance returns the relative luminance, 0 black to 1 white. It is also what is left of a colour in a grey print.
// Source: WCAG 2.2, definition of relative luminance (weights 0.2126, 0.7152, 0.0722, knee 0.04045).
func (c Colour) Luminance() float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Contrast returns the contrast ratio of two colours, 1 to 21.
// Source: WCAG 2.2, definition of contrast ratio. Text needs 4.5 (1.4.3), lines and signs 3 (1.4.11).
func Contrast(a, b Colour) float64 {
	l, m := a.Luminance(), b.Luminance()
	return (max(l, m) + 0.05) / (min(l, m) + 0.05)
}
