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
package card
