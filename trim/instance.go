package trim

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// InstanceUnit stands for 1 in an instance: its sizes are whole numbers of no unit.
const InstanceUnit = length.Millimetre / 100

// Limits of a file of instances, far above the published ones (500 instances, 134 parts, sides of 3670, counts of 7308).
const (
	mostInstances     = 2000
	mostInstanceKinds = 1000
	mostInstanceSide  = int64(length.Max / InstanceUnit)
	mostSaid          = 20
)

// Instance is a published cutting problem, to compare plans with.
type Instance struct {
	Name  string
	Job   Job
	Where problem.Place
}

// Knapsack says that nothing has to be made: the most value is sought, not the least price.
func (in Instance) Knapsack() bool {
	for _, p := range in.Job.Parts {
		if p.Count > 0 {
			return false
		}
	}
	return true
}

// ReadInstances reads a file of one or many instances:
//
//	instance NAME
//	sheet W H COST QTY              QTY -1: no limit
//	part  W H COUNT VALUE MOST TURN MOST -1: no limit; TURN 1: may be turned, 0: may not
//
// with whole numbers, sheets and parts in any order, and # before a remark. What cannot be read is told and left out.
//
// Problems: instance-line (a line that is none of these three, or stands before the first instance), instance-number (a
// number that is none or out of its range), instance-name (two of one name), instance-empty (no sheets, no parts, or no
// instance at all), instance-long (too much).
func ReadInstances(file string, text []byte) ([]Instance, problem.List) {
	r := &instanceReader{file: file, named: map[string]bool{}}
	for line := range bytes.Lines(bytes.TrimPrefix(text, []byte("\ufeff"))) {
		r.line++
		words, _, _ := bytes.Cut(line, []byte("#"))
		if f := strings.Fields(string(words)); len(f) > 0 && len(r.problems) < mostSaid {
			r.read(f)
		}
	}
	r.whole()
	if r.line = 0; len(r.out) == 0 && len(r.problems) == 0 {
		r.say("instance-empty", "the file holds no instance", instanceLine)
	}
	return r.out, r.problems.Sorted()
}

// What the lines look like.
const (
	instanceLine = "a line: instance NAME"
	sheetLine    = "a line: sheet WIDTH HEIGHT COST QUANTITY"
	partLine     = "a line: part WIDTH HEIGHT COUNT VALUE MOST TURN"
)

type instanceReader struct {
	file     string
	line     int
	out      []Instance
	named    map[string]bool
	problems problem.List
}

func (r *instanceReader) say(rule, what, needs string) {
	p := problem.Problem{Rule: rule, Where: problem.Place{File: r.file}, What: what, Needs: needs}
	if r.line > 0 {
		p.Where = r.place()
	}
	r.problems.Add(p)
}

func (r *instanceReader) place() problem.Place {
	return problem.Place{File: r.file, Line: r.line, Column: 1}
}

func (r *instanceReader) read(f []string) {
	switch {
	case f[0] == "instance":
		r.instance(f)
	case f[0] != "sheet" && f[0] != "part":
		r.say("instance-line", "the line starts with "+problem.Quote(f[0]), instanceLine+", or sheet, or part")
	case len(r.out) == 0:
		r.say("instance-line", "a "+f[0]+" stands before the first instance", instanceLine+", before it")
	case f[0] == "sheet":
		r.sheet(f)
	default:
		r.part(f)
	}
}

func (r *instanceReader) instance(f []string) {
	r.whole()
	switch {
	case len(f) != 2:
		r.say("instance-line", "an instance has "+problem.Count(len(f)-1, "word")+" for its name", instanceLine+", with a name of one word")
		return
	case len(r.out) >= mostInstances:
		r.say("instance-long", "the file holds too many instances", fmt.Sprintf("at most %d", mostInstances))
		return
	case r.named[f[1]]:
		r.say("instance-name", "there is a second instance "+problem.Quote(f[1]), "a name of its own for each")
	}
	r.named[f[1]] = true
	r.out = append(r.out, Instance{Name: f[1], Where: r.place()})
}

// whole says what the last instance lacks.
func (r *instanceReader) whole() {
	if len(r.out) == 0 || len(r.problems) > 0 { // a line with a mistake is no missing line
		return
	}
	last := r.out[len(r.out)-1]
	line := r.line
	r.line = last.Where.Line
	if len(last.Job.Sheets) == 0 {
		r.say("instance-empty", "instance "+problem.Quote(last.Name)+" has no sheet", sheetLine)
	}
	if len(last.Job.Parts) == 0 {
		r.say("instance-empty", "instance "+problem.Quote(last.Name)+" has no part", partLine)
	}
	r.line = line
}

// column is one number of a line: what it is called, and from where to where it goes.
type column struct {
	name     string
	low, top int64
}

func (r *instanceReader) sheet(f []string) {
	n, ok := r.numbers(f, sheetLine, []column{
		{"width", 1, mostInstanceSide}, {"height", 1, mostInstanceSide}, {"cost", 0, MostPrice}, {"quantity", Unlimited, MostParts}})
	if !ok {
		return
	}
	j := &r.out[len(r.out)-1].Job
	if len(j.Sheets) >= mostInstanceKinds {
		r.say("instance-long", "the instance holds too many sheets", fmt.Sprintf("at most %d", mostInstanceKinds))
		return
	}
	j.Sheets = append(j.Sheets, Sheet{W: InstanceUnit * length.Length(n[0]), H: InstanceUnit * length.Length(n[1]),
		Price: n[2], Quantity: int(n[3]), Where: r.place()})
}

func (r *instanceReader) part(f []string) {
	n, ok := r.numbers(f, partLine, []column{
		{"width", 1, mostInstanceSide}, {"height", 1, mostInstanceSide}, {"count", 0, MostParts}, {"value", 0, MostPrice},
		{"most", Unlimited, MostParts}, {"turn", 0, 1}})
	if !ok {
		return
	}
	j := &r.out[len(r.out)-1].Job
	if len(j.Parts) >= mostInstanceKinds {
		r.say("instance-long", "the instance holds too many parts", fmt.Sprintf("at most %d", mostInstanceKinds))
		return
	}
	j.Parts = append(j.Parts, Part{W: InstanceUnit * length.Length(n[0]), H: InstanceUnit * length.Length(n[1]),
		Count: int(n[2]), Value: n[3], Most: int(n[4]), Turn: n[5] == 1, Where: r.place()})
}

// numbers reads the numbers behind the first word of a line.
func (r *instanceReader) numbers(f []string, form string, columns []column) (out []int64, ok bool) {
	if len(f) != len(columns)+1 {
		r.say("instance-line", fmt.Sprintf("the line has %s behind %s", problem.Count(len(f)-1, "number"), f[0]), form)
		return nil, false
	}
	ok = true
	for i, c := range columns {
		v, err := strconv.ParseInt(f[i+1], 10, 64)
		if err != nil || v < c.low || v > c.top {
			r.say("instance-number", "the "+c.name+" is "+problem.Quote(f[i+1]), fmt.Sprintf("a whole number from %d to %d", c.low, c.top))
			ok = false
		}
		out = append(out, v)
	}
	return out, ok
}
