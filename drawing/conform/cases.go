package conform

import (
	"fmt"

	"foldwright/drawing"
)

// Cases returns everything that a device is judged by: each role, each kind of shape, each way to set a text, the order
// of painting, and a crowd of shapes of which none may be missing.
func Cases() []Case {
	var all []Case
	all = append(all, lineCases()...)
	all = append(all, fillCases()...)
	all = append(all, shapeCases()...)
	all = append(all, textCases()...)
	return append(all, corners(), order(), crowd())
}

func pt(x, y float64) drawing.Point { return drawing.Point{X: x, Y: y} }

// page returns an empty drawing of w x h mm.
func page(name string, w, h float64) *drawing.Drawing {
	d := drawing.New("case", name)
	d.W, d.H = w, h
	return d
}

// lineCases draws one level and one slanting line of every role: the middle of each dash is inked, the middle of each
// gap and what lies beside and beyond the ends is bare.
func lineCases() []Case {
	var out []Case
	for _, r := range drawing.Roles() {
		pen, ok := r.Pen()
		if !ok {
			continue
		}
		for _, to := range []drawing.Point{pt(35.05, 10.05), pt(29.05, 28.05)} {
			d := page("line "+r.String(), 40, 30)
			line := drawing.Line(r, pt(5.05, 10.05), to)
			d.Add(drawing.GroupScore, line)
			c := Case{Name: fmt.Sprintf("line %s to %g", r, to.Y), Drawing: d}
			probeLine(&c, line, pen)
			out = append(out, c)
		}
	}
	return out
}

func probeLine(c *Case, line drawing.Polyline, pen drawing.Pen) {
	a, b := line.Points[0], line.Points[1]
	long := b.Sub(a).Len()
	u := b.Sub(a).Times(1 / long)
	side := drawing.Point{X: -u.Y, Y: u.X}
	beyond := 0.4
	if u.Y == 0 {
		beyond = 0.1 // the very next pixel: lines end square at their ends
	}
	c.Bare = append(c.Bare, a.Sub(u.Times(beyond)), b.Add(u.Times(beyond)))
	dash := line.Dash()
	if len(dash) == 0 {
		dash = []float64{long / 4, 0}
	}
	for at, i := 0.0, 0; at < long-1e-6; i++ {
		mid := a.Add(u.Times(at + dash[i%len(dash)]/2))
		switch {
		case i%2 == 0:
			c.Ink = append(c.Ink, Probe{mid, pen.Ink})
			c.Bare = append(c.Bare, mid.Add(side.Times(pen.Width+0.2)), mid.Sub(side.Times(pen.Width+0.2)))
		case dash[i%len(dash)] > 0:
			c.Bare = append(c.Bare, mid)
		}
		at += dash[i%len(dash)]
	}
}

// fillCases fills a square on a dark one with every fill, so that white shows too.
func fillCases() []Case {
	styles := []drawing.Style{}
	for _, r := range drawing.Roles() {
		if _, ok := r.Fill().Colour(); ok {
			styles = append(styles, r.Fill())
		}
	}
	for n := range drawing.Tints {
		styles = append(styles, drawing.Outer(n).Shaded(0.5), drawing.Inner(n).Shaded(1))
		if n > 0 { // tint 0 is what a role without a tint has
			styles = append(styles, drawing.Outer(n), drawing.Inner(n))
		}
	}
	var out []Case
	for _, s := range styles {
		d := page("fill", 20, 20)
		d.Add(drawing.GroupPanel,
			drawing.Rect(drawing.Solid.Fill(), drawing.None, pt(2, 2), pt(18, 18)),
			drawing.Rect(s, drawing.None, pt(5, 5), pt(15, 15)))
		c := Case{Name: fmt.Sprintf("fill %s tint %d shade %g", s.Role, s.Tint, s.Shade), Drawing: d}
		colour, _ := s.Colour()
		dark, _ := drawing.Solid.Fill().Colour()
		for _, q := range []drawing.Point{pt(5.25, 5.25), pt(14.75, 14.75), pt(5.25, 14.75), pt(10.05, 10.05)} {
			c.Ink = append(c.Ink, Probe{q, colour})
		}
		c.Ink = append(c.Ink, Probe{pt(3.55, 10.05), dark}, Probe{pt(10.05, 16.55), dark})
		c.Bare = []drawing.Point{pt(1.75, 10.05), pt(18.25, 10.05), pt(10.05, 1.75), pt(10.05, 18.25)}
		out = append(out, c)
	}
	return out
}

