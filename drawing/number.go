package drawing

import (
	"math"
	"strconv"
	"strings"
)

// Number prints a number of mm (or degrees) with at most three decimals, trailing zeros left out. It rounds to whole
// nanometres first and then, in integers, to 0.001, halves away from zero: so float noise does not decide a tie such as
// 1.5875 mm (1/16 in).
// Range: |v| < 1e9; beyond it and for NaN the result is "0".
func Number(v float64) string {
	if !(math.Abs(v) < 1e9) {
		return "0"
	}
	nano := int64(math.Round(v * 1e6))
	sign := ""
	if nano < 0 {
		sign, nano = "-", -nano
	}
	milli := (nano + 500) / 1000
	if milli == 0 {
		return "0"
	}
	whole := sign + strconv.FormatInt(milli/1000, 10)
	if milli%1000 == 0 {
		return whole
	}
	decimals := strconv.FormatInt(1000+milli%1000, 10)[1:]
	return whole + "." + strings.TrimRight(decimals, "0")
}
