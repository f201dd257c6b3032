package cutlist

import (
	"strings"
	"unicode"

	"foldwright/length"
)

// column is what one column of a table holds.
type column struct {
	kind  columnKind
	said  bool // the header says a unit
	unit  length.Unit
	cut   bool
	start int // in bytes from the start of the line
}

type columnKind uint8

const (
	otherColumn columnKind = iota
	nameColumn
	sizeColumn
	scoreColumn
	countColumn
	stockColumn
	widthColumn
	heightColumn
)

var columnWords = map[string]columnKind{
	"piece": nameColumn, "name": nameColumn, "part": nameColumn, "item": nameColumn, "what": nameColumn,
	"size": sizeColumn, "sizes": sizeColumn, "dimensions": sizeColumn, "measurements": sizeColumn, "measures": sizeColumn, "cut": sizeColumn, "cut-size": sizeColumn,
	"score": scoreColumn, "scores": scoreColumn, "scored": scoreColumn, "scoring": scoreColumn, "creases": scoreColumn, "fold": scoreColumn, "folds": scoreColumn,
	"qty": countColumn, "quantity": countColumn, "count": countColumn, "no": countColumn, "number": countColumn, "how": countColumn, "copies": countColumn,
	"pieces": countColumn, "pcs": countColumn, "times": countColumn,
	"card": stockColumn, "stock": stockColumn, "colour": stockColumn, "color": stockColumn, "material": stockColumn, "paper": stockColumn, "cardstock": stockColumn,
	"width": widthColumn, "w": widthColumn, "across": widthColumn, "height": heightColumn, "h": heightColumn, "up": heightColumn,
	"note": otherColumn, "notes": otherColumn, "remarks": otherColumn, "side": otherColumn, "direction": otherColumn, "use": otherColumn,
}

// row is a line of a table; columns is nil for its header and for a line of dashes.
type row struct {
	columns []column
	starts  []int // where its cells start, in bytes of the text; one per column
	end     int
}

// tables finds the tables of a text by their headers. Rows are found by the number of their line; cells holds the
// offsets of cells that only spaces divide, in order.
func tables(text string) (rows map[int]row, cells []int) {
	rows = map[int]row{}
	var head []column
	sep, line, off := "", 0, 0
	for l := range strings.SplitSeq(text, "\n") {
		line++
		starts, s := split(l)
		switch {
		case len(starts) < 2 || head != nil && s != sep:
			head = nil
			if c := header(l, starts); c != nil {
				head, sep = c, s
				rows[line] = row{end: off + len(l)}
			}
		case head == nil:
			if head = header(l, starts); head != nil {
				sep = s
				rows[line] = row{end: off + len(l)}
			}
		case strings.Trim(l, "|-:=+ \t") == "":
			rows[line] = row{end: off + len(l)}
		default:
			rows[line] = row{columns: head, starts: place(starts, head, off, s), end: off + len(l)}
		}
		if rows[line].end > 0 && s == " " {
			for _, at := range starts[1:] {
				cells = append(cells, off+at)
			}
		}
		off += len(l) + 1
	}
	return rows, cells
}

// split returns where the cells of a line start, and what divides them: |, a tab, or two and more spaces (" ").
func split(l string) (starts []int, sep string) {
	switch {
	case strings.Contains(l, "|"):
		return cellsAt(l, '|'), "|"
	case strings.Contains(strings.Trim(l, "\t "), "\t"):
		return cellsAt(l, '\t'), "\t"
	}
	gap := 2
	for i, r := range l {
		if unicode.IsSpace(r) {
			gap++
			continue
		}
		if gap >= 2 {
			starts = append(starts, i)
		}
		gap = 0
	}
	return starts, " "
}

