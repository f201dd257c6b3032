// Package recipe turns the text of a recipe into a card and back.
//
//	text ──[Parse]──> [Recipe] ──[Recipe.Card]──> card
//	  ^                  │  ^                       │
//	  └─[Recipe.Format]──┘  └──────[FromCard]───────┘
//
// A recipe is UTF-8 text, one statement a line, each beginning with a word of its own: card, units, marks, fits, stock,
// piece, glue, opens, keep, mat, topper; below a piece and belonging to it: size, outline, score, slit, window, panels,
// panel, fold, rest, crease, grain, closed folds, wedge. A # at the beginning of a line or behind a space starts a
// comment. A [Recipe] keeps every line in its order, comments and blank lines too; the Set methods change measurements
// and nothing else.
//
// Words: a bare number has no unit and is in the unit of the units line, mm where there is none. The one form of a recipe
// is what Format writes; reading it gives the same card, and writing that the same bytes.
//
// Exact: all lengths. Measured values (grammage, stiffness, angles) are the float64 nearest to the decimal that was
// written. A number that is no whole count of nanometres is refused with the two beside it.
//
// It opens no file, and judges no geometry; [Parse] adds what [card.Check] finds.
//
// # Rules
//
// The ids of what reading reports, besides those of package card. All are errors but comma-spacing and
// no-units, which are warnings.
//
//	comma-spacing      a comma without a space, where others in the line have one
//	control-character  a character that cannot be seen
//	decimal-comma      a comma stands for a decimal point
//	encoding           bytes that are not UTF-8
//	extra-words        something stands behind the end of a line
//	file-size          the text is longer than a recipe can be
//	grammage-unit      a grammage in another unit than gsm
//	keep-factor        the factor of a term is 0 or too fine
//	keep-form          a term of a relation is not a number times a measure, or a length
//	line-form          something else belongs where a word stands
//	more-problems      only the first problems are shown
//	name-form          a word cannot be a name
//	no-units           a measurement has no unit, and no units line says which one is meant
//	not-text           the file is a picture, an archive or the like
//	not-exact          a length that whole nanometres cannot hold
//	number             something is not the number that belongs there
//	open-quote         a quote without its end
//	outside-piece      a line of a piece stands below no piece
//	ref-form           a word cannot name a piece, panel, score or measure
//	said-twice         a line or an option says again what was said
//	stray-character    a character that means nothing
//	title-first        the card line is not the first
//	too-long           a measurement of more than 2000 mm
//	too-many           more lines, or a longer list, than any card has
//	unit               a word that is not a unit
//	units-late         the units line comes after a measurement
//	unknown-line       no line begins with this word
package recipe
