// Package dress lays ornament on a card: mats on every panel that shows in the open card, and toppers cut with a person's own
// dies.
//
//	closed card, opening ──New──> Faces: what shows, what glue or other parts lie on
//	layers of stock ──Mats──> lines of mat      ┐
//	dies, a panel ────Topper──> lines of topper ┴─Dressing──> a dressed card, or its text
//	dressed card ──Cuts──> what to cut of each stock
//
// Words: a face is the outer side of a panel that shows; it belongs to the front if it is turned to whoever looks at the
// front of the open card, else to the back. The reveal is how much of a face, or of the layer below, shows on each side
// of a layer. A cover is what lies on a face: held there by glue, or only against it while the card is shut. An overhang is
// how far a topper reaches beyond its panel, or beyond the closed card.
//
// The widest pose in which the card stands is looked at ([stance.Standing]; the open card where it stands in none), from 24
// sides, level and from 30 degrees above. A face shows if half of what glue leaves bare of it is seen from one of them.
//
// Rules. The reveal is 1/8 in or 3 mm, so that each layer is 1/4 in or 6 mm smaller (common practice, no source). A mat lies
// within its panel and under no glue joint, over no window and across no score. A fold that shuts with the outer faces
// together wants twice the thickness of the layers between them on either side, so that they do not bind (common
// practice, after what printers allow for creep; no source for card). A raised topper may not lie where another
// part presses on it in the closed card; a flat one may.
//
// Exact: the sizes of layers, and that a mat is clear of everything on its panel. Sampled: what shows, and how much of a
// topper is glued. Not judged: weight on the hinge, the taste.
package dress
