package trim

import (
	"fmt"
	"slices"

	"foldwright/length"
	"foldwright/problem"
)

// Trimmer is what a trimmer can do. The zero Trimmer cuts anything, one sheet at a time, and loses nothing.
type Trimmer struct {
	// Longest is the longest cut that it makes; 0 for no limit.
	Longest length.Length
	// Narrowest is the narrowest strip that it holds at the fence: no cut is nearer to the edge that lies there. 0 for no
	// limit.
	Narrowest length.Length
	// Blade is the width of what a cut turns to dust: 0 for a blade or a wheel.
	Blade length.Length
	// Stack is how high a stack it cuts at once; 0 for one layer.
	Stack length.Length
}

// widestBlade is far above that of any saw for paper or board (from memory: 3 to 4 mm).
const widestBlade = 10 * length.Millimetre

// Layers returns how many layers of paper of a caliper are cut at once, at least 1.
func (t Trimmer) Layers(caliper length.Length) int {
	if caliper <= 0 {
		return 1
	}
	return max(1, int(t.Stack/caliper))
}

func (t Trimmer) check() problem.List {
	var l problem.List
	for _, v := range []struct {
		what     string
		is, most length.Length
	}{
		{"the longest cut", t.Longest, length.Max}, {"the narrowest strip", t.Narrowest, length.Max},
		{"what the blade takes", t.Blade, widestBlade}, {"the stack", t.Stack, length.Max},
	} {
		if v.is < 0 || v.is > v.most {
			l.Add(problem.Problem{Rule: "trim-trimmer", What: fmt.Sprintf("%s of the trimmer is %s", v.what, v.is.Human(length.MM)),
				Needs: "0 for no limit, or a length up to " + v.most.Human(length.MM)})
		}
	}
	return l
}

// reaches says whether cuts across a piece this long can be made.
func (t Trimmer) reaches(long length.Length) bool { return t.Longest == 0 || long <= t.Longest }

// plain returns the job as the search sees it, without edges and dust: a sheet is what is left when its edges are cut off,
// and if a cut takes up room, every part and every sheet is larger by that (a part and the cut beside it are one).
// real turns its plans back.
func (j Job) plain() Job {
	dust := j.Trimmer.Blade
	out := Job{Sheets: slices.Clone(j.Sheets), Parts: slices.Clone(j.Parts), Trimmer: j.Trimmer, Caliper: j.Caliper}
	if out.Trimmer.Blade = 0; dust > 0 {
		if out.Trimmer.Longest > 0 {
			out.Trimmer.Longest += dust
		}
		if out.Trimmer.Narrowest > 0 {
			out.Trimmer.Narrowest += dust
		}
	}
	for i := range out.Sheets {
		s := &out.Sheets[i]
		s.W, s.H, s.Edge = s.W-2*s.Edge+dust, s.H-2*s.Edge+dust, 0
		s.trimmer = out.Trimmer
	}
	for i := range out.Parts {
		out.Parts[i].W += dust
		out.Parts[i].H += dust
	}
	return out
}

// real turns a plan for the plain job into one for the job.
func (j Job) real(p Plan) Plan {
	out := Plan{slices.Clone(p.Layouts)}
	for i := range out.Layouts {
		out.Layouts[i].Root = out.Layouts[i].Root.earlier(j.Trimmer.Blade)
	}
	return out
}

// earlier moves every cut of a tree by so much, since the dust belongs to the second piece.
func (c *Cut) earlier(by length.Length) *Cut {
	if by == 0 || c == nil || c.Kind == Rest || c.Kind == IsPart {
		return c
	}
	return &Cut{Kind: c.Kind, At: c.At - by, First: c.First.earlier(by), Second: c.Second.earlier(by)}
}

// reachable says whether a part that lies w by h can be cut from the sheet: no cut is too long, and there is enough paper
// to hold.
func (s Sheet) reachable(w, h length.Length) bool {
	t := s.trimmer
	if w == s.W && h == s.H {
		return true
	}
	holds := func(part, all length.Length) bool {
		return part == all || part >= t.Narrowest || all-part >= t.Narrowest
	}
	return (t.reaches(s.W) || t.reaches(s.H)) && (w == s.W || t.reaches(h)) && (h == s.H || t.reaches(w)) &&
		holds(w, s.W) && holds(h, s.H)
}

// cuttable says whether the tree of a piece of w by h keeps to what the trimmer can do.
func (t Trimmer) cuttable(c *Cut, w, h length.Length) bool {
	if c == nil || c.Kind == Rest || c.Kind == IsPart {
		return true
	}
	if c.At < t.Narrowest {
		return false
	}
	if c.Kind == AtX {
		return t.reaches(h) && t.cuttable(c.First, c.At, h) && t.cuttable(c.Second, w-c.At, h)
	}
	return t.reaches(w) && t.cuttable(c.First, w, c.At) && t.cuttable(c.Second, w, h-c.At)
}

// brought returns the tree of a sheet so that the trimmer can cut it: what is left over is cut off first where a cut would
// be too long, and strips too narrow to be held are cut off at the far end. False where that is not enough.
func (s Sheet) brought(c *Cut) (*Cut, bool) {
	t := s.trimmer
	if t.cuttable(c, s.W, s.H) {
		return c, true
	}
	st := t.stripOf(c, s.W, s.H)
	st.sort()
	c = st.tree()
	return c, t.cuttable(c, s.W, s.H)
}
