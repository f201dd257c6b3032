package trim

import (
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
)

const mm = length.Millimetre

// harbour is a small job: two parts from one sheet of 100 by 60 mm.
func harbour() Job {
	return Job{
		Sheets: []Sheet{{Name: "blue", W: 100 * mm, H: 60 * mm, Quantity: 2, Price: 30, Grain: card.GrainUp}},
		Parts: []Part{
			{Name: "gull", W: 40 * mm, H: 60 * mm, Count: 1, Value: 5, Most: Unlimited, Grain: card.GrainUp},
			{Name: "wave", W: 20 * mm, H: 50 * mm, Count: 1, Value: 3, Most: Unlimited, Turn: true},
		},
	}
}

func part(i int, turned bool) *Cut { return &Cut{Kind: IsPart, Part: i, Turned: turned} }

func x(at length.Length, first, second *Cut) *Cut {
	return &Cut{Kind: AtX, At: at * mm, First: first, Second: second}
}

func y(at length.Length, first, second *Cut) *Cut {
	return &Cut{Kind: AtY, At: at * mm, First: first, Second: second}
}

func TestAudit(t *testing.T) {
	p := Plan{[]Layout{{0, 2, x(40, part(0, false), x(50, y(20, part(1, true), nil), nil))}}}
	a, l := Audit(harbour(), p)
	if len(l) != 0 {
		t.Fatalf("a right plan: %v", l)
	}
	if a.Price != 60 || a.Value != 16 || a.Cuts != 6 || a.Fences != 3 || a.Sheets[0] != 2 || a.Made[0] != 2 || a.Made[1] != 2 {
		t.Errorf("got %+v", a)
	}
	want := []Offcut{{0, 40 * mm, 20 * mm, 50 * mm, 40 * mm}, {0, 90 * mm, 0, 10 * mm, 60 * mm}}
	if len(a.Offcuts) != 2 || a.Offcuts[0] != want[0] || a.Offcuts[1] != want[1] {
		t.Errorf("off-cuts: got %+v, want %+v", a.Offcuts, want)
	}
}

// TestAudit_faults shows that each rule notices what it is for.
func TestAudit_faults(t *testing.T) {
	good := x(40, part(0, false), x(50, y(20, part(1, true), nil), nil))
	for _, c := range []struct {
		rule string
		l    Layout
	}{
		{"trim-too-many-sheets", Layout{0, 3, good}},
		{"trim-layout", Layout{1, 1, good}},
		{"trim-layout", Layout{0, 0, good}},
		{"trim-parts-missing", Layout{0, 1, x(40, part(0, false), nil)}},
		{"trim-part-differs", Layout{0, 1, x(41, part(0, false), nil)}},
		{"trim-cut-outside", Layout{0, 1, x(100, part(0, false), nil)}},
		{"trim-cut-outside", Layout{0, 1, &Cut{Kind: 9}}},
		{"trim-direction", Layout{0, 1, x(60, y(40, part(0, true), nil), nil)}},
		{"trim-part-unknown", Layout{0, 1, part(2, false)}},
		{"trim-cut-long", Layout{0, 1, y(40, nil, nil)}},
		{"trim-cut-narrow", Layout{0, 1, x(4, nil, nil)}},
	} {
		j := harbour()
		j.Trimmer = Trimmer{Longest: 70 * mm, Narrowest: 5 * mm}
		_, l := Audit(j, Plan{[]Layout{c.l}})
		found := false
		for _, p := range l {
			found = found || p.Rule == c.rule
		}
		if !found {
			t.Errorf("%s: got %v", c.rule, l)
		}
	}
	a := &auditor{}
	s := harbour().Sheets[0]
	a.cover(s, []Placed{{W: 60 * mm, H: 60 * mm}, {X: 50 * mm, W: 60 * mm, H: 60 * mm}}, nil)
	var rules []string
	for _, p := range a.list {
		rules = append(rules, p.Rule)
	}
	if got := strings.Join(rules, " "); got != "trim-over-the-edge trim-overlap trim-area" {
		t.Errorf("cover: got %s", got)
	}
}

