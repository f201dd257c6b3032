// Package flat folds a card shut: it proves that the closed card lies flat, or says what is in the way.
//
// In the closed card every hinge is either straight (0) or folded shut (180), so a choice for every hinge puts every
// panel into the plane by mirrors on its folds. A choice closes if every glue joint, and every ring of panels round a slit
// or a corner, meets itself again. For level and upright scores that is a set of linear equations in the measurements with
// coefficients 0, ±1 and ±2, and it is decided in whole nanometres ([plane.Motion] says why no rounding occurs).
//
//	wall:  left | front | right | back-right | back | back-left | tab
//	closed with scores 3 and 6 folded:
//
//	        0              120
//	        ├─left┬front┬right┐  outer face up
//	        └tab ┬back ┬──────┘  outer face down
//
// Words: a panel is face up if its outer face shows from the front of the closed card. The front is that of the first
// piece's panel called front, or of its first panel; that panel is face up, and x and y run as in its pattern. A gap is how far a glued panel lands from where its glue
// line wants it, in the directions of the panel that it is glued on.
//
// Which scores are folded is found by search, loop by loop: the choices of each copy that close its own loops, grouped by
// where they put the panels that other pieces are glued to, then the groups that fit together. Of the choices that close,
// the one with the smallest outline is taken; then the one whose pieces fold up smallest; then fewest folds; then the one
// that folds at the score of a glued tab. It must also have a layer order ([Overlay]).
//
// Exact: level, upright and diagonal scores. Within 10 nm: other slanted scores, whose ends are themselves on whole
// nanometres and swing what is folded over by a few times that.
// Assumed: card without thickness. The thickness map adds calipers and knows nothing of springback.
//
// Sources: single vertices, Kawasaki and Justin, Maekawa (Hull 1994, Congressus Numerantium 100:215-224); layer conditions at folds as in
// Arkin, Bender, Demaine, Demaine, Mitchell, Sethia, Skiena (2004), Comput. Geom. 29:23-46, here for panels of any shape.
package flat
