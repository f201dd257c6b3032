// Package pattern turns a piece into its panels and hinges.
//
// The outline, windows, slits and scores of a piece cut the plane up ([plane.Subdivide]); the faces that are card are the
// panels, and a stretch of score between two panels is a hinge. A strip with parallel scores is the easy case of the
// same code: nothing here asks whether a score is level.
//
//	outline ─┬──────┬────────┬───┐
//	         │panel │ panel  │tab│     3 panels, 2 hinges
//	         └──────┴────────┴───┘
//	              score 1  score 2
//
// Words: a hinge joins the panels Left and Right of its line From→To, seen on the outer face; its fold angle is positive
// for a mountain. Collinear stretches of one score, or of several, between the same two panels are one hinge.
//
// Exact: corners and scores that lie on whole nanometres. Rounded once: the crossing of two slanted lines, and ovals,
// which count as polygons of 64 corners wherever panels are computed.
//
// It does not judge whether anything folds; see packages flat and fold. The rules that it reports:
// outline-crosses, slit-outside, slits-cross, score-loose-end, score-on-edge, score-twice, piece-falls-apart,
// window-outside, panel-point, panel-named-twice, panel-count, panel-names-need-points, wedge-place,
// wedge-size, too-many-panels, piece-loose, glue-unknown, glue-window,
// glue-apart.
package pattern
