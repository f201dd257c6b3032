// Package cutlist turns a pasted cut list, as makers write one, into a card.
//
//	prose, bullets, table ──scan──> items ──phrases──> drafts of pieces ──resolve──> pieces with exact numbers
//	                                                                                     │
//	             recipe text, card <──write── proposal: names, senses, glue <──match── catalogue of cards
//
// It reads sizes ("10 1/2" by 3", 26,7 cm × 7,6 cm, ten and a half inches by three"), scores ("on the long side at 1 3/4,
// 3 1/4 and 5", "every 2 cm, but first at 3", "in half", "1/2" from each end"), how many to cut, of what card, for what; in sentences,
// numbered or bulleted lists, and tables with a header. What it cannot place is handed back as [Unplaced], never dropped:
// every number of the text is either in the card or in there.
//
// Words: an item is a word, a number with its unit, or a sign. A numeral is a number as it was typed; it becomes a length
// only when its unit is known. A group is the scores that one phrase gives. A draft is a piece before its numbers are
// worked out.
// An ornament is a mat or a topper; it becomes a line of the recipe where a panel is found that it fits. A room is such a panel.
//
// Axes: the first number of a size runs across, the second up, unless the text says which is the height. Scores "on the
// long side" stand at distances along it and so run across it: upright lines (score across) where the piece is wider than
// high, level ones (score up) where it is higher.
//
// Exact: all lengths, by [length.Parse]. Guessed, and told of as a warning: a unit that nobody said, the side of scores
// that fit both, a comma that may be a decimal mark or part of a list. A list with a slip in it is read as written; the
// match with a catalogue card then says which panels should have been equally wide.
//
// It does not judge whether the card folds, and it invents no measurement; only the paper, where none is said, gets a
// stand-in so that the recipe can be read, with a comment that says so.
//
// # Rules
//
// The ids of what reading reports, besides those of package card for the pieces that were read. Where no problem is an
// error, [Result.Recipe] is a text that recipe.Parse accepts.
//
//	comma-unclear      a comma may be a decimal mark or stand between two numbers (warning)
//	count-differs      a text says how many scores there are, and lists another number of them (warning)
//	count-unclear      of three numbers one says how many, and it is not clear which (warning)
//	direction-guessed  scores fit both sides of a piece, and none is said (warning)
//	encoding           bytes that are not UTF-8
//	file-size          the text is longer than a recipe can be
//	more-problems      only the first problems are shown
//	no-match           no card of the catalogue is like the pieces (warning)
//	no-pieces          the text holds no size of a piece
//	not-text           the file is a PDF, a picture or another file that is no plain text
//	not-exact          a length that whole nanometres cannot hold
//	number             a number that cannot be read as a length
//	ornament-place     no panel is found for a mat or a topper (warning)
//	panel-guessed      more panels have the size for a mat or topper than there are of those (warning)
//	score-missing      a piece of the catalogue card has one more or one fewer score (warning)
//	scores-guessed     numbers behind a size were taken as scores without a word that says so (warning)
//	score-without-piece  scores stand where there is no piece to score
//	side-unclear       scores are along a side that the piece does not have (warning)
//	spelling           a word is read as one for scores that is spelt with a slip (warning)
//	stock-stand-in     grammage or thickness of a stock is not said (warning)
//	stopped            the reading was cancelled
//	too-long           a measurement of more than 2000 mm
//	too-many           more pieces or scores than any card has
//	two-counts         a piece is to be cut two different numbers of times
//	two-lengths        one measurement or score is given twice, and the two differ
//	two-sizes          one size is given twice, and the two differ
//	unit-guessed       a unit was not said (warning)
//	width-pattern      panels that are equal in the catalogue card are not equal here (warning)
package cutlist
