// Package trim plans how parts are cut out of sheets at a trimmer: every cut runs from edge to edge of the piece in hand.
//
// It turns a [Job] (the sheets in the drawer, with their sizes, quantities and prices; the parts that are wanted, with
// their counts, and whether they may be turned) into a [Plan], a tree of cuts for every sheet; [Audit] goes through any
// plan cut by cut and proves it right or says what is wrong.
//
// Words: a sheet lies with W across and H up, origin at its lower left corner. An upright cut is at x, from the left edge
// of the piece in hand; a level cut at y, from its lower edge. A layout is one way to cut up a sheet. What is left over is
// an off-cut. Blades have no width; mill edges are cut off before a sheet comes here.
//
// Exact: every measurement is a length.Length; areas are int64 nm² (length.Max² is below 2⁶³).
//
// It knows nothing of cards: who calls it makes parts of pieces. It reads no files and no clock.
package trim
