// Package resize brings a card to another size, on the marks of a ruler, so that it still lies flat.
//
// It turns a recipe, a target size and a ruler into a new recipe whose every cut and score lies on a mark, the nearest to
// the old card brought to that size, and says what changed and which condition forced it; or, where nothing fits, the
// smallest set of conditions that exclude each other.
//
// Words: a measure is a number of whole marks: the gap between two neighbouring coordinates of a piece (on a strip the
// width of a panel, and the height of the strip), or a shift of a glue line.
//
//	coordinates   0      42   78      120         every cut, score, slit and window of a piece lies on these
//	measures         42    36    42
//
// Slanted scores keep their directions, so that a fold that lies flat goes on doing so: their gaps are tied to each other.
//
// Conditions: the closed card, folded as the old one, closes (equations, see package flat); it stays within the target;
// every measure is a mark at least; what a keep line says; glued panels of equal extent stay so; what covered the panel
// glued on it still does; panels of one name, and panels of equal width in one piece, stay equal. The last of these, equal
// widths without a common name, are given up, and reported, only where nothing fits with them.
//
// Cost, in marks²: over all measures of every distinct piece the square of how far it is from the old one scaled. What
// lies across in the closed card scales by the ratio of the widths, what lies upright by that of the heights; measures that
// a keep line fixes count nothing. Among equal costs the card nearest to the target size is taken, then the one whose
// scores move least.
//
// Method: the equations are solved in whole numbers (Hermite normal form), which leaves a few free whole numbers; over these the
// convex quadratic cost is minimised by branch and bound with a dual active-set method (see quadratic), to the proven
// optimum. Status is flat.StoppedEarly where a limit ended that proof.
//
// Slanted scores whose directions no marks keep are scaled and their ends put on the nearest marks; the result says so, and
// by how much the card then misses if it does not lie flat.
//
// It does not judge springs or what is open: prove the result.
package resize
