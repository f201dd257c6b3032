package fit

import (
	"fmt"
	"math"
	"strings"

	"foldwright/length"
	"foldwright/stock"
)

// thin prints a thickness: 0.96 mm, 0.038 in.
func thin(l length.Length, u length.Unit) string {
	if u == length.IN {
		return strings.TrimSuffix(fmt.Sprintf("%.3f", float64(l)/float64(length.Inch)), "0") + " in"
	}
	return l.Human(u)
}

// up returns the multiple of pitch that is not less than l, down the one that is not more.
func up(l, pitch length.Length) length.Length { return -down(-l, pitch) }

func down(l, pitch length.Length) length.Length {
	near, rest := l.Snap(pitch)
	if rest < 0 {
		near -= pitch
	}
	return near
}

// roomPitch is to what room in an envelope is rounded before it is printed: nobody measures it finer.
func roomPitch(u length.Unit) length.Length {
	if u == length.IN {
		return length.Inch / 32
	}
	return length.Millimetre / 2
}

// least prints room rounded down, most prints it rounded up, so that nobody counts on room that is not there.
func least(l length.Length, u length.Unit) string { return down(l, roomPitch(u)).Human(u) }
func most(l length.Length, u length.Unit) string  { return up(l, roomPitch(u)).Human(u) }

// grams prints a weight, rounded up to a tenth of a gram, in ounces too for who counts in inches.
func grams(g float64, u length.Unit) string {
	s := fmt.Sprintf("%g g", math.Ceil(g*10-1e-9)/10)
	if u == length.IN {
		s += fmt.Sprintf(" (%.2f oz)", g/stock.GramsPerOunce)
	}
	return s
}

// list joins words: "a", "a and b", "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
