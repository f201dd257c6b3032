package trim

import (
	"fmt"

	"foldwright/length"
	"foldwright/problem"
)

// Offcut is a rectangle that is left over of a sheet.
type Offcut struct {
	// Layout is the number of the layout in the plan, from 0.
	Layout     int
	X, Y, W, H length.Length
}

// Placed is a part where it lies on a sheet; W and H are those of the part as it lies.
type Placed struct {
	Layout, Part int
	Turned       bool
	X, Y, W, H   length.Length
}

// Account is what a plan comes to, counted cut by cut.
type Account struct {
	// Price of all sheets and Value of all parts.
	Price, Value int64
	// Sheets used, by number of the sheet; Made of every part.
	Sheets, Made []int
	// Placed and Offcuts of one sheet of every layout.
	Placed  []Placed
	Offcuts []Offcut
	// Cuts over all sheets, each sheet and piece cut by itself, the edges too.
	Cuts int
	// Fences are the distances, from the left or lower edge of the piece in hand, at which anything is cut: how many there
	// are.
	Fences int
}

// Audit goes through a plan cut by cut, as somebody at the trimmer would, and returns what it comes to and every problem:
// a cut that does not run from edge to edge, a piece of another size than its part, a grain or direction not kept, parts
// that overlap, area that is lost, a cut that the trimmer cannot make, more sheets than there are, parts that are missing. It shares nothing with the search
// for plans. The counts of Made are compared with Count of each part, not with Most.
func Audit(j Job, p Plan) (Account, problem.List) {
	a := &auditor{job: j, fences: map[length.Length]bool{}}
	a.Sheets, a.Made = make([]int, len(j.Sheets)), make([]int, len(j.Parts))
	for i, l := range p.Layouts {
		a.layout(i, l)
	}
	for i, s := range j.Sheets {
		if s.Quantity != Unlimited && a.Sheets[i] > s.Quantity {
			a.say("trim-too-many-sheets", fmt.Sprintf("the plan uses %d of %s, there are %d", a.Sheets[i], title("sheet", s.Name, i), s.Quantity))
		}
		a.Price += s.Price * int64(a.Sheets[i])
	}
	for i, w := range j.Parts {
		if a.Made[i] < w.Count {
			a.say("trim-parts-missing", fmt.Sprintf("the plan makes %d of %s, wanted are %d", a.Made[i], title("part", w.Name, i), w.Count))
		}
		a.Value += w.Value * int64(a.Made[i])
	}
	a.Fences = len(a.fences)
	return a.Account, a.list
}

type auditor struct {
	Account
	job    Job
	list   problem.List
	fences map[length.Length]bool
	at     int // layout
	times  int
	dust   int64 // nm² of the sheet at hand that cuts have taken
}

func (a *auditor) say(rule, what string) { a.list.Add(problem.Problem{Rule: rule, What: what}) }

func (a *auditor) layout(i int, l Layout) {
	if l.Sheet < 0 || l.Sheet >= len(a.job.Sheets) || l.Times < 1 || l.Times > MostParts {
		a.say("trim-layout", fmt.Sprintf("layout %d cuts sheet %d up %d times", i+1, l.Sheet, l.Times))
		return
	}
	a.at, a.times = i, l.Times
	a.Sheets[l.Sheet] += l.Times
	s := a.job.Sheets[l.Sheet]
	parts, rests := len(a.Placed), len(a.Offcuts)
	if a.dust = 0; s.Edge > 0 {
		a.edges(s)
	}
	a.cut(s, l.Root, Offcut{i, s.Edge, s.Edge, s.W - 2*s.Edge, s.H - 2*s.Edge})
	a.cover(s, a.Placed[parts:], a.Offcuts[rests:])
}

// edges cuts off the four edges of a sheet, each lying behind the blade.
func (a *auditor) edges(s Sheet) {
	if !a.job.Trimmer.reaches(max(s.W, s.H)) {
		a.say("trim-cut-long", fmt.Sprintf("layout %d has its edges cut off a sheet that is longer than the trimmer", a.at+1))
	}
	a.Cuts += 4 * a.times
	for _, side := range [2]length.Length{s.W, s.H} {
		a.fences[side-s.Edge], a.fences[side-2*s.Edge] = true, true
	}
}