func TestJob_Check(t *testing.T) {
	if l := harbour().Check(); len(l) != 0 {
		t.Fatalf("a right job: %v", l)
	}
	for _, c := range []struct {
		want   string
		change func(*Job)
	}{
		{"trim-sheet-size: sheet blue is 0 mm by 60 mm", func(j *Job) { j.Sheets[0].W = 0; j.Parts = nil }},
		{"trim-part-size: part gull is -40 mm by 60 mm", func(j *Job) { j.Parts[0].W *= -1 }},
		{"trim-count: part gull is wanted -1 times", func(j *Job) { j.Parts[0].Count = -1 }},
		{"trim-count: part gull is wanted 10000001 times", func(j *Job) { j.Parts[0].Count = MostParts + 1 }},
		{"trim-quantity: there are -2 of sheet blue", func(j *Job) { j.Sheets[0].Quantity = -2 }},
		{"trim-price: sheet blue costs -1", func(j *Job) { j.Sheets[0].Price = -1 }},
		{"trim-value: part gull has the value -1 and may be cut -1 times", func(j *Job) { j.Parts[0].Value = -1 }},
		{"trim-no-sheet: part gull, 101 mm by 10 mm, comes out of no sheet that there is", func(j *Job) { j.Parts[0].W, j.Parts[0].H = 101*mm, 10*mm }},
		{"trim-grain: part gull, 40 mm by 60 mm, wants its grain in one direction, and the grain of the sheets is not known", func(j *Job) { j.Sheets[0].Grain = card.GrainUnknown }},
		{"trim-edge: an edge of 30 mm is to be cut off sheet blue, 100 mm by 60 mm", func(j *Job) { j.Sheets[0].Edge = 30 * mm }},
		{"trim-edge: the edges of sheet blue, 100 mm by 60 mm, are to be cut off, but the trimmer cuts 80 mm at most", func(j *Job) { j.Sheets[0].Edge, j.Trimmer.Longest, j.Parts = mm, 80*mm, nil }},
		{"trim-trimmer: the longest cut of the trimmer is -1 mm", func(j *Job) { j.Trimmer.Longest = -mm }},
		{"trim-trimmer: what the blade takes of the trimmer is 11 mm", func(j *Job) { j.Trimmer.Blade = 11 * mm }},
		{"trim-too-long: part gull, 40 mm by 60 mm, cannot be cut with this trimmer", func(j *Job) { j.Trimmer.Longest, j.Parts = 59*mm, j.Parts[:1] }},
		{"trim-grain: part wave, 20 mm by 70 mm, would come out of a sheet only if it were turned", func(j *Job) { j.Parts[1].H, j.Parts[1].Turn = 70*mm, false }},
		{"trim-grain: part 1, 40 mm by 60 mm, wants its grain in a direction in which it comes out of no sheet", func(j *Job) { j.Sheets[0].Grain = card.GrainAcross; j.Parts[0].Name = "" }},
	} {
		j := harbour()
		c.change(&j)
		l := j.Check()
		if len(l) != 1 || l[0].Rule+": "+l[0].What != c.want || l[0].Needs == "" {
			t.Errorf("got %v, want %s", l, c.want)
		}
	}
}

// TestJob_Check_nearest: the problem names the sheet that lacks least, as the part may lie.
func TestJob_Check_nearest(t *testing.T) {
	for _, c := range []struct {
		w, h length.Length
		turn bool
		want string
	}{
		{101, 10, false, "a sheet at least as large; the nearest is sheet blue, 100 mm by 60 mm, which lacks 1 mm of width"},
		{61, 105, true, "a sheet at least as large; the nearest is sheet blue, 100 mm by 60 mm, which lacks 5 mm of width and 1 mm of height"},
		{61, 105, false, "a sheet at least as large; the nearest is sheet red, 90 mm by 90 mm, which lacks 15 mm of height"},
	} {
		j := harbour()
		j.Sheets = append(j.Sheets, Sheet{Name: "red", W: 90 * mm, H: 90 * mm, Quantity: 1, Grain: card.GrainUp}, Sheet{Name: "gone", W: 200 * mm, H: 200 * mm})
		j.Parts = []Part{{W: c.w * mm, H: c.h * mm, Count: 1, Turn: c.turn}}
		if l := j.Check(); len(l) != 1 || l[0].Needs != c.want {
			t.Errorf("got %v, want %s", l, c.want)
		}
	}
}

// TestJob_Check_try: letting the part be turned cures what says so.
func TestJob_Check_try(t *testing.T) {
	j := harbour()
	j.Parts[1].W, j.Parts[1].H, j.Parts[1].Turn = 20*mm, 70*mm, false
	if l := j.Check(); len(l) != 1 || l[0].Try == "" {
		t.Fatalf("got %v", l)
	}
	j.Parts[1].Turn = true
	if l := j.Check(); len(l) != 0 {
		t.Errorf("after the cure: %v", l)
	}
}

// FuzzAudit: no tree makes the audit panic, and parts and off-cuts that it finds nothing wrong with make up the sheet.
func FuzzAudit(f *testing.F) {
	f.Add([]byte{2, 40, 1, 0, 2, 50, 3, 20, 1, 1, 0, 0})
	f.Add([]byte{3, 0, 3, 255, 1, 9})
	f.Fuzz(func(t *testing.T, data []byte) {
		next := func() int {
			if len(data) == 0 {
				return 0
			}
			b := int(data[0])
			data = data[1:]
			return b
		}
		var tree func(depth int) *Cut
		tree = func(depth int) *Cut {
			c := &Cut{Kind: CutKind(next() % 5)}
			switch {
			case c.Kind == Rest || depth > 6:
				return nil
			case c.Kind == IsPart:
				c.Part = next()%4 - 1
				c.Turned = next()%2 == 1
				return c
			}
			c.At = mm * length.Length(next()-1)
			c.First, c.Second = tree(depth+1), tree(depth+1)
			return c
		}
		j := harbour()
		a, l := Audit(j, Plan{[]Layout{{0, 1, tree(0)}}})
		if len(l) > 1 || len(l) == 1 && l[0].Rule != "trim-parts-missing" {
			return
		}
		left := area(j.Sheets[0].W, j.Sheets[0].H)
		for _, p := range a.Placed {
			left -= area(p.W, p.H)
		}
		for _, o := range a.Offcuts {
			left -= area(o.W, o.H)
		}
		if left != 0 {
			t.Errorf("%d nm² are missing", left)
		}
	})
}
