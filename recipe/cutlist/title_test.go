package cutlist

import "testing"

// The first line, where it is no name of a piece and measures nothing, is the title of the card.
func TestTitle(t *testing.T) {
	wall := "Wall: {w} x {h}, score at {at}"
	for _, test := range []struct{ text, want string }{
		{"Lighthouse stand\n" + wall, "Lighthouse stand"},
		{"Lighthouse stand\n\n" + wall, "Lighthouse stand"},
		{"Lighthouse Stand:\n" + wall, "Lighthouse Stand"},
		{"Lighthouse stand.\n" + wall, "Lighthouse stand"},
		{"LIGHTHOUSE STAND\n================\n" + wall, "LIGHTHOUSE STAND"},
		{"# Lighthouse stand\n\n" + wall, "Lighthouse stand"},
		{"**Lighthouse stand**\n" + wall, "Lighthouse stand"},
		{"\"Lighthouse stand\"\n" + wall, "Lighthouse stand"},
		{"\n\nLighthouse stand\n\n\n" + wall, "Lighthouse stand"},
		{"Window lantern — cut list\n" + wall, "Window lantern"},
		{"Cut list: Window lantern\n" + wall, "Window lantern"},
		{"Cut list for the gull's easel\n" + wall, "gull's easel"},
		{"Harbour light, measurements\n" + wall, "Harbour light"},
		{"The keeper's six-sided harbour light\n" + wall, "The keeper's six-sided harbour light"},
		{"How to make my harbour light\n" + wall, "How to make my harbour light"},
		{"Harbour light\nYou will need:\n" + wall, "Harbour light"},
		{"Harbour light stand\nSupplies: glue, a bone folder\nWall: {w} x {h}, score at {at}", "Harbour light stand"},
		{"Harbour light in inches\n" + wall, "Harbour light"},
		{"Harbour light (mm)\n" + wall, "Harbour light"},
		{"Harbour light (metric)\n" + wall, "Harbour light"},
		{"Harbour light (fits a 5 x 7 in envelope)\n" + wall, "Harbour light"},
		// Both the title and the name of the only piece.
		{"Wall\n{w} x {h}\nscore at {at}", "Wall"},
		{"Wall\n- {w} x {h}\n- score at {at}", "Wall"},
		{"Wall\nCut from navy card, {w} x {h}\nscore at {at}", "Wall"},
		// No titles: an instruction, a line with a number.
		{"Cut list\n" + wall, "From a cut list"},
		{wall, "From a cut list"},
		{"Score and fold first\n" + wall, "From a cut list"},
		{"You will need:\n" + wall, "From a cut list"},
		{"Cut from navy card:\n" + wall, "From a cut list"},
		{"All sizes in inches\nWall: {w} x {h}, score at {at}", "From a cut list"},
	} {
		for _, h := range unitHabits() {
			filled := h.fill(test.text)
			r := read(t, filled, nil)
			sound(t, filled, r)
			if r.Card == nil || r.Card.Title != test.want || len(r.Card.Pieces) != 1 || r.Card.Pieces[0].Name != "wall" {
				t.Errorf("%s: %q: want the title %q\n%s", h.name, filled, test.want, r.Recipe)
			}
		}
	}
}

// Where every piece has a heading, the first heading is no title.
func TestHeadingsOfPieces(t *testing.T) {
	for _, h := range unitHabits() {
		text := h.fill("Wall\n{w} x {h}\nscore at {at}\n\nSpring\n{w} x {h}\nscore at {at}\n")
		r := read(t, text, nil)
		if r.Card == nil || len(r.Card.Pieces) != 2 || r.Card.Title != "From a cut list" || r.Card.Pieces[0].Name != "wall" || r.Card.Pieces[1].Name != "spring" {
			t.Errorf("%s:\n%s", h.name, r.Recipe)
		}
	}
}