func shapeCases() []Case {
	ink := func(r drawing.Role) drawing.Colour {
		pen, _ := r.Pen()
		return pen.Ink
	}
	face, _ := drawing.Outer(0).Colour()
	dark, _ := drawing.Solid.Fill().Colour()

	holed := page("holes", 40, 30)
	holed.Add(drawing.GroupPanel, drawing.Polygon{
		Fill: drawing.Solid.Fill(), Line: drawing.None,
		Outer: []drawing.Point{pt(5, 5), pt(35, 5), pt(35, 25), pt(5, 25)},
		Holes: [][]drawing.Point{{pt(8, 8), pt(18, 8), pt(18, 22), pt(8, 22)}, {pt(30, 8), pt(22, 8), pt(22, 22), pt(30, 22)}},
	})

	edged := page("edged triangle", 40, 30)
	edged.Add(drawing.GroupPanel, drawing.Polygon{
		Fill: drawing.Outer(0), Line: drawing.Cut, Outer: []drawing.Point{pt(5.05, 5.05), pt(35.05, 5.05), pt(5.05, 25.05)},
	})

	bent := page("bent line", 40, 30)
	bent.Add(drawing.GroupOutline, drawing.Polyline{
		Line: drawing.Outline, Points: []drawing.Point{pt(5.05, 5.05), pt(35.05, 5.05), pt(35.05, 25.05), pt(5.05, 25.05)},
	})

	oval := page("oval", 40, 30)
	oval.Add(drawing.GroupPanel, drawing.Ellipse{Fill: drawing.Outer(0), Line: drawing.Cut, Centre: pt(20.05, 15.05), RX: 15, RY: 8})

	ring := page("empty circle", 40, 30)
	ring.Add(drawing.GroupCut, drawing.Circle(drawing.Style{}, drawing.Cut, pt(20.05, 15.05), 10))

	return []Case{
		{
			Name: "holes", Drawing: holed,
			Ink:  []Probe{{pt(6.5, 15.05), dark}, {pt(20.05, 15.05), dark}, {pt(32.5, 15.05), dark}, {pt(13.05, 6.5), dark}},
			Bare: []drawing.Point{pt(13.05, 15.05), pt(26.05, 15.05), pt(8.3, 8.3), pt(29.7, 21.7), pt(4.7, 15.05)},
		},
		{
			Name: "edged triangle", Drawing: edged,
			Ink: []Probe{
				{pt(20.05, 5.05), ink(drawing.Cut)}, {pt(5.05, 15.05), ink(drawing.Cut)}, {pt(20.05, 15.05), ink(drawing.Cut)},
				{pt(12.05, 11.05), face},
			},
			Bare: []drawing.Point{pt(25.05, 15.05), pt(2.05, 15.05), pt(20.05, 4.05)},
		},
		{
			Name: "bent line", Drawing: bent,
			Ink: []Probe{
				{pt(20.05, 5.05), ink(drawing.Outline)}, {pt(35.05, 15.05), ink(drawing.Outline)},
				{pt(20.05, 25.05), ink(drawing.Outline)}, {pt(35.05, 5.05), ink(drawing.Outline)},
			},
			Bare: []drawing.Point{pt(5.05, 15.05), pt(20.05, 15.05)},
		},
		{
			Name: "oval", Drawing: oval,
			Ink: []Probe{
				{pt(20.05, 15.05), face}, {pt(5.55, 15.05), face}, {pt(34.55, 15.05), face}, {pt(20.05, 22.55), face},
				{pt(5.05, 15.05), ink(drawing.Cut)}, {pt(35.05, 15.05), ink(drawing.Cut)},
				{pt(20.05, 23.05), ink(drawing.Cut)}, {pt(20.05, 7.05), ink(drawing.Cut)},
				{pt(20.05+9, 15.05+6.4), ink(drawing.Cut)}, // (0.6, 0.8) of the half axes
			},
			Bare: []drawing.Point{pt(4.55, 15.05), pt(35.55, 15.05), pt(20.05, 23.55), pt(32.05, 21.05)},
		},
		{
			Name: "empty circle", Drawing: ring,
			Ink:  []Probe{{pt(30.05, 15.05), ink(drawing.Cut)}, {pt(20.05+6, 15.05-8), ink(drawing.Cut)}},
			Bare: []drawing.Point{pt(20.05, 15.05), pt(29.5, 15.05), pt(30.6, 15.05)},
		},
	}
}

