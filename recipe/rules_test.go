package recipe

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"foldwright/problem"
)

// base is a recipe without a problem; each test below spoils it.
const base = `card "Gull"
units mm
marks 1 mm
stock white "white card" 240 gsm, 0.31 mm
piece wall of white
  size 100 x 50
  score across at 40, 90
  panels front, back, tab
  fold m m
  wedge tab 3
piece clip of white, 2 of
  size 40 x 50
  score across at 10, 20, 30
  panels left, leaf x2, tab
glue wall.tab inside wall.front, left
glue clip#1.tab inside wall.back
opens by itself
keep wall.tab = 10
mat wall.front of white, edge 3
topper circle 20 of white on wall.front, top at 40
`

// ruleTests replace one text of base by another, and say which problem that makes and where. try is the Try that cures
// it; a Try that is no text of a recipe is left out.
var ruleTests = []struct {
	rule, old, new string
	where, what    string
	try            string
}{
	// What lines are made of.
	{"unknown-line", "  score across", "  scoer across", "7:3", `no line begins with "scoer"; did you mean "score"?`, "score"},
	{"unknown-line", "  size 100", "  cut 100", "6:3", `did you mean "size"?`, "size"},
	{"unknown-line", "opens by", "hello by", "17:1", `no line begins with "hello"`, ""},
	{"unknown-line", "opens by", "12 by", "17:1", `no line begins with "12"`, ""},
	{"line-form", "units mm", "units", "2:6", `the line ends where "mm", "cm" or "in" belongs`, ""},
	{"line-form", "size 100 x 50", "size 100 50", "6:12", `"50" stands where "x" and the second side belongs`, "size 100 x 50"},
	{"line-form", "size 100 x 50", "size 100, 50", "6:11", `"," stands where "x"`, "size 100 x 50"},
	{"line-form", "size 100 x 50", "size 100 by 50", "6:12", `"by" stands where "x"`, "size 100 x 50"},
	{"line-form", "front, left\n", "front left\n", "15:33", `"left" has no comma before it`, "glue wall.tab inside wall.front, left"},
	{"line-form", "front, left\n", "front, lft\n", "15:34", `"lft" stands where "left", "right"`, "glue wall.tab inside wall.front, left"},
	{"line-form", "at 40, 90", "at 40 90", "7:22", `"90" has no comma before it`, "score across at 40, 90"},
	{"line-form", "at 40, 90", "at 40 60 80 90", "7:22", `"60" has no comma before it`, "score across at 40, 60, 80, 90"},
	{"line-form", "at 40, 90", "at 40 90 ?", "7:22", `"90" has no comma before it`, ""},
	{"line-form", "front, back, tab", "front back, tab", "8:16", `"back" has no comma before it`, "panels front, back, tab"},
	{"line-form", "score across at 40", "crease across at 40", "7:10", "a crease line says how stiff creases are", "score across at 40, 90"},
	{"line-form", "wall.tab = 10", "wall.tab < 10", "18:15", `"<" stands where =, <= or >= belongs`, "keep wall.tab <= 10"},
	{"line-form", `card "Gull"`, `card Gull`, "1:6", `"Gull" stands where the title between quotes belongs`, `card "Gull"`},
	{"ref-form", "glue clip#1", "glue clip #1", "16:6", `"clip" does not name a panel`, ""},
	{"line-form", "240 gsm", "240 gms", "4:30", `"gms" stands where "gsm" belongs`, `stock white "white card" 240 gsm, 0.31 mm`},
	{"line-form", "edge 3", "thick 3", "19:26", `"thick" stands where "edge" belongs`, ""},
	{"line-form", "  fold m m\n", "  fold m m\n  rest 60 at 1\n", "10:11", `"at" stands where "deg" belongs`, ""},
	{"line-form", "opens by itself", "opens at", "17:9", "the line ends where a score such as wall.2 belongs", ""},
	{"number", "keep wall.tab", "keep 1/0 * wall.tab", "18:6", "a fraction over zero", ""},
	{"number", "240 gsm", "240000000000000000000 gsm", "4:26", "has too many digits", ""},
	{"unit", "units mm", "units Centimeters", "2:7", `"Centimeters" is not a unit of a recipe`, "units cm"},
	{"extra-words", "opens by itself", "opens by itself alone", "17:17", `"alone" stands behind the end of this line`, ""},
	{"stray-character", "size 100 x 50", "size 100 ; 50", "6:12", `";" has no meaning in a recipe`, ""},
	{"stray-character", "size 100 x 50", "size \u200b100 x 50", "6:8", "a character that cannot be seen (U+200B) stands here", ""},
	{"stray-character", "size 100 x 50", "size 100 x 50# big", "6:16", "a # stands right behind a word", ""},
	{"open-quote", `"white card"`, `"white card`, "4:13", "the text that begins here has no quote at its end", ""},
	{"open-quote", `"Gull"`, `“Gull"`, "1:6", "the text that begins here has no quote at its end", ""},
	{"control-character", "front, left", "front, \x00left", "15:34", "a character that cannot be seen (U+0000) stands here", ""},
	{"control-character", "opens by itself", "opens by itself # \u009f", "17:19", "a character that cannot be seen (U+009F) stands here", ""},
	{"encoding", "front, left", "front, \xffleft", "15:34", "the byte 0xff is not UTF-8 text", ""},
	{"encoding", "card", "c\x00ard", "1:1", "the text is not UTF-8", ""},
	{"name-form", "piece clip", "piece clip.2", "11:7", `"clip.2" cannot be the name of a piece`, ""},
	{"name-form", "panels left", "panels " + strings.Repeat("a", 41), "14:10", "cannot be the name of a panel", ""},
	{"ref-form", "glue wall.tab", "glue wall", "15:6", `"wall" does not name a panel`, ""},
	{"ref-form", "clip#1.tab", "clip#0.tab", "16:6", `"clip#0.tab" does not name a panel`, ""},
	{"ref-form", "opens by itself", "opens at wall.tab to 180", "17:10", `"wall.tab" does not name a score`, ""},
	{"ref-form", "opens by itself", "opens by pulling wall.tab from clip#1", "17:18", `"wall.tab" does not name a piece`, ""},
	{"ref-form", "keep wall.tab", "keep card.depth", "18:6", `"card.depth" is not a measure`, ""},
	// Numbers.
	{"decimal-comma", "size 100 x 50", "size 100,5 x 50", "6:11", "a comma stands inside a number, where a decimal point is meant", "size 100.5 x 50"},
	{"decimal-comma", "size 100 x 50", "size 100,5 x 50,5", "6:11", "a comma stands inside a number", "size 100.5 x 50.5"},
	{"decimal-comma", "size 100 x 50", "size 100 x 50,5 mm", "6:16", "a comma stands inside a number", "size 100 x 50.5 mm"},
	{"decimal-comma", "240 gsm, 0.31 mm", "240 gsm, 0,31 mm, rest 22,5 deg", "4:36", "a comma stands inside a number", `stock white "white card" 240 gsm, 0.31 mm, rest 22.5 deg`},
	{"decimal-comma", "240 gsm, 0.31 mm", "240,5 gsm, 0.31 mm", "4:29", "a comma stands inside a number", `stock white "white card" 240.5 gsm, 0.31 mm`},
	{"decimal-comma", "at 40, 90", "at 40,5, 90", "7:21", "a comma stands inside a number", "score across at 40.5, 90"},
	{"decimal-comma", "at 40, 90", "at 40, 90,5", "7:25", "a comma stands inside a number", "score across at 40, 90.5"},
	{"decimal-comma", "at 40, 90", "at 40,5, 90,25mm", "7:21", "a comma stands inside a number", "score across at 40.5, 90.25mm"},
	{"decimal-comma", "at 40, 90", "at 40,90,5", "7:24", "a comma stands inside a number", "score across at 40,90.5"},
	{"decimal-comma", "at 40, 90", "at 40,5,90,5", "7:21", "a comma stands inside a number", "score across at 40.5,90.5"},
	{"decimal-comma", "top at 40", "top at 40,5, thick 0,5", "20:51", "a comma stands inside a number", "topper circle 20 of white on wall.front, top at 40.5, thick 0.5"},
	{"decimal-comma", "front, left\n", "front, up 2,5, over 1\n", "15:38", "a comma stands inside a number", "glue wall.tab inside wall.front, up 2.5, over 1"},
	{"decimal-comma", "wall.tab = 10", "wall.tab = 0,5 * 20,0", "18:18", "a comma stands inside a number", "keep wall.tab = 0.5 * 20.0"},
	{"decimal-comma", "size 100 x 50", "outline (0,0) (100,5,0) (100,5, 50,25)", "6:21", "a comma stands inside a number", "outline (0,0) (100.5,0) (100.5, 50.25)"},
	{"decimal-comma", "  fold m m\n", "  fold m m\n  slit (1,5,2,5) to (1, 20,5)\n", "10:10", "a comma stands inside a number", "slit (1.5,2.5) to (1, 20.5)"},
	{"comma-spacing", "at 40, 90", "at 40,50, 90", "7:21", "no space stands behind this comma, and others in the line have one", "score across at 40, 50, 90"},
	{"number", "size 100 x 50", "size 1/0 x 50", "6:8", "is not a measurement", ""},
	{"number", "size 100 x 50", "size 10³⁄₀ x 50", "6:8", "is not a measurement", ""},
	{"stray-character", "size 100 x 50", "size 10³ x 50", "6:10", `"³" has no meaning in a recipe`, ""},
	{"number", "size 100 x 50", "size 10-1/2 x 50", "6:10", "a minus stands between a whole number and a fraction", "size 10 1/2 x 50"},
	{"number", "size 100 x 50", "size 123456789012345678901 x 50", "6:8", "has too many digits", ""},
	{"number", "wall.tab = 10", "wall.tab = 10 / 0", "18:22", "a division by zero", ""},
	{"number", "wall.tab = 10", "wall.tab = 10-1/2", "18:19", "a minus stands right between two numbers", ""},
	{"number", "clip of white, 2 of", "clip of white, 2.5 of", "11:22", `"2.5" is not the number of copies`, ""},
	{"number", "240 gsm", "1/2 gsm", "4:26", `"1/2" is not the grammage`, ""},
	{"number", "leaf x2", "leaf x0", "14:21", "a name for 0 panels", ""},
	{"line-form", "size 100 x 50", "size NaN x 50", "6:8", `"NaN" stands where a measurement belongs`, ""},
	{"unit", "size 100 x 50", "size 1e400 x 50", "6:9", `"e400" stands right behind a number and is not a unit`, ""},
	{"unit", "size 100 x 50", "size 100 x 50 inches", "6:17", `"inches" is not a unit of a recipe`, "size 100 x 50 in"},
	{"unit", "units mm", "units millimetres", "2:7", `"millimetres" is not a unit of a recipe`, "units mm"},
	{"unit", "size 100 x 50", "size 100 cn x 50", "6:12", `"cn" is not a unit of a recipe`, "size 100 cm x 50"},
	{"unit", "size 100 x 50", "size 100nm x 50 MM", "6:11", `"nm" is not a unit of a recipe`, "size 100mm x 50 mm"},
	{"grammage-unit", "240 gsm, 0.31 mm", "110 lb", "4:30", `a paper's weight in "lb" does not say how heavy it is`, ""},
	{"grammage-unit", "240 gsm", "240 g/m²", "4:30", `"g" is not the unit of a grammage in a recipe`, `stock white "white card" 240 gsm, 0.31 mm`},
	{"grammage-unit", "240 gsm", "240 GSM", "4:30", `"GSM" is not the unit of a grammage in a recipe`, `stock white "white card" 240 gsm, 0.31 mm`},
	{"not-exact", "marks 1 mm", "marks 1/7in", "3:7", "1/7 in cannot be held exactly", "marks 1/8 in"},
	{"not-exact", "size 100 x 50", "size 1/3 in x 50", "6:8", "1/3 in cannot be held exactly; the nearest that can are 8.466666 mm and 8.466667 mm", "size 8.466666 mm x 50"},
	{"not-exact", "wall.tab = 10", "wall.tab = 1 in / 3", "18:17", "cannot be held exactly", ""},
	{"too-long", "size 100 x 50", "size 2000.1 x 50", "6:8", "2000.1 is too long", ""},
	{"too-long", "wall.tab = 10", "wall.tab = 1000 * 10", "18:17", "a length of more than 2000 mm", ""},
	{"keep-form", "wall.tab = 10", "wall.tab * wall.tab = 10", "18:17", "two measures are multiplied", ""},
	{"keep-form", "wall.tab = 10", "wall.tab * 2 mm = 10", "18:19", "a measure is multiplied with a length", ""},
	{"keep-form", "wall.tab = 10", "wall.tab = 2 mm * 3 in", "18:26", "a factor has a unit where the term has one already", ""},
	{"keep-form", "keep wall.tab", "keep clip#1.tab", "18:6", "a keep line speaks of all copies of clip at once", "clip.tab"},
	{"keep-factor", "keep wall.tab", "keep 0 * wall.tab", "18:6", "a measure taken 0 times", ""},
	{"keep-factor", "keep wall.tab", "keep 0.1234567 * wall.tab", "18:6", "the factor of this term is too fine", ""},
	// The order of things.
	{"outside-piece", "keep wall.tab = 10", "  wedge tab 3", "18:3", `"wedge" stands outside a piece`, ""},
	{"said-twice", "units mm\n", "units mm\nunits mm\n", "3:1", "there is such a line already: units", ""},
	{"said-twice", "  fold m m\n", "  fold m m\n  outline (0, 0) (1, 0) (0, 1)\n", "10:3", "there is such a line already: size", ""},
	{"said-twice", "front, left", "front, left, centre", "15:40", `"centre" says again what "left" said`, ""},
	{"said-twice", "top at 40", "top at 40, bottom at 2", "20:53", `"bottom" says again what "top" said`, ""},
	{"said-twice", "mat wall.front of", "mat wall.front, wall.front of", "19:17", "panel wall.front stands in this mat line twice", ""},
	{"said-twice", "  fold m m\n", "  fold m m\n  closed folds 1, 1\n", "10:19", "score 1 stands in this list already", ""},
	{"said-twice", "  wedge tab 3\n", "  wedge tab 3\n  wedge tab 2\n", "11:9", `panel "tab" has a wedge already`, ""},
	{"title-first", "card \"Gull\"\nunits mm\n", "units mm\ncard \"Gull\"\n", "2:1", "the card line stands below other lines", ""},
	{"units-late", "units mm\nmarks 1 mm\n", "marks 1 mm\nunits mm\n", "3:1", "the units line comes after a measurement", ""},
	{"no-units", "units mm\n", "", "5:8", "100 has no unit, and no units line says which one is meant: it is read in mm", "units mm"},
	{"no-units", "units mm\nmarks 1 mm\n", "marks ½\n", "2:7", "½ has no unit", "units mm"},
	{"too-many", "clip of white, 2 of", "clip of white, 60 of", "11:22", "there are more than 60 pieces to cut", ""},
	{"too-many", "front, back, tab", "front x400, back, tab", "8:31", "there are more than 400 panels in this line", ""},
	// The card: what package card checks, seen from the text.
	{"no-title", `card "Gull"`, `card " "`, "1:6", "the card has no title", `card "Harbour light"`},
	{"no-title", "card \"Gull\"\n", "", "1:1", "the card has no title", `card "Harbour light"`},
	{"no-opens", "opens by itself\n", "", "1:6", "nothing says how the card opens", "opens by itself"},
	{"no-pieces", base[strings.Index(base, "piece"):], "opens by itself\n", "1:6", "the card has no piece", ""},
	{"no-size", "  size 100 x 50\n", "", "5:7", "piece wall has no size", "size 100 x 50"},
	{"text-form", `"Gull"`, `"` + strings.Repeat("gull ", 41) + `"`, "1:6", "the title is 205 characters long", ""},
	{"not-positive", "size 100 x 50", "size 100 x 0", "6:8", "the height of piece wall is 0", ""},
	{"not-positive", "size 100 x 50", "size -100 x 50", "6:8", "the width of piece wall is -100", ""},
	{"not-positive", "marks 1 mm", "marks 0", "3:7", "the distance of the marks is 0", ""},
	{"not-positive", "wedge tab 3", "wedge tab -3", "10:13", "the wedge is -3", ""},
	{"duplicate-name", "piece clip of", "piece wall of", "11:7", `there is a piece "wall" already`, ""},
	{"duplicate-name", "units mm\n", "units mm\nstock white 100 gsm, 0.2\n", "5:7", `there is a stock "white" already`, ""},
	{"reserved-name", "back, tab", "width, tab", "8:17", `"width" has a meaning of its own`, "width-1"},
	{"stock-range", "240 gsm", "24000 gsm", "4:26", "stock white has 24000 gsm", ""},
	{"board", "0.31 mm", "3 mm", "4:35", "stock white is board of 3 mm", ""},
	{"tab-loose", "glue wall.tab inside wall.front, left", "glue wall.back inside wall.front, left", "8:23", `panel "wall.tab" is glued to nothing`, ""},
	{"stock-range", "0.31 mm", "0.31 in", "4:35", "one sheet of stock white is ≈ 7.87 mm", ""},
	{"stiffness-range", "0.31 mm\n", "0.31 mm, crease -0.2 N/rad\n", "4:51", "a stiffness of -0.2 N/rad", ""},
	{"fold-angle", "0.31 mm\n", "0.31 mm, rest 181 deg\n", "4:49", "a fold angle of 181 deg", ""},
	{"fold-angle", "  fold m m\n", "  fold m m\n  rest -1 deg\n", "10:8", "a fold angle of -1 deg", ""},
	{"unknown-stock", "clip of white", "clip of whit", "11:15", `there is no stock "whit"; did you mean "white"?`, "white"},
	{"unknown-stock", "front of white, edge", "front of navy, edge", "19:19", `there is no stock "navy"`, ""},
	{"unknown-piece", "glue wall.tab", "glue wal.tab", "15:6", `there is no piece "wal"; did you mean "wall.tab"?`, "wall.tab"},
	{"unknown-panel", "glue wall.tab", "glue wall.tabb", "15:6", `there is no panel "wall.tabb"; did you mean "wall.tab"?`, "wall.tab"},
	{"unknown-panel", "clip#1.tab", "clip#1.tba", "16:6", `there is no panel "clip#1.tba"; did you mean "clip#1.tab"?`, "clip#1.tab"},
	{"unknown-panel", "wedge tab 3", "wedge tib 3", "10:9", `there is no panel "tib"; did you mean "tab"?`, "tab"},
	{"unknown-panel", "keep wall.tab", "keep wall.tob", "18:6", `there is no panel "wall.tob"; did you mean "wall.tab"?`, "wall.tab"},
	{"copy-range", "clip#1.tab", "clip#3.tab", "16:6", "clip has 2 copies, so there is no clip#3", "clip#2.tab"},
	{"copy-range", "clip of white, 2 of", "clip of white, 0 of", "11:22", "there are 0 copies of clip", ""},
	{"copy-needed", "clip#1.tab", "clip.tab", "16:6", "clip has 2 copies: write clip#1.tab or clip#2.tab", "clip#1.tab"},
	{"copy-needed", "on wall.front", "on clip.left", "20:30", "clip has 2 copies: write clip#1.left or clip#2.left", "clip#1.left"},
	{"panel-ambiguous", "clip#1.tab", "clip#1.leaf", "16:6", `clip has 2 panels called "leaf", and one is needed here`, ""},
	{"outline-corners", "size 100 x 50", "outline (0, 0) (10, 0) (20, 0)", "6:11", "encloses nothing", ""},
	{"outline-origin", "size 100 x 50", "outline (1, 0) (100, 0) (100, 50)", "6:11", "the outline of wall begins at (1, 0)", ""},
	{"polygon-corners", "circle 20 of", "polygon (0, 0) (1, 1) of", "20:16", "the topper encloses nothing", ""},
	{"circle-size", "circle 20 of", "circle 20 x 21 of", "20:15", "a circle of 20 x 21 is an oval", ""},
	{"no-length", "  fold m m\n", "  slit (1, 2) to (1, 2)\n", "9:8", "the slit starts and ends at (1, 2)", ""},
	{"no-length", "score across at 40, 90", "score (1, 2) to (1, 2)", "7:9", "the score starts and ends at (1, 2)", ""},
	{"score-outside", "at 40, 90", "at 40, 100", "7:23", "score at 100 is not inside the piece: it is 100 wide, so a score lies above 0 and below 100", ""},
	{"score-outside", "score across at 40, 90", "score up at 0, 90", "7:15", "score at 0 is not inside the piece: it is 50 high", ""},
	{"score-outside", "score across at 40, 90", "score (0, 0) to (0, 50)", "7:9", "does not run through the piece", ""},
	{"score-order", "at 40, 90", "at 40, 30", "7:23", "score 2 at 30 comes after score 1 at 40", ""},
	{"score-repeated", "at 40, 90", "at 40, 40", "7:23", "score 2 lies on score 1", ""},
	{"score-repeated", "  score across at 40, 90\n", "  score (0, 0) to (9, 50)\n  score (9, 50) to (0, 0)\n", "8:9", "score 2 lies on score 1", ""},
	{"fold-count", "fold m m", "fold m m v", "9:8", "fold names 3 senses for 2 scores", ""},
	{"panel-count", "front, back, tab", "front, tab", "8:10", "panels names 2 panels, but 2 scores make 3 panels", ""},
	{"panel-names-need-points", "at 40, 90\n", "at 40\n  score up at 9\n", "9:10", "the panels of wall do not lie in one row", ""},
	{"panel-point", "panels front, back, tab", "panel front at (200, 10)", "8:9", `the point (200, 10) for panel "front" is not inside the piece`, ""},
	{"score-number", "  fold m m\n", "  fold m m\n  rest 60 deg at 1, 3\n", "10:21", "there is no score 3: wall has 2 scores", ""},
	{"score-number", "opens by itself", "opens at wall.3 to 180", "17:10", "there is no score 3: wall has 2 scores", ""},
	{"slit-outside", "  fold m m\n", "  fold m m\n  slit (1, 1) to (1, 51)\n", "10:8", "reaches outside the piece", ""},
	{"window-outside", "  fold m m\n", "  fold m m\n  window rect 9 x 9 at (95, 1)\n", "10:15", "the window from (95, 1) to (104, 10) reaches outside", ""},
	{"wedge-place", "wedge tab 3", "wedge back 3", "10:9", `panel "back" lies between others`, ""},
	{"wedge-size", "wedge tab 3", "wedge tab 25", "10:13", `a wedge of 25 leaves nothing of panel "tab"`, ""},
	{"wedge-size", "wedge tab 3", "wedge tab 10", "10:13", `a wedge of 10 leaves nothing of panel "tab"`, ""},
	{"glue-to-itself", "inside wall.front, left", "inside wall.tab, left", "15:22", "panel wall.tab is glued to itself", ""},
	{"glue-twice", "opens by itself", "glue wall.front outside wall.tab\nopens by itself", "17:6", "wall.front and wall.tab are glued together already", ""},
	{"turned-range", "front, left", "front, turned -90", "15:41", "turned -90 is not within one turn", ""},
	{"turned-range", "front, left", "front, turned 360", "15:41", "turned 360 is not within one turn", ""},
	{"opens-range", "opens by itself", "opens at wall.1 to 181", "17:20", "the card opens to 181 deg", ""},
	{"pull-itself", "opens by itself", "opens by pulling wall from wall", "17:28", "piece wall is pulled from itself", ""},
	{"keep-empty", "wall.tab = 10", "3 = 10", "18:6", "this relation holds no measure of the card", ""},
	{"edge-range", "edge 3", "edge -3", "19:31", "an edge of -3", ""},
	{"off-marks", "at 40, 90", "at 40.5, 89.75", "7:19", "40.5, 89.75 are not on the marks, which are 1 mm apart", ""},
}

