package cutlist

import (
	"strings"

	"foldwright/length"
)

// unitWord is a word behind a number. Said is true for a unit of length; foreign names any other thing that is counted
// so (a grammage, an angle), which is no length of a piece.
type unitWord struct {
	said    bool
	unit    length.Unit
	foreign string
}

var unitWords = map[string]unitWord{
	"mm": {true, length.MM, ""}, "mms": {true, length.MM, ""}, "millimetre": {true, length.MM, ""}, "millimetres": {true, length.MM, ""},
	"millimeter": {true, length.MM, ""}, "millimeters": {true, length.MM, ""},
	"cm": {true, length.CM, ""}, "cms": {true, length.CM, ""}, "centimetre": {true, length.CM, ""}, "centimetres": {true, length.CM, ""},
	"centimeter": {true, length.CM, ""}, "centimeters": {true, length.CM, ""},
	"in": {true, length.IN, ""}, "ins": {true, length.IN, ""}, "inch": {true, length.IN, ""}, "inches": {true, length.IN, ""}, "inchs": {true, length.IN, ""},
	"gsm": {foreign: "gsm"}, "g": {foreign: "gsm"}, "gm": {foreign: "gsm"}, "gram": {foreign: "gsm"}, "grams": {foreign: "gsm"}, "gramme": {foreign: "gsm"},
	"lb": {foreign: "lb"}, "lbs": {foreign: "lb"}, "pt": {foreign: "pt"}, "deg": {foreign: "deg"}, "degrees": {foreign: "deg"}, "degree": {foreign: "deg"},
	"m": {foreign: "m"}, "metre": {foreign: "m"}, "metres": {foreign: "m"}, "meter": {foreign: "m"}, "meters": {foreign: "m"},
	"ft": {foreign: "ft"}, "foot": {foreign: "ft"}, "feet": {foreign: "ft"}, "yard": {foreign: "yd"}, "yards": {foreign: "yd"},
	"micron": {foreign: "micron"}, "microns": {foreign: "micron"}, "thou": {foreign: "thou"}, "px": {foreign: "px"}, "percent": {foreign: "%"},
	"minutes": {foreign: "min"}, "hours": {foreign: "h"}, "am": {foreign: "h"}, "pm": {foreign: "h"}, "st": {foreign: "th"}, "nd": {foreign: "th"},
	"rd": {foreign: "th"}, "th": {foreign: "th"},
}

var oneWords = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
	"twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var tenWords = map[string]int{"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

var partWords = map[string]int{
	"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4, "fifth": 5, "fifths": 5,
	"eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16,
}

// set is a set of words.
type set map[string]bool

// Words that begin or belong to the scores of a piece.
var scoreWords = set{
	"score": true, "scores": true, "scored": true, "scoring": true, "scorelines": true, "scoreline": true, "score-lines": true, "score-line": true,
	"crease": true, "creases": true, "creased": true, "creasing": true,
}

// foldWords do the same where "at", "every" or "in half" comes next to them.
var foldWords = set{"fold": true, "folds": true, "folded": true}

// Words inside a phrase of scores that say nothing of their own.
var scoreFill = set{
	"line": true, "lines": true, "mark": true, "marks": true, "it": true, "this": true, "these": true, "each": true, "them": true, "both": true, "all": true,
	"one": true, "of": true, "a": true, "an": true, "the": true, "with": true, "board": true, "tool": true, "at": true, "on": true, "along": true, "down": true,
	"and": true, "then": true, "to": true, "as": true, "follows": true, "in": true, "also": true, "piece": true, "pieces": true, "card": true, "strip": true,
	"strips": true, "fold": true, "folds": true, "folded": true, "are": true, "is": true, "lightly": true, "again": true, "side": true, "edge": true, "your": true, "its": true,
	"border": true, "measurements": true, "positions": true, "points": true, "fully": true, "following": true, "well": true, "valley": false,
	"score": true, "scores": true, "scored": true, "scoring": true, "crease": true, "creases": true, "creased": true,
}

// Words that make a size one of a decoration, an envelope or an opening, none of which is a piece with scores.
var decoWords = set{
	"mat": true, "mats": true, "matt": true, "matted": true, "matting": true, "topper": true, "toppers": true, "layer": true, "layers": true, "layered": true,
	"sentiment": true, "envelope": true, "envelopes": true, "ribbon": true, "acetate": true, "die": true, "dies": true, "aperture": true, "apertures": true,
	"image": true, "stamp": true, "stamped": true, "window": true, "windows": true, "photo": true, "fits": true, "finished": true, "closed": true,
	"oval": true, "circle": true, "punch": true, "slit": true, "slits": true, "opening": true, "measures": false,
}

// Words of an instruction that is handed back where it was not used.
var instructions = set{
	"glue": true, "glued": true, "stick": true, "adhere": true, "tape": true, "attach": true, "fold": true, "folds": true, "folded": true, "mountain": true,
	"valley": true, "mat": true, "mats": true, "topper": true, "toppers": true, "score": true, "scored": true, "crease": true, "window": true, "windows": true,
	"trim": true, "snip": true, "wedge": true, "mitre": true, "slit": true, "slits": true, "punch": true, "envelope": true, "half": true,
}

