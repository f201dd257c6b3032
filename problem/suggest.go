package problem

import "unicode/utf8"

// Suggest returns the candidate that a person most likely meant by word, and whether one is near enough: at most a
// third of the letters, and never more than three, differ (insertions, deletions, changes and swaps of neighbours
// count one each; the restricted edit distance of Damerau 1964). A word of more than 64 letters is like none.
func Suggest(word string, candidates []string) (string, bool) {
	const most = 64
	if len(word) > most*utf8.UTFMax { // however absurdly long it is, and however many the candidates
		return "", false
	}
	best, bestDistance := "", 4
	for _, c := range candidates {
		n := max(utf8.RuneCountInString(word), utf8.RuneCountInString(c))
		if n > most {
			continue
		}
		d := editDistance([]rune(word), []rune(c))
		if d < bestDistance && d <= max(1, n/3) {
			best, bestDistance = c, d
		}
	}
	return best, bestDistance < 4
}

func editDistance(a, b []rune) int {
	prev2 := make([]int, len(b)+1)
	prev := make([]int, len(b)+1)
	cur := make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}
