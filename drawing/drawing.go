package drawing

import (
	"math"
	"slices"
)

// The groups that have a fixed place in the order of painting, first painted first. GroupCut, GroupScore and GroupMark
// are the true-to-size template: lines to cut, lines to score, marks to transfer.
const (
	GroupPanel     = "panel"
	GroupGlue      = "glue"
	GroupOutline   = "outline"
	GroupScore     = "score"
	GroupCut       = "cut"
	GroupMark      = "mark"
	GroupDimension = "dimension"
	GroupText      = "text"
	GroupLegend    = "legend"
)

// GroupOrder returns the order in which the known groups are painted.
func GroupOrder() []string {
	return []string{
		GroupPanel, GroupGlue, GroupOutline, GroupScore, GroupCut, GroupMark, GroupDimension, GroupText, GroupLegend,
	}
}

// Group is a named layer of a drawing. Its shapes are painted in their order.
type Group struct {
	// Name is a plain word: a letter a to z, then letters, digits or hyphens. It is the id of the group in an SVG.
	Name   string
	Shapes []Shape
}

// Drawing is a named drawing. The zero value is empty; a drawing is complete once it has a size ([Drawing.Fit]).
type Drawing struct {
	// Name is a plain word for file names, such as "wall-flat".
	Name string
	// Title is what people read: "wall, flat, outer face towards you".
	Title string
	// Desc says in a sentence or two what is to be seen, for those who cannot see it; may be empty.
	Desc string
	// W and H are the size in mm.
	W, H   float64
	Groups []Group
}

// New returns a drawing without shapes and without a size.
func New(name, title string) *Drawing { return &Drawing{Name: name, Title: title} }

// Add appends shapes to the group, which is made where it is missing: known groups in the order of [GroupOrder], others
// behind them in the order in which they are first named.
func (d *Drawing) Add(group string, shapes ...Shape) {
	i := slices.IndexFunc(d.Groups, func(g Group) bool { return g.Name == group })
	if i < 0 {
		i = d.placeOf(group)
		d.Groups = slices.Insert(d.Groups, i, Group{Name: group})
	}
	d.Groups[i].Shapes = append(d.Groups[i].Shapes, shapes...)
}

// placeOf returns where in d.Groups a new group belongs.
func (d *Drawing) placeOf(group string) int {
	order := GroupOrder()
	rank := slices.Index(order, group)
	if rank < 0 {
		return len(d.Groups)
	}
	for i, g := range d.Groups {
		if r := slices.Index(order, g.Name); r < 0 || r > rank {
			return i
		}
	}
	return len(d.Groups)
}

// Group returns the shapes of the named group; none if the drawing has no such group.
func (d *Drawing) Group(name string) []Shape {
	for _, g := range d.Groups {
		if g.Name == name {
			return g.Shapes
		}
	}
	return nil
}

// Shapes returns all shapes in the order of painting.
func (d *Drawing) Shapes() []Shape {
	var all []Shape
	for _, g := range d.Groups {
		all = append(all, g.Shapes...)
	}
	return all
}

// Bounds returns the smallest box around all shapes, in mm; text is counted with [TextRoom], lines without their width.
func (d *Drawing) Bounds() Box { return BoundsOf(d.Shapes()) }

// Move moves every shape by mm; the size stays.
func (d *Drawing) Move(by Point) {
	for i := range d.Groups {
		d.Groups[i].Shapes = Moved(d.Groups[i].Shapes, by)
	}
}

// Fit moves the shapes and sets the size so that they lie inside with at least margin mm on every side. Both the move
// and the size are whole millimetres, so that a corner of a piece drawn on a whole millimetre stays on one.
func (d *Drawing) Fit(margin float64) {
	b := d.Bounds().Grown(margin)
	low := Point{tidyFloor(b.Min.X), tidyFloor(b.Min.Y)}
	d.Move(Point{}.Sub(low))
	d.W = max(1, -tidyFloor(low.X-b.Max.X))
	d.H = max(1, -tidyFloor(low.Y-b.Max.Y))
}

// tidyFloor rounds down to a whole number, except that float noise (1e-6 mm, one nanometre) does not cost a millimetre.
func tidyFloor(v float64) float64 { return math.Floor(v + 1e-6) }

// Only returns a drawing with the same names and size that holds only these groups.
func (d *Drawing) Only(groups ...string) *Drawing {
	c := *d
	c.Groups = nil
	for _, g := range d.Groups {
		if slices.Contains(groups, g.Name) {
			c.Groups = append(c.Groups, g)
		}
	}
	return &c
}

// templateMargin keeps the width of a cut line inside the drawing.
const templateMargin = 1

// Template returns the true-to-size template of the drawing: only the groups cut, score and mark, with 1 mm around.
func (d *Drawing) Template() *Drawing {
	t := d.Only(GroupCut, GroupScore, GroupMark)
	t.Groups = slices.Clone(t.Groups) // Fit moves the shapes of the copy, not those of d
	t.Fit(templateMargin)
	return t
}