// cellsAt returns where the cells between separators start; a separator at the very start begins no empty cell.
func cellsAt(l string, sep byte) []int {
	var starts []int
	if sep != '|' || !strings.HasPrefix(strings.TrimSpace(l), "|") {
		starts = append(starts, 0)
	}
	last := len(strings.TrimRight(l, " \r"))
	for i := 0; i < len(l); i++ {
		if l[i] == sep && (sep != '|' || i+1 < last) {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// header returns the columns of a line if it is the header of a table: every cell begins with a word for a column, and
// one of them holds sizes.
func header(l string, starts []int) []column {
	if len(starts) < 2 || len(starts) > 12 {
		return nil
	}
	var out []column
	sizes := 0
	for i, at := range starts {
		end := len(l)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		c, ok := columnOf(l[at:end])
		if !ok {
			return nil
		}
		c.start = at
		if c.kind == sizeColumn || c.kind == widthColumn {
			sizes++
		}
		out = append(out, c)
	}
	if sizes == 0 {
		return nil
	}
	for i := range out {
		if out[i].cut && sizes > 1 { // beside a column of sizes it says how many
			out[i].kind = countColumn
		}
	}
	return out
}

func columnOf(cell string) (column, bool) {
	words := strings.FieldsFunc(strings.ToLower(cell), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' })
	if len(words) == 0 || len(words) > 5 || strings.ContainsFunc(cell, unicode.IsDigit) {
		return column{}, false
	}
	kind, ok := columnWords[words[0]]
	c := column{kind: kind, cut: len(words) == 1 && words[0] == "cut"}
	for _, w := range words[1:] {
		if k, known := columnWords[w]; known && w != "cut" && kind != scoreColumn { // cut size, piece size
			if c.kind = k; k == nameColumn {
				c.kind = kind
			}
		}
		if u := unitWords[w]; u.said {
			c.said, c.unit = true, u.unit
		}
	}
	return c, ok
}

// place gives every column its cell: in order where there are as many, else the one that starts nearest. Other cells
// belong to the one before them.
func place(starts []int, head []column, off int, sep string) []int {
	out := make([]int, len(head))
	for j := range out {
		out[j] = -1
		if sep != " " || len(starts) == len(head) {
			if j < len(starts) {
				out[j] = off + starts[j]
			}
			continue
		}
		i := nearest(len(starts), func(i int) int { return abs(head[j].start - starts[i]) })
		if nearest(len(head), func(k int) int { return abs(head[k].start - starts[i]) }) == j {
			out[j] = off + starts[i]
		}
	}
	return out
}

// nearest returns the i below n, at least 1, for which away is smallest.
func nearest(n int, away func(i int) int) int {
	best := 0
	for i := range n {
		if away(i) < away(best) {
			best = i
		}
	}
	return best
}

func abs(n int) int { return max(n, -n) }

// soften drops the line ends inside wrapped sentences. hard holds the lines of tables, whose ends stay.
func soften(in []item, hard map[int]row) []item {
	out := make([]item, 0, len(in))
	for i, t := range in {
		if t.kind == brk && t.text == "line" && i > 0 && i+1 < len(in) && !isRow(hard, t.line) && !isRow(hard, t.line+1) && wraps(in, i) {
			continue
		}
		out = append(out, t)
	}
	return out
}

func isRow(rows map[int]row, line int) bool { _, ok := rows[line]; return ok }

// connectors end no sentence: what follows them on the next line belongs to it.
var connectors = set{
	",": true, "and": true, "&": true, "x": true, "by": true, "at": true, "the": true, "of": true, "a": true, "from": true, "to": true, "or": true, "every": true,
	"along": true, "on": true, "/": true, "then": true, "-": true, "with": true, "in": true,
}

// lineWidth is how long a line must be, in characters, for its end to be a mere wrap.
const lineWidth = 40

// wraps says whether the break i only wraps a line.
func wraps(in []item, i int) bool {
	p, q := in[i-1], in[i+1]
	if p.kind == brk || q.kind == brk || isBullet(in, i+1) {
		return false
	}
	joined := connectors[p.text] && (p.kind == word || p.kind == sign)
	switch {
	case joined && !(p.kind == word && p.text == "in" && q.upper):
		return true
	case (q.text == "and" || q.text == "&" || q.text == ",") && (p.kind == digits || p.kind == part || p.kind == word || p.text == `"`):
		return !q.upper
	case isMarker(in, i+1):
		return false
	case p.kind == sign && (p.text == "." || p.text == ":" || p.text == "!" || p.text == "?" || p.text == ";"):
		return false
	case in[i].col <= lineWidth, (beginsSize(in, i+1) || namesSize(in, i+1)) && hasBy(in, i-1):
		return false
	}
	return q.kind == word && !q.upper || q.kind == digits || q.kind == part || q.text == "("
}

// beginsSize says whether a number and "by" stand at k: a line that begins so, below one with a size, is a list's next.
func beginsSize(in []item, k int) bool {
	for i := k; i < len(in) && i < k+9; i++ {
		t := in[i]
		switch {
		case i > k && (t.text == "x" || t.text == "by"):
			return true
		case t.kind != digits && t.kind != part && t.text != "/" && t.text != "." && t.text != "," && t.text != "-" && t.text != `"` && !unitWords[t.text].said:
			return false
		}
	}
	return false
}

// namesSize says whether a name with a size stands at k: spring x2 228 x 60; wall: 252 x 72.
func namesSize(in []item, k int) bool {
	if in[k].kind != word || unitWords[in[k].text].said || connectors[in[k].text] || nameless[in[k].text] || scoreWords[in[k].text] {
		return false
	}
	for i := k + 1; i < len(in) && i < k+6; i++ {
		if t := in[i]; t.kind == digits || t.kind == part {
			return beginsSize(in, i) || i+1 < len(in) && in[i-1].text == "x" && beginsSize(in, i+1)
		}
	}
	return false
}

// hasBy says whether a line that ends with item k holds the "by" of a size.
func hasBy(in []item, k int) bool {
	for ; k > 0; k-- {
		if in[k].text == "x" || in[k].text == "by" {
			return true
		}
		if in[k].first || in[k].kind == brk {
			return false
		}
	}
	return false
}

// isBullet says whether the item k is the bullet of a list.
func isBullet(in []item, k int) bool {
	t := in[k]
	if !t.first || t.kind != sign || k+1 >= len(in) || in[k+1].kind == brk {
		return false
	}
	return t.text == "•" || (t.text == "-" || t.text == "x" || t.text == "+" || t.text == ">") && (in[k+1].gap || t.text == "-")
}

// isMarker says whether a number of a list stands at k: 1. or 2) or (3) at the start of a line, with a space behind.
func isMarker(in []item, k int) bool {
	if k+2 >= len(in) || !in[k].first {
		return false
	}
	t := in[k]
	if t.text == "(" && (in[k+1].kind == digits || in[k+1].num != nil) && in[k+2].text == ")" {
		return len(in[k+1].text) <= 2 && k+3 < len(in) && in[k+3].kind != brk
	}
	plain := t.kind == digits || t.num != nil && t.num.whole && !t.num.said && !t.num.word
	return plain && len(t.text) <= 2 && !in[k+1].gap && (in[k+1].text == "." || in[k+1].text == ")") && in[k+2].gap && in[k+2].kind != brk
}

// isLetter says whether a letter that numbers a list stands at k: A. or B.
func isLetter(in []item, k int) bool {
	return k >= 0 && in[k].first && in[k].kind == word && len(in[k].text) == 1 && in[k].upper
}

// stops makes breaks of the full stops that end a sentence.
func stops(in []item) {
	for i := range in {
		t := &in[i]
		if t.kind != sign || t.text != "." && t.text != "!" && t.text != "?" || isMarker(in, max(i-1, 0)) || isLetter(in, i-1) {
			continue
		}
		if i+1 == len(in) || in[i+1].gap || in[i+1].kind == brk {
			t.kind, t.text, t.used = brk, "stop", true
		}
	}
}
