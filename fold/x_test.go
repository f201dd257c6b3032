package fold

import "strconv"

func trim(f float64) string { return strconv.FormatFloat(f, 'f', 1, 64) }
