package recipe

import "foldwright/problem"

// mostSlips is how many slips of one line are mended in its Try.
const mostSlips = 60

// mended returns a Try that is a whole line with its further slips mended too, or "" where one of them has no cure: a Try
// is a line that can be read.
func (r *reader) mended(line string) string {
	if r.slips == mostSlips || !startsLine(line) {
		return ""
	}
	s := &reader{unit: r.unit, slips: r.slips + 1, keywords: r.keywords, told: map[int]bool{}}
	p := &lineParser{r: s, sc: newScanner(line)}
	p.advance()
	k := r.keywords[p.tok.text]
	p.form = k.form
	p.advance()
	k.read(p)
	p.end()
	if !p.failed {
		return line
	}
	if try := s.firstTry(); startsLine(try) {
		return try
	}
	return ""
}

// firstTry returns the Try of the first error.
func (r *reader) firstTry() string {
	for _, p := range r.problems {
		if p.Severity == problem.Error {
			return p.Try
		}
	}
	return ""
}
