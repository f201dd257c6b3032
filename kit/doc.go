// Package kit says what has to be cut for a number of cards, and from what: the parts of every stock, and the sheets of that
// stock in the drawer.
//
//	cards, how many ──Demand──> parts by stock ──┐
//	drawer.csv ──────ReadDrawer──> sheets ───────┴─Jobs──> trim.Job for each stock
//
// Words: a kit is all parts of one card. A drawer is what somebody owns of each stock: whole sheets, part packs and off-cuts,
// and the packs in which more of it can be bought. A spare is a part that is cut beyond what the cards need.
//
// Parts are rectangles: the box round a piece that has another outline or corners taken off, the box round a topper, and a
// mat as the panel less its edge. A piece whose recipe says how its grain runs must be cut so, out of sheets whose grain is
// known; one whose recipe says nothing may be cut either way. Of a stock whose pattern has a direction nothing is turned.
//
// Paper in the drawer costs nothing more, so a plan uses off-cuts first, then sheets on hand, and buys last; within each it
// uses little paper. Prices are the user's, in whatever currency, and stand in the drawer file.
package kit
