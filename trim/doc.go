// Package trim plans how parts are cut out of sheets at a trimmer: every cut runs from edge to edge of the piece in hand.
//
// It turns a [Job] (the sheets in the drawer, with their sizes, quantities and prices; the parts that are wanted, with
// their counts, and whether they may be turned) into a [Plan], a tree of cuts for every sheet; [Audit] goes through any
// plan cut by cut and proves it right or says what is wrong.
//
// Words: a sheet lies with W across and H up, origin at its lower left corner. An upright cut is at x, from the left edge
// of the piece in hand; a level cut at y, from its lower edge. A layout is one way to cut up a sheet. What is left over is
// an off-cut. A [Trimmer] may have a longest cut, a narrowest strip that it holds, and a blade that turns paper to dust; a
// sheet may have mill edges that are cut off first. The search sees none of that: it works on a plain job (see plain), and
// turns down layouts that the trimmer cannot cut. Spares, packs and what is on hand are the business of who makes the job.
//
// [MostValue] cuts one sheet up for the most value. Copies unlimited: dynamic programming on raster points (see axis and
// fill), exact, three-quarters of a second for 3000 points. Copies limited: larger blocks out of smaller ones, the most
// promising first (see search), exact where its memory and the caller's patience last; else the bound says how much more
// there could be.
//
// [Cheapest] finds the plan with the least price for all counts. Column generation: a linear program over the layouts known
// so far (see linear) gives every part a price; the recurrence above finds the layout worth most at these prices; that goes
// on until none is worth more than its sheet. Whole sheets are then made by diving (the whole part of the solution is
// taken, and the rest solved again) and by cutting a few sheets of the best plan anew. Every plan comes with the price that
// no plan can beat, worked out in whole numbers (see proofs); where little is wanted, layouts are looked for with limited
// copies, which raises that bound to the truth for a card or two. A first plan is there at once and a search that ends
// early keeps the best.
//
// Sources, all from memory: P. C. Gilmore and R. E. Gomory, Oper. Res. 13 (1965) and 14 (1966); J. C. Herz, IBM J. Res.
// Dev. 16 (1972); N. Christofides and C. Whitlock, Oper. Res. 25 (1977); J. E. Beasley, J. Oper. Res. Soc. 36 (1985); P.
// Y. Wang,
// Oper. Res. 31 (1983); K. V. Viswanathan and A. Bagchi, Oper. Res. 41 (1993).
//
// Of plans at one price it looks for those of few layouts, places of the fence and cuts: one layout after the other is
// taken, rather for many sheets, as long as the linear program says that the rest can still be paid (see frugal); then every
// tree is tidied (see tidied and strip). That is a heuristic: nothing is proven of it.
//
// [Steps] turns a plan into what has to be done at the trimmer, one thing after the other.
//
// Exact: every measurement is a length.Length; areas are int64 nm² (length.Max² is below 2⁶³).
//
// It knows nothing of cards: who calls it makes parts of pieces. It reads no files and no clock.
package trim
