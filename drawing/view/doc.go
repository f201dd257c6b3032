// Package view draws a card as makers need to see it: flat patterns, cutting templates, the closed card, its thickness,
// and the open card in space. It turns what packages pattern, flat and fold worked out into values of package drawing.
//
//	Pattern            one piece with ruler marks, widths, names, glue areas      true to size
//	Template           one piece with nothing but cut, score and mark             true to size
//	OrnamentTemplates  the shapes of its mats and toppers                         true to size
//	Closed             the closed card from its front or its back                 true to size
//	Thickness          how thick the closed card is, part by part                 true to size
//	Open               one pose of the card in space                              true across the line of sight
//	Sequence           some poses from closed to open, side by side               small
//
// # Words and axes
//
// Patterns and templates lie as a piece lies in its recipe: outer face towards you, x across, y up. A glue area is where
// another panel is glued on; its hatching is close where it is on the face that is seen, and wide, with a dotted edge,
// where it is behind. The closed card lies as in package flat; from the back, left and right change places. In space x is
// to the right, y up and z towards you:
//
//	y (up)
//	|    . eye: above, and to the right
//	|  /
//	+------ x (right)
//	 \
//	  z (towards you)
//
// A card that opens by itself stands with its front towards you. One that opens by pulling is held half way between the two
// panels that are drawn apart, so that doors open alike. One that opens at an upright score by less than 135 degrees stands
// like an open book, inside towards you. Any other lies on the table like an open book and its left page turns (see [Open]).
// Sizes in words are those of fold.Opening all the same: measured with the front of the card upright and towards you.
//
// # Method
//
// What shows of the closed card is found by cutting it up along every edge and joining the parts with the same layer on
// top. Open views are sorted by a tree of planes (newTree). Sheets that lie in one plane lie as they came down on each other:
// the one that was nearer where they meet, in the last pose before in which they were apart, still is; those that were never
// apart keep the layer order of the closed card (order). Sheets are then painted whole wherever an order can be found for
// them (painted), so that neither seams nor false edges show.
//
// # Exact and approximate
//
// Lines of patterns and templates are exact until a device rounds them. What is placed by slanted glue or folds is good to
// a micrometre. Open views are floats of poses: what is less than a micrometre apart counts as lying in one plane, and flaps
// of one plane that lie over each other round a ring are not told apart. Sheets have no thickness there, toppers neither. A
// mat on a panel that is not a rectangle is drawn as package flat lays it.
//
// # Not here
//
// No perspective, no pages, no text beside a drawing's own, no way to tell what a spring does to the open shape.
package view