func TestRules(t *testing.T) {
	if _, problems := Parse("base.card", []byte(base)); len(problems) > 0 {
		t.Fatalf("the recipe that the tests spoil has problems:\n%s", printed(problems))
	}
	for _, test := range ruleTests {
		t.Run(test.rule+" "+test.where, func(t *testing.T) {
			text := strings.Replace(base, test.old, test.new, 1)
			if text == base {
				t.Fatalf("nothing was replaced: %q", test.old)
			}
			r, problems := Parse("base.card", []byte(text))
			if (r == nil) != problems.HasErrors() {
				t.Errorf("the recipe is nil: %v; there are errors: %v", r == nil, problems.HasErrors())
			}
			p, ok := find(problems, test.rule, test.where)
			if !ok {
				t.Fatalf("no %s at %s; there are\n%s", test.rule, test.where, printed(problems))
			}
			if !strings.Contains(p.What, test.what) {
				t.Errorf("it says %q, want %q", p.What, test.what)
			}
			if p.Needs == "" && p.Rule != "score-outside" && p.Rule != "unknown-line" {
				t.Errorf("it does not say what would be right: %v", p)
			}
			cured, ok := Cure([]byte(text), p)
			if ok != (test.try != "") || ok && p.Try != test.try {
				t.Fatalf("Try is %q, want %q", p.Try, test.try)
			}
			if !ok {
				return
			}
			_, problems = Parse("base.card", cured)
			if p, still := find(problems, test.rule, test.where); still {
				t.Errorf("after the Try the problem is still there: %v\n%s", p, cured)
			}
			if _, problems := Read("base.card", cured); len(problems) > 0 {
				t.Errorf("after the Try the text cannot be read:\n%s", printed(problems))
			}
		})
	}
}

