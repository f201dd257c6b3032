package stock

import (
	"cmp"
	"slices"
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// Tool is what makes an ornament.
type Tool uint8

// A die and a punch cut a shape out; a stamp prints one, on a shape that something else cuts.
const (
	DieTool Tool = iota
	PunchTool
	StampTool
)

func tools() []string { return []string{"die", "punch", "stamp"} }

// String returns die, punch or stamp.
func (t Tool) String() string { return tools()[t] }

// Shape is the outer shape of what a tool makes.
type Shape uint8

// The shapes that a table of dies knows; for any other shape the one that goes round it.
const (
	RectShape Shape = iota
	OvalShape
	CircleShape
)

func shapes() []string { return []string{"rect", "oval", "circle"} }

// String returns rect, oval or circle.
func (s Shape) String() string { return shapes()[s] }

// Die is a tool that a person has, by the outer size of what it cuts or prints.
type Die struct {
	Name  string
	Tool  Tool
	Shape Shape
	Unit  length.Unit
	W, H  length.Length
	// Set is the nesting set that it belongs to; "" for none.
	Set   string
	Where problem.Place
}

const dieColumns = "name,tool,shape,unit,width,height,set"

// ReadDies reads the dies, punches and stamps that a person wrote down: CSV with the columns name, tool (die, punch, stamp),
// shape (rect, oval, circle), unit, width, height (may be empty for a circle) and set (may be empty). file names the text
// in messages. Rows with a problem are left out; that a set does not nest is only a warning.
func ReadDies(file string, text []byte) ([]Die, problem.List) {
	g, probs := readRows(file, text, dieColumns)
	var out []Die
	taken := map[string]problem.Place{}
	for _, r := range g.rows {
		p := &parser{}
		d := p.die(r)
		if before, twice := taken[fold(d.Name)]; twice {
			p.probs.Add(problem.Problem{Rule: "table-name", Where: r["name"].where, What: "the name " + problem.Quote(d.Name) + " is taken",
				Needs: "a name of its own for each tool", Notes: []problem.Note{{Where: before, What: "it stands here already"}}})
		}
		taken[fold(d.Name)] = d.Where
		if len(p.probs) == 0 {
			out = append(out, d)
		}
		probs = append(probs, p.probs...)
	}
	return out, append(probs, unnested(out)...).Sorted()
}

func (p *parser) die(r row) Die {
	u := p.unit(r)
	d := Die{Name: p.text(r, "name"), Unit: u, W: p.length(r, "width", u), H: p.limit(r, "height", u), Set: r["set"].text, Where: r["name"].where}
	d.Tool = Tool(p.word(r, "tool", tools()))
	d.Shape = Shape(p.word(r, "shape", shapes()))
	round := d.Shape == CircleShape
	switch {
	case round && d.H == 0 && r["height"].text == "":
		d.H = d.W
	case round && d.H != d.W:
		p.add("table-cell", r["height"].where, "the width again, or nothing", "the circle is %s wide and %s high", r["width"].text, r["height"].text)
	case r["height"].text == "":
		p.add("table-cell", r["height"].where, "a measurement above 0", "the %s has no height", d.Shape)
	}
	return d
}

// word reads one of a few words.
func (p *parser) word(r row, column string, words []string) int {
	i := slices.Index(words, r[column].text)
	if i < 0 {
		p.add("table-cell", r[column].where, strings.Join(words, ", "), "%q is no %s%s", problem.Clip(r[column].text, 40), column, didYouMean(r[column].text, words))
	}
	return max(i, 0)
}

// Nest returns the dies and punches of a set, the largest first; none for the name "".
func Nest(dies []Die, set string) []Die {
	var out []Die
	for _, d := range dies {
		if set != "" && fold(d.Set) == fold(set) && d.Tool != StampTool {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b Die) int { return cmp.Or(cmp.Compare(b.W, a.W), cmp.Compare(b.H, a.H)) })
	return out
}

// unnested reports, once for each set, a die that does not lie within the next larger one.
func unnested(dies []Die) problem.List {
	var probs problem.List
	seen := map[string]bool{}
	for _, d := range dies {
		if seen[fold(d.Set)] {
			continue
		}
		seen[fold(d.Set)] = true
		nest := Nest(dies, d.Set)
		for i := 1; i < len(nest); i++ {
			outer, inner := nest[i-1], nest[i]
			if inner.W < outer.W && inner.H < outer.H && inner.Shape == outer.Shape {
				continue
			}
			probs.Add(problem.Problem{Rule: "table-nest", Severity: problem.Warning, Where: inner.Where,
				What:  problem.Quote(inner.Name) + " does not nest in " + problem.Quote(outer.Name) + " of the set " + problem.Quote(inner.Set),
				Needs: "one shape in a set, and each narrower and lower than the next larger one",
				Notes: []problem.Note{{Where: outer.Where, What: "the larger one is here"}}})
			break
		}
	}
	return probs
}