func (a *auditor) cut(s Sheet, c *Cut, in Offcut) {
	if c == nil || c.Kind == Rest {
		a.Offcuts = append(a.Offcuts, in)
		return
	}
	if c.Kind == IsPart {
		a.part(s, c, in)
		return
	}
	across, long, one, two := in.W, in.H, in, in
	behind := c.At + a.job.Trimmer.Blade
	if c.Kind == AtX {
		one.W, two.X, two.W = c.At, in.X+behind, in.W-behind
	} else {
		across, long = in.H, in.W
		one.H, two.Y, two.H = c.At, in.Y+behind, in.H-behind
	}
	if c.Kind > AtY || c.At <= 0 || c.At >= across {
		a.say("trim-cut-outside", fmt.Sprintf("layout %d cuts at %s of a piece of %s", a.at+1, c.At.Human(length.MM), across.Human(length.MM)))
		return
	}
	a.Cuts += a.times
	a.fences[c.At] = true
	a.dust += area(min(a.job.Trimmer.Blade, across-c.At), long)
	if !a.job.Trimmer.reaches(long) {
		a.say("trim-cut-long", fmt.Sprintf("layout %d makes a cut of %s, the trimmer %s at most", a.at+1, long.Human(length.MM), a.job.Trimmer.Longest.Human(length.MM)))
	}
	if c.At < a.job.Trimmer.Narrowest {
		a.say("trim-cut-narrow", fmt.Sprintf("layout %d cuts at %s, the trimmer holds %s at least", a.at+1, c.At.Human(length.MM), a.job.Trimmer.Narrowest.Human(length.MM)))
	}
	a.cut(s, c.First, one)
	if (c.Second == nil || c.Second.Kind == Rest) && behind >= across {
		return // all of it is dust
	}
	a.cut(s, c.Second, two)
}

func (a *auditor) part(s Sheet, c *Cut, in Offcut) {
	if c.Part < 0 || c.Part >= len(a.job.Parts) {
		a.say("trim-part-unknown", fmt.Sprintf("layout %d holds a part %d, there are %d", a.at+1, c.Part+1, len(a.job.Parts)))
		return
	}
	p := a.job.Parts[c.Part]
	w, h := p.W, p.H
	if c.Turned {
		w, h = h, w
	}
	if w != in.W || h != in.H {
		a.say("trim-part-differs", fmt.Sprintf("layout %d makes %s %s by %s, it is %s by %s", a.at+1, title("part", p.Name, c.Part),
			in.W.Human(length.MM), in.H.Human(length.MM), w.Human(length.MM), h.Human(length.MM)))
	}
	if !p.Suits(s, c.Turned) {
		a.say("trim-direction", fmt.Sprintf("layout %d lays %s against its grain or direction", a.at+1, title("part", p.Name, c.Part)))
	}
	a.Made[c.Part] += a.times
	a.Placed = append(a.Placed, Placed{a.at, c.Part, c.Turned, in.X, in.Y, in.W, in.H})
}

// cover proves from the places alone, not from the tree, that parts and rests lie within the sheet, apart from each other,
// and make it up with the dust of the cuts. One area is at most length.Max², which int64 holds.
func (a *auditor) cover(s Sheet, parts []Placed, rests []Offcut) {
	all := append([]Offcut(nil), rests...)
	for _, p := range parts {
		all = append(all, Offcut{p.Layout, p.X, p.Y, p.W, p.H})
	}
	left := area(s.W-2*s.Edge, s.H-2*s.Edge) - a.dust
	for i, r := range all {
		left -= area(r.W, r.H)
		if r.X < s.Edge || r.Y < s.Edge || r.X+r.W > s.W-s.Edge || r.Y+r.H > s.H-s.Edge {
			a.say("trim-over-the-edge", fmt.Sprintf("layout %d reaches over the edge of its sheet", a.at+1))
		}
		for _, o := range all[:i] {
			if r.X < o.X+o.W && o.X < r.X+r.W && r.Y < o.Y+o.H && o.Y < r.Y+r.H {
				a.say("trim-overlap", fmt.Sprintf("layout %d: two parts overlap", a.at+1))
			}
		}
	}
	if left != 0 {
		a.say("trim-area", fmt.Sprintf("layout %d: parts and off-cuts do not make up the sheet", a.at+1))
	}
}

// area in nm²; both sides at most length.Max, so that int64 holds it.
func area(w, h length.Length) int64 { return int64(w) * int64(h) }
