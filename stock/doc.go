// Package stock holds what the trade sells and posts: sheet sizes, envelopes, folded card sizes with the envelopes they
// go into, the thickness of paper by its grammage, and what mail services take.
//
// It turns seven tables (papers, envelopes, clearance, inserts, caliper, mail, sources; CSV with a line of column names) into a [Table] of
// plain values. [Load] reads the tables that are built in, [Read] reads a folder that somebody has edited. Lines that
// start with # are remarks. Every row says where it comes from, as of when, and how sure it is (see [Status]).
//
// Words: a sheet is paper as it is sold, an envelope is measured outside and finished, an insert is a folded card, and
// caliper is the thickness of one sheet (ISO 534). Sheets, envelopes and inserts are named apart: the sheet A7 (ISO 216,
// 74 x 105 mm) and the envelope A7 (North American announcement, 5 1/4 x 7 1/4 in) have nothing to do with each other.
//
//	  short
//	+-------+
//	|       |      Short is never longer than Long, and says nothing of the
//	|       | long grain: grain is known from a mark or a test, never from the
//	|       |      order of two numbers.
//	+-------+
//
// Exact: every size, read in the unit in which its system defines it. Approximate: caliper, which tables give with 10 to
// 20 % between them, so every row has a low and a high value; a value between two rows is an estimate on the straight line between them.
//
// A person's own envelopes, mail classes and prices are read beside the tables ([ReadOwnEnvelopes], [Table.WithMail],
// [ReadPrices]); whatever is wrong with them, the built-in tables stay usable.
//
// It does not hold the tolerances of trimmed sheets, the inner size of an envelope or any price, and it does not choose:
// which envelope fits a card, and how it is sent, is package fit's business.
package stock
