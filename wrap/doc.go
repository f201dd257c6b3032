// Package wrap makes the envelope for a closed card: the recipe of one sheet, scored, folded round the card and glued, that
// is proven like any card.
//
//	closed size, thickness ──Make──> Wrap: a card.Card, its blank, the sheets that it is cut from
//
// There are two ways to fold it. A plain envelope has a front as large as its inside, two side flaps and a back that is
// glued onto them, and a flap that closes it; its long side lies across. A box has walls as deep as the card is thick: a
// sleeve glued at one tab, which lies flat until it is squeezed open, with lids whose tongues are tucked in; its long side
// stands upright.
//
//	plain      ┌──────┐            box          ┌──────┐ tongue
//	           │ flap │                         ├──────┤ lid
//	      ┌────┼──────┼─────┐       ┌──────┬─┬──┴──────┴──┬─┬───┐
//	      │left│front │right│       │front │ │    back    │ │tab│
//	      └────┼──────┼─────┘       └──────┴─┴──┬──────┬──┴─┴───┘
//	           │ back │                         ├──────┤ lid
//	           └──────┘                         └──────┘ tongue
//
// Words: the inside is what a flat thing may measure that goes in; room is how much larger it is than the card, in all, both
// ways; padding is what lies round the card, as thick on every side; a blank is the sheet before it is folded.
//
// Rules. A box is larger than the card by the room: 1/4 in, so that 5 x 7 in goes into 5 1/4 x 7 1/4 in, or 6 mm (common
// practice, no source). A flat envelope gives a thick card its width only in part: of an inside W it holds w wide and t
// thick while w + t <= W, for its girth is 2 W. So the thickness may use up half of the room, and what is more is added.
// Every measure is rounded up to a mark of the ruler, and all scores and cuts lie on marks.
//
// Exact: all lengths. Not judged here: whether the post takes it (package fit), how stiff the sheet is, bulging.
package wrap