// textCases sets words with every anchor, level and some turns: they fill their own box and nothing else. The box is
// that of [drawing.Text.Bounds], which keeps room for other sans-serif fonts.
func textCases() []Case {
	var out []Case
	add := func(a drawing.Anchor, l drawing.Level, turn float64, bold bool) {
		t := drawing.Text{
			Role: drawing.TextPlain, Words: "flap", Size: 6, At: pt(25, 25), Anchor: a, Level: l, TurnDeg: turn, Bold: bold,
		}
		out = append(out, textCase(fmt.Sprintf("text anchor %d level %d turned %g bold %v", a, l, turn, bold), t))
	}
	for _, a := range []drawing.Anchor{drawing.Start, drawing.Middle, drawing.End} {
		for _, l := range []drawing.Level{drawing.Baseline, drawing.Centred, drawing.Top, drawing.Bottom} {
			add(a, l, 0, false)
		}
	}
	for _, turn := range []float64{90, -90, 180, 30} {
		add(drawing.Start, drawing.Top, turn, false)
		add(drawing.Middle, drawing.Centred, turn, true)
		add(drawing.End, drawing.Bottom, turn, true)
	}
	for _, words := range []string{
		"10½ ¼ ¾", "⅛ ⅜ ⅝ ⅞", "¹³⁄₁₆", "≈ 42 × 3", "Möwe & <Turm>", "≈ 9¹⁵⁄₁₆ in", "171.45 mm", "fold from the left",
	} {
		for _, bold := range []bool{false, true} {
			t := drawing.Text{Role: drawing.TextPlain, Bold: bold, Words: words, Size: 5, At: pt(1, 25)}
			out = append(out, textCase(fmt.Sprintf("text %s bold %v", words, bold), t))
		}
	}
	for _, r := range []drawing.Role{drawing.TextQuiet, drawing.TextTrouble} {
		t := drawing.Text{Role: r, Words: "flap", Size: 6, At: pt(5, 25)}
		out = append(out, textCase("text "+r.String(), t))
	}
	return out
}

func textCase(name string, t drawing.Text) Case {
	d := page(name, 50, 50)
	d.Add(drawing.GroupText, t)
	box := t.Bounds().Grown(0.12 * t.Size) // f and l rise a little above the capitals in some fonts
	return Case{Name: name, Drawing: d, Filled: []Area{{box, 0.03}}}
}

// corners has a spot in each corner but the lower left one: y up, x to the right, no scaling.
func corners() Case {
	d := page("corners", 61.3, 33.7)
	dark, _ := drawing.Solid.Fill().Colour()
	c := Case{Name: "corners", Drawing: d, Bare: []drawing.Point{pt(0.45, 0.45)}}
	for _, q := range []drawing.Point{pt(60.3, 0), pt(60.3, 32.7), pt(0, 32.7)} {
		d.Add(drawing.GroupMark, drawing.Rect(drawing.Solid.Fill(), drawing.None, q, q.Add(pt(1, 1))))
		c.Ink = append(c.Ink, Probe{q.Add(pt(0.25, 0.25)), dark}, Probe{q.Add(pt(0.75, 0.75)), dark})
	}
	return c
}

// order paints one group over another, and shapes of a group one over the other.
func order() Case {
	d := page("order", 30, 30)
	d.Add(drawing.GroupText, drawing.Rect(drawing.Outer(1), drawing.None, pt(10, 10), pt(20, 20)))
	d.Add(drawing.GroupPanel,
		drawing.Rect(drawing.Solid.Fill(), drawing.None, pt(5, 5), pt(25, 25)),
		drawing.Rect(drawing.Outer(0), drawing.None, pt(6, 6), pt(24, 24)))
	a, _ := drawing.Outer(0).Colour()
	b, _ := drawing.Outer(1).Colour()
	dark, _ := drawing.Solid.Fill().Colour()
	return Case{Name: "order", Drawing: d, Ink: []Probe{{pt(15.05, 15.05), b}, {pt(8.05, 15.05), a}, {pt(5.45, 15.05), dark}}}
}

// crowd has 400 shapes on a grid, each to be found.
func crowd() Case {
	d := page("crowd", 105, 105)
	dark, _ := drawing.Solid.Fill().Colour()
	edge, _ := drawing.Edge.Pen()
	c := Case{Name: "crowd", Drawing: d}
	groups := append(drawing.GroupOrder(), "stars")
	for i := range 400 {
		at := pt(5+float64(i%20)*5+0.05, 5+float64(i/20)*5+0.05)
		group := groups[i%len(groups)]
		switch i % 4 {
		case 0:
			d.Add(group, drawing.Line(drawing.Edge, at.Sub(pt(1, 0)), at.Add(pt(1, 0))))
			c.Ink = append(c.Ink, Probe{at, edge.Ink})
		case 1:
			d.Add(group, drawing.Circle(drawing.Solid.Fill(), drawing.None, at, 1))
			c.Ink = append(c.Ink, Probe{at, dark})
		case 2:
			d.Add(group, drawing.Rect(drawing.Solid.Fill(), drawing.None, at.Sub(pt(1, 1)), at.Add(pt(1, 1))))
			c.Ink = append(c.Ink, Probe{at, dark})
		case 3:
			d.Add(group, drawing.Polyline{Line: drawing.Edge, Points: []drawing.Point{at.Sub(pt(1, 0)), at, at.Add(pt(0, 1))}})
			c.Ink = append(c.Ink, Probe{at.Add(pt(0, 0.6)), edge.Ink})
		}
	}
	return c
}
