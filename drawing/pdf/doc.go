// Package pdf writes drawings as PDF in true millimetres: one drawing on a page of its own size ([Device]), or drawings
// on sheets of printer paper ([Sheets]).
//
// # Sheets
//
// A sheet has a margin of 10 mm all round, a head (title, page n of m, pieces, which face is up) and a foot. The foot of
// every page has a bar of exactly 50 mm and one of exactly 2 in, so that a print that was scaled on its way is found out
// with a ruler. Drawings that are small share a page. One that fits only sideways gets a sheet on its side or is turned a
// quarter. One that does not fit at all is cut into tiles that overlap by 10 mm, beside scores and not along them; numbered
// crosses stand at the same places of both neighbours, a dotted line down the middle of the overlap, and a small overview
// shows which tile is where.
//
// [NewPlan] decides all that without writing anything.
//
//	+------------------------------+
//	| title             page 1 of 2|   y down, mm from the top left corner of the sheet, as PDF
//	| wall, row 1 of 1, column 1 …|   libraries count; drawings keep y up inside
//	| +--------------------------+ |
//	| |  the room for drawings   | |
//	| +--------------------------+ |
//	| ====50 mm====  ====2 in==== ▦|
//	+------------------------------+
//
// # Exact and approximate
//
// Places are written in points with two decimals (0.0035 mm). Text is set in the Go fonts, embedded with only the
// characters used. The file depends on nothing but its input: without a date given it says 1 January 2000.
package pdf
