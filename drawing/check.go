package drawing

import (
	"fmt"
	"math"

	"foldwright/problem"
)

// Limits of a drawing, in mm: a side at most 20 m, coordinates at most 100 m. They keep every device within its numbers.
const (
	maxSide  = 20_000
	maxPlace = 100_000
)

// NotDrawableError says why a device refuses a drawing. It is a mistake of the program, not of a maker.
type NotDrawableError struct {
	Name     string
	Problems problem.List
}

// Error lists the problems.
func (e *NotDrawableError) Error() string {
	text := fmt.Sprintf("the drawing %q cannot be drawn", e.Name)
	for _, p := range e.Problems {
		text += "; " + p.What
	}
	return text
}

// Drawable returns a *NotDrawableError if Check finds an error in d, else nil. Devices call it first.
func Drawable(d *Drawing) error {
	if d == nil {
		return &NotDrawableError{Problems: problem.List{{Rule: "drawing-missing", What: "there is no drawing"}}}
	}
	if l := Check(d); l.HasErrors() {
		return &NotDrawableError{Name: d.Name, Problems: l}
	}
	return nil
}

// Check looks for what a device cannot draw: a missing size, coordinates that are no numbers, a shape without points or
// role. It warns of characters that print as □.
func Check(d *Drawing) problem.List {
	c := checker{seen: map[string]bool{}}
	if !(d.W > 0 && d.W <= maxSide && d.H > 0 && d.H <= maxSide) {
		c.add("drawing-size", "the size %g x %g mm is not above 0 and at most %d", d.W, d.H, maxSide)
	}
	c.words("title", d.Title)
	for _, g := range d.Groups {
		if !plainWord(g.Name) || c.seen[g.Name] {
			c.add("drawing-group", "the group name %q is not a plain word used once", g.Name)
		}
		c.seen[g.Name] = true
		for i, s := range g.Shapes {
			c.where = fmt.Sprintf("group %s, shape %d", g.Name, i+1)
			c.shape(s)
		}
	}
	return c.found
}

type checker struct {
	seen  map[string]bool
	where string
	found problem.List
}

func (c *checker) add(rule, format string, args ...any) {
	what := fmt.Sprintf(format, args...)
	if c.where != "" {
		what = c.where + ": " + what
	}
	c.found.Add(problem.Problem{Rule: rule, What: what})
}

func (c *checker) shape(s Shape) {
	switch s := s.(type) {
	case Polyline:
		_, ok := s.Line.Pen()
		c.role(ok, s.Line)
		c.points(s.Points, 2)
	case Polygon:
		c.area(s.Fill, s.Line)
		for _, ring := range s.Rings() {
			c.points(ring, 3)
		}
	case Ellipse:
		c.area(s.Fill, s.Line)
		c.points([]Point{s.Centre, {s.RX, s.RY}}, 2)
		if !(s.RX > 0 && s.RY > 0) {
			c.add("drawing-shape", "the half axes %g and %g mm are not above 0", s.RX, s.RY)
		}
	case Text:
		_, ok := s.Role.Ink()
		c.role(ok, s.Role)
		c.points([]Point{s.At, {s.Size, s.TurnDeg}}, 2)
		if !(s.Size > 0) {
			c.add("drawing-shape", "the text size %g mm is not above 0", s.Size)
		}
		c.words("text", s.Words)
	default:
		c.add("drawing-shape", "a shape is missing")
	}
}

func (c *checker) area(fill Style, line Role) {
	_, filled := fill.Colour()
	_, edged := line.Pen()
	c.role((filled || fill.Role == None) && (edged || line == None) && (filled || edged), fill.Role)
}

func (c *checker) role(ok bool, r Role) {
	if !ok {
		c.add("drawing-role", "the role %s draws nothing here", r)
	}
}

func (c *checker) points(points []Point, least int) {
	if len(points) < least {
		c.add("drawing-shape", "it has %d points and needs %d", len(points), least)
	}
	for _, p := range points {
		if !(math.Abs(p.X) <= maxPlace && math.Abs(p.Y) <= maxPlace) { // also catches NaN
			c.add("drawing-place", "the place (%g,%g) is not within %d mm", p.X, p.Y, maxPlace)
			return
		}
	}
}

func (c *checker) words(what, words string) {
	if lost := unprintable(words); lost != "" {
		c.found.Add(problem.Problem{
			Rule: "drawing-letters", Severity: problem.Warning,
			What: fmt.Sprintf("the %s %q has characters that PDF and PNG print as □: %s", what, words, lost),
		})
	}
}

// plainWord says whether a name is a letter a to z followed by letters, digits and hyphens.
func plainWord(name string) bool {
	for i, r := range name {
		letter := r >= 'a' && r <= 'z'
		if !letter && (i == 0 || !(r == '-' || r >= '0' && r <= '9')) {
			return false
		}
	}
	return name != ""
}
