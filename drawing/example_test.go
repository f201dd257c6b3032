package drawing_test

import (
	"fmt"

	"foldwright/drawing"
	"foldwright/length"
)

// A strip with two scores, dimensioned by ruler marks, with its legend.
func Example() {
	stops := []length.Length{0, 42 * length.Millimetre, 78 * length.Millimetre, 90 * length.Millimetre}
	d := drawing.New("strip-flat", "strip, flat")
	d.Add(drawing.GroupCut, drawing.Rect(drawing.Style{}, drawing.Cut, drawing.Point{}, drawing.Point{X: 90, Y: 40}))
	d.Add(drawing.GroupScore,
		drawing.Line(drawing.ScoreMountain, drawing.Point{X: 42}, drawing.Point{X: 42, Y: 40}),
		drawing.Line(drawing.ScoreValley, drawing.Point{X: 78}, drawing.Point{X: 78, Y: 40}))
	marks := drawing.Chain{
		Side: drawing.Below, Marks: drawing.RulerMarks(stops, length.MM), MarksNote: drawing.RulerNote(drawing.Below, length.MM),
	}.Lay()
	d.Add(drawing.GroupDimension, marks.Shapes...)
	legend := drawing.Legend(drawing.Point{Y: -marks.Depth - 4}, d.Entries(nil), 90)
	d.Add(drawing.GroupLegend, legend.Shapes...)
	d.Fit(5)

	for _, e := range d.Entries(nil) {
		fmt.Println(e.Words)
	}
	fmt.Println(drawing.Clashes(d, drawing.Dimension))
	fmt.Println(drawing.Measure(42*length.Millimetre, length.MM))
	// Output:
	// cut
	// mountain: folds away from you
	// valley: folds towards you
	// []
	// {42 ≈ 1⅝ in}
}