// find returns the problem with a rule at line:column.
func find(problems problem.List, rule, where string) (problem.Problem, bool) {
	for _, p := range problems {
		if p.Rule == rule && fmt.Sprintf("%d:%d", p.Where.Line, p.Where.Column) == where {
			return p, true
		}
	}
	return problem.Problem{}, false
}

// Every rule that the package comments list has a test here, save those that no text can cause or that stand elsewhere.
func TestRulesAreListedAndTested(t *testing.T) {
	elsewhere := map[string]string{
		"file-size":     "TestWholeTextRefused",
		"not-text":      "TestNotText",
		"more-problems": "TestManyProblems",
		"outline-size":  "package card: a recipe takes the size from the outline",
	}
	listed := map[string]bool{}
	for _, path := range []string{"doc.go", "../card/doc.go"} {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		rules := regexp.MustCompile(`(?m)^//\t([a-z-]+)  +\S`).FindAllSubmatch(text, -1)
		if len(rules) < 20 {
			t.Fatalf("%s lists %d rules", path, len(rules))
		}
		for _, m := range rules {
			listed[string(m[1])] = true
		}
	}
	tested := map[string]bool{}
	for _, test := range ruleTests {
		tested[test.rule] = true
		if !listed[test.rule] {
			t.Errorf("rule %s is in no package comment", test.rule)
		}
	}
	for rule := range listed {
		if !tested[rule] && elsewhere[rule] == "" {
			t.Errorf("rule %s has no test", rule)
		}
	}
}
