// Package fit says which envelope a closed card goes into, how it is packed, what it weighs, and how it can be sent.
//
// It turns a closed card (package flat) into a [Block], its outline with mats and toppers and how thick it is where
// ([Measure]); ranks envelopes for it ([Rank]); advises flat, padded or boxed ([Pack]); weighs it ([Weigh]); and finds the
// lowest mail class that takes it in an envelope, with what would bring it into a lower one ([Post]). Envelopes, clearances
// and mail classes come from package stock or from a person.
//
//	     W across                envelope, its long side across
//	   +---------+              +--------------------+
//	   |         | H up         |  +--------------+  |   a card that stands is turned
//	   |  card   |        into  |  | card, turned |  | S  by a quarter to go in
//	   |         |              |  +--------------+  |
//	   +---------+              +--------------------+
//	thickness towards you                  L
//
// A flat envelope of the inside width S takes a block w wide and t thick only if w + t <= S, and likewise for its length: its
// two faces, 2S around, must go round 2 (w + t) (derived geometry). Besides, a card wants the clearance of package stock,
// which takes in a card of [OrdinaryThick]; what it is thicker than that comes on top. A padded envelope wants the clearance
// and the whole thickness besides (common practice, no source), a box the clearance, and a depth.
// Published sizes of envelopes are outside sizes; the clearance allows for that.
//
// Words: a seat is how a card sits in one envelope: easy, snug (it goes in, with less room than is usual) or too small. Play
// is the room that there is beyond the card's own width and thickness. A bump is how much thicker the thickest place is than
// the usual thickness, that which half of the card's area does not exceed.
//
// Exact: sizes, thickness, play and all comparisons of lengths. Approximate: areas and weights. Assumed, and said so in
// [Wrapping] and [Part]: what envelopes and glue weigh, how thick envelopes are, and the bounds of [UsualLimits].
//
// It does not know prices (a person's own may be given), does not bend anything (what must bend is for the maker to try),
// and does not draw envelopes.
package fit
