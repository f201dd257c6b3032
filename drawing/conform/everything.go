package conform

import "foldwright/drawing"

// Everything returns one drawing with each role and each kind of shape, for kept files.
func Everything() *drawing.Drawing {
	d := drawing.New("everything", "each role & shape <once>")
	d.Desc = "Every line, fill and text that a drawing may have."
	y := 5.0
	for _, r := range drawing.Roles() {
		if _, ok := r.Pen(); ok {
			d.Add(drawing.GroupOutline, drawing.Line(r, pt(5, y), pt(35, y)))
			d.Add(drawing.GroupText, drawing.Text{Role: drawing.TextPlain, Words: r.String(), Size: 3, At: pt(38, y), Level: drawing.Centred})
			y += 5
		}
	}
	y = 5
	for n := range drawing.Tints {
		d.Add(drawing.GroupPanel,
			drawing.Rect(drawing.Outer(n), drawing.Edge, pt(75, y), pt(90, y+4)),
			drawing.Rect(drawing.Inner(n), drawing.Edge, pt(90, y), pt(105, y+4)),
			drawing.Rect(drawing.Outer(n).Shaded(1), drawing.None, pt(105, y), pt(120, y+4)))
		y += 5
	}
	d.Add(drawing.GroupPanel,
		drawing.Polygon{
			Fill: drawing.TroubleArea.Fill(), Line: drawing.Trouble,
			Outer: []drawing.Point{pt(75, 40), pt(100, 40), pt(90, 55)},
			Holes: [][]drawing.Point{{pt(86, 43), pt(92, 43), pt(89, 48)}},
		},
		drawing.Ellipse{Fill: drawing.Paper.Fill(), Line: drawing.ScoreValley, Centre: pt(112, 47), RX: 9, RY: 6},
		drawing.Circle(drawing.Solid.Fill(), drawing.None, pt(112, 47), 1))
	d.Add(drawing.GroupGlue, drawing.HatchGlue(drawing.Glue, []drawing.Point{pt(75, 58), pt(95, 58), pt(95, 66), pt(75, 66)}, nil)...)
	d.Add(drawing.GroupDimension, drawing.DimensionLine(pt(100, 58), pt(120, 68), 5, drawing.Label{Main: "22.4", Sub: "≈ ⅞ in"})...)
	d.Add(drawing.GroupText,
		drawing.Text{Role: drawing.TextPlain, Bold: true, Words: "10½ × 3¹⁄₁₆ in", Size: 4, At: pt(72, 80), TurnDeg: 90, Anchor: drawing.End},
		drawing.Text{Role: drawing.TextQuiet, Words: "quiet", Size: 3, At: pt(82, 80), Anchor: drawing.Middle, Level: drawing.Top},
		drawing.Text{Role: drawing.TextTrouble, Words: "\"trouble\" & <more>", Size: 3, At: pt(75, 83)})
	d.Add("stars", drawing.Polyline{Line: drawing.Mark, Points: []drawing.Point{pt(75, 70), pt(80, 75), pt(85, 70), pt(90, 75)}})
	d.Fit(2)
	return d
}