// countNouns stand behind the number of pieces.
var countNouns = set{
	"piece": true, "pieces": true, "pcs": true, "pc": true, "strip": true, "strips": true, "length": true, "lengths": true, "off": true, "copies": true, "copy": true,
	"rectangles": true, "rectangle": true, "bits": true, "panels": true, "panel": true, "sheets": true, "sheet": true, "of": true, "times": true, "identical": true, "matching": true,
	"more": true, "each": true, "squares": true, "bands": true, "band": true,
}

// sizeLeads stand between pieces and the size of each: two springs, each measuring 9 1/2 x 2 1/2.
var sizeLeads = set{
	"each": true, "one": true, "both": true, "all": true, "of": true, "them": true, "which": true, "that": true, "is": true, "are": true,
	"measuring": true, "measure": true, "measures": true, "sized": true,
}

// makeWords stand before the number of pieces.
var makeWords = set{"cut": true, "make": true, "need": true, "prepare": true, "take": true, "qty": true, "quantity": true, "cutting": true, "making": true}

// measureWords mean all the numbers of a text: all sizes in mm.
var measureWords = set{
	"measurements": true, "sizes": true, "dimensions": true, "units": true, "unit": true, "lengths": true, "figures": true, "numbers": true,
}

// backWords say that what stands before them is meant.
var backWords = set{"these": true, "them": true, "this": true, "those": true, "it": true}

// paperWords mean card stock.
var paperWords = set{"card": true, "cardstock": true, "cardboard": true, "stock": true, "paper": true, "board": true, "card-stock": true}

var colours = set{
	"white": true, "navy": true, "black": true, "cream": true, "ivory": true, "kraft": true, "grey": true, "gray": true, "blue": true, "red": true, "green": true,
	"sand": true, "stone": true, "sky": true, "teal": true, "yellow": true, "orange": true, "pink": true, "purple": true, "brown": true, "silver": true, "gold": true,
	"slate": true, "coral": true, "mint": true, "turquoise": true, "aqua": true, "beige": true, "buff": true, "charcoal": true, "rust": true, "lilac": true,
}

// shades go before a colour or another word for a stock.
var shades = set{"dark": true, "light": true, "pale": true, "deep": true, "smooth": true, "textured": true, "plain": true, "heavy": true, "bright": true, "soft": true, "thick": true, "matching": false}

// nameless words are no name of a piece.
var nameless = set{
	"the": true, "a": true, "an": true, "for": true, "of": true, "from": true, "out": true, "in": true, "on": true, "to": true, "and": true, "with": true, "your": true, "my": true,
	"you": true, "you'll": true, "youll": true, "need": true, "cut": true, "cutting": true, "make": true, "take": true, "using": true, "use": true, "get": true, "grab": true, "then": true, "next": true,
	"piece": true, "pieces": true, "strip": true, "strips": true, "part": true, "panel": true, "panels": true, "is": true, "are": true, "measures": true, "measuring": true, "measure": true,
	"size": true, "sizes": true, "list": true, "materials": true, "instructions": true, "will": true, "we": true, "we'll": true, "i": true, "also": true, "now": true, "first": true, "second": true,
	"third": true, "lastly": true, "finally": true, "trim": true, "start": true, "by": true, "off": true, "each": true, "both": true, "all": true, "that": true, "this": true, "it": true, "these": true,
	"them": true, "more": true, "another": true, "other": true, "same": true, "score": true, "scored": true, "scores": true, "fold": true, "folds": true, "folded": true, "pair": true, "pcs": true, "pc": true, "qty": true, "quantity": true, "length": true,
	"lengths": true, "main": false, "at": true, "gsm": true, "copies": true, "copy": true, "sheet": true, "sheets": true, "x": true, "long": true, "wide": true, "high": true, "tall": true, "deep": true,
	"dimensions": true, "width": true, "height": true, "cm": true, "mm": true, "inches": true, "inch": true, "let's": true, "i'll": true, "have": true, "begin": true, "no": true, "not": true, "so": true, "be": true,
	"into": true, "project": true, "supplies": true, "measurements": true, "here": true, "step": true, "notes": true, "note": true, "tip": true, "draw": true, "prepare": true, "must": true, "should": true, "has": true, "as": true, "rectangle": true,
	"rectangles": true, "bit": true, "bits": true, "off-cut": true, "one": true, "two": true, "three": true, "four": true, "five": true, "six": true, "identical": true, "matching": true, "want": true, "wants": true, "there": true, "here's": true, "a2": true, "a3": true, "a4": true, "a5": true, "a6": true, "guide": true, "body": false,
}

// stopsName says whether a word cannot be in the name of a piece.
func stopsName(w string) bool {
	return nameless[w] || paperWords[w] || colours[w] || shades[w] || scoreWords[w] || decoWords[w]
}

// singular takes the s off a plural.
func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
		return w[:len(w)-1]
	}
	return w
}
