// Package drawing is the device-neutral drawing: named groups of shapes in millimetres, styled by what they mean and
// not by how they look. Packages drawing/svg, drawing/pdf and drawing/png turn one and the same [Drawing] into files.
//
// # Words
//
// A [Drawing] has a size and [Group]s; a group has shapes: [Polyline], [Polygon] (with holes), [Ellipse] and [Text].
// A shape names a [Role] (a cut, a mountain score, the outer face of a stock …); the palette in this package turns the
// role into ink, width and dashes, the same for every device. The groups cut, score and mark hold the true-to-size
// template and nothing else; a template is a drawing with only these ([Drawing.Template]).
//
// # Axes
//
// Millimetres, x to the right, y up, origin at the lower left corner, as in package plane; a device whose y runs down
// turns the drawing over once. Turning is counter-clockwise, in degrees.
//
//	y
//	^
//	|   +---------+ (W,H)
//	|   |         |
//	|   +---------+
//	+------------------> x
//
// # Lines
//
// Mountain is a dash-dot chain line, valley a row of dashes: the usage of Yoshizawa and Randlett, for which no standard
// exists, so every drawing carries a legend ([Legend]). Cuts and outlines are continuous and wide, scores narrow, wide : narrow =
// 2 : 1 (ISO 128); a score whose sense is not said is continuous and narrow, as ISO 128-2 draws bending lines on blanks.
//
// # Exact and approximate
//
// Coordinates are float64, made from exact lengths at the last moment and printed by devices through [Number]: rounded
// once, by way of whole nanometres, to 0.001 mm, so that the same input gives the same bytes on every machine. Text is
// measured with the advances of the Go fonts (advances.csv), which the PDF and PNG devices draw with; an SVG is shown
// in the reader's own sans-serif, for which [TextRoom] keeps room in reserve.
//
// # Not here
//
// No view of a card (flat, closed, open), no page layout, no perspective, no curves other than ellipses.
package drawing
