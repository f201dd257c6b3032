package view

import (
	"fmt"
	"math"
	"strings"

	"foldwright/card"
	"foldwright/fold"
	"foldwright/length"
)

// extent returns the corners of the box round all panels, without mats and toppers, as fold.Opening measures the open card.
func (s *scene) extent(frames []fold.Frame) (low, high fold.Vec) { return s.box(frames, false) }

// box returns the corners of the box round all panels and, if toppers are counted, round all mats and toppers, which have no
// thickness here.
func (s *scene) box(frames []fold.Frame, toppers bool) (low, high fold.Vec) {
	low, high = fold.Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, fold.Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, f := range s.flat {
		if f.layer > 0 && !toppers {
			continue
		}
		for _, c := range f.rings[0] {
			v := frames[f.panel].At(vec(c.X, c.Y))
			for k := range 3 {
				low[k], high[k] = min(low[k], v[k]), max(high[k], v[k])
			}
		}
	}
	return low, high
}

// sizeLines says how large the card is in a pose: in the directions in which fold.Opening measures the open card, so that it
// is told alike wherever it is told, however the picture is turned.
func (s *scene) sizeLines(state string, pose int) []string {
	frames := s.open.Poses[pose].Panels
	own := s.measure(frames, false)
	without := ""
	if len(s.closed.Assembly.Card.Toppers) > 0 {
		without = " without toppers"
	}
	lines := []string{state + ": " + s.sizeWords(own, without)}
	if all := s.measure(frames, true); differ(own, all) {
		lines = append(lines, "with them: "+s.sizeWords(all, ""))
	}
	return append(lines, s.turnedWords(pose, own)...)
}

func (s *scene) measure(frames []fold.Frame, toppers bool) fold.Vec {
	low, high := s.box(frames, toppers)
	return high.Sub(low)
}

// differ says whether two sizes differ by more than their words leave out.
func differ(a, b fold.Vec) bool {
	d := a.Sub(b)
	return max(math.Abs(d[0]), math.Abs(d[1]), math.Abs(d[2])) > 0.05
}

// sizeWords says a size (x, y, z) in both units, each to the nearest tenth of a millimetre, as the proof does, and in front of
// the second what is measured. It is "about" where it rests on how far folds are taken to spring open.
func (s *scene) sizeWords(size fold.Vec, what string) string {
	var d [3]length.Length
	for k, mm := range size {
		d[k], _ = length.FromMM(mm).Snap(length.Millimetre / 10)
	}
	u := s.closed.Assembly.Card.Unit
	o := u.Other()
	words := fmt.Sprintf("%s wide, %s deep, %s high%s (%s)", d[0].Typeset(u), d[2].Typeset(u), d[1].Typeset(u), what,
		once(bare(d[0], o)+" × "+bare(d[2], o)+" × "+d[1].Typeset(o)))
	if s.open.Driver == card.OpensAt {
		return words
	}
	return "about " + strings.ReplaceAll(words, "≈ ", "")
}

// turnedWords says how the card is held while it is measured, if the picture holds it otherwise.
func (s *scene) turnedWords(pose int, measured fold.Vec) []string {
	if !differ(measured, s.measure(s.stage.frames(pose), false)) {
		return nil
	}
	a := s.closed.Assembly
	return []string{"measured with " + a.Panels[a.Front()].Ref + " upright and facing you; the picture is turned"}
}
