// Package card is the model: one card as plain values, each with the place in the recipe where it was said.
//
// A [Card] is made of pieces cut from stock; a [Piece] has an outline, scores, slits and windows; glue joins panels of
// pieces. [Check] resolves every name and range that can be judged without geometry; what needs the panels themselves
// (crossing slits, a score that ends in mid-panel, a point in no panel) is judged by package pattern.
//
// Axes and faces: a piece lies with its outer face towards you, x across to the right, y up, origin at the lower left
// corner. A mountain bends away from you, a valley towards you.
//
// Scores are numbered from 1 in the order in which they are written. Identical pieces ("2 of") are told apart by a copy
// number from 1; in text spring#1.tab is the panel tab of the first spring.
//
// Exact: every comparison of lengths. Not judged here: whether a row of slanted scores makes a strip, whether a point
// lies in a panel, whether anything lies flat.
//
// # Rules
//
// The ids of what Check reports. All are errors but those marked as warnings.
//
//	board                    a scored stock is board, whose folds take room (warning)
//	circle-size              a circle is not as wide as high
//	copy-needed              a piece has several copies and none is named
//	copy-range               a copy is named that the piece does not have
//	duplicate-name           two stocks, or two pieces, have one name
//	edge-range               the edge of a mat is below 0
//	fold-angle               a fold angle is not from 0 to 180 deg
//	fold-count               the fold line does not name as many senses as there are scores
//	glue-to-itself           a panel is glued to itself
//	glue-twice               two panels are glued together twice
//	keep-empty               a relation holds no measure of the card
//	keep-factor              a measure is taken 0 times
//	name-form                a name is no name
//	no-length                a score or slit ends where it starts
//	no-opens                 nothing says how the card opens (warning)
//	no-pieces                the card has no piece
//	no-size                  a piece has neither size nor outline
//	no-title                 the card has no title
//	not-positive             a measurement is not above 0
//	off-marks                cuts or scores do not lie on the marks of the ruler (warning)
//	opens-range              the card opens to an angle that is not above 0 and up to 180 deg
//	outline-corners          an outline encloses nothing
//	outline-origin           an outline does not touch x = 0 and y = 0
//	outline-size             the size of a piece is not that of its outline
//	panel-ambiguous          several panels have the name where one is needed
//	panel-count              the panels line does not name as many panels as the scores make
//	panel-names-need-points  a list cannot name panels that do not lie in a row
//	panel-point              the point that names a panel is not inside the piece
//	polygon-corners          a polygon encloses nothing
//	pull-itself              a piece is pulled from itself
//	reserved-name            a name has a meaning of its own in keep lines
//	said-twice               a list says something twice
//	score-number             there is no score of this number
//	score-order              the scores of a line do not rise
//	score-outside            a score is not inside the piece
//	score-repeated           two scores lie on each other
//	slit-outside             a slit reaches outside the piece
//	stiffness-range          a stiffness is not above 0
//	stock-range              grammage or caliper are not those of paper or card
//	tab-loose                a panel that is called a tab is glued to nothing (warning)
//	text-form                a title or label is too long or cannot be printed
//	too-long                 a measurement is longer than any card
//	too-many                 there are more pieces, scores or glue lines than in any card
//	turned-range             a panel is turned by less than 0 or by 360 deg and more
//	unknown-panel            a panel is named that the piece does not have
//	unknown-piece            a piece is named that the card does not have
//	unknown-stock            a stock is named that the card does not have
//	wedge-place              a wedge is taken off a panel without outer corners
//	wedge-size               a wedge leaves nothing of its tab
//	window-outside           a window reaches outside the piece
package card
