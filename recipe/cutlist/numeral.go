package cutlist

import (
	"strconv"
	"strings"

	"foldwright/length"
)

// numeral is a number as it was typed.
type numeral struct {
	text string // as length.Parse reads it, without a unit: 10, 10.5, 10 1/2
	// run holds the numbers of 4,4 or 42,78,120: commas without a space, which are decimal marks or stand between numbers.
	run     []string
	unit    length.Unit
	said    bool   // the unit stands behind the number
	foreign string // another unit than one of length: gsm, deg
	word    bool   // written in words
	whole   bool   // digits, or a word, without fraction or decimals
	frac    bool   // written with a fraction
	minus   bool
	// other is the same length in another unit, in brackets behind it.
	other *item
}

// count returns a number that may say how many pieces or scores there are.
func (n *numeral) count() (int, bool) {
	if !n.whole || n.said || n.foreign != "" || n.run != nil || n.minus || len(n.text) > 3 {
		return 0, false
	}
	v, err := strconv.Atoi(n.text)
	return v, err == nil && v > 0
}

// combiner makes numerals of digits, fractions, number words and units.
type combiner struct {
	in  []item
	i   int
	out []item
}

// numerals returns the items with every number as one item.
func numerals(in []item) []item {
	c := &combiner{in: splitHyphens(in)}
	c.out = make([]item, 0, len(c.in))
	for c.i < len(c.in) {
		if !c.number() {
			c.out = append(c.out, c.in[c.i])
			c.i++
		}
	}
	return others(c.out)
}

// splitHyphens takes half-inch and three-quarters apart; back-left stays whole.
func splitHyphens(in []item) []item {
	out := make([]item, 0, len(in))
	for _, t := range in {
		if t.kind != word || !strings.Contains(t.text, "-") {
			out = append(out, t)
			continue
		}
		words := strings.Split(t.text, "-")
		if len(t.text) > 60 || len(t.text) != t.end-t.start || !allNumberWords(words) {
			out = append(out, t)
			continue
		}
		at := 0
		for i, w := range words {
			p := t
			p.text, p.start, p.end, p.col = w, t.start+at, t.start+at+len(w), t.col+at
			p.gap, p.first = p.gap || i > 0, p.first && i == 0
			out = append(out, p)
			at += len(w) + 1
		}
	}
	return out
}

func allNumberWords(words []string) bool {
	for _, w := range words {
		if oneWords[w]+tenWords[w]+partWords[w] == 0 && !unitWords[w].said {
			return false
		}
	}
	return true
}

// at returns item k; a break beyond the end.
func (c *combiner) at(k int) *item {
	if k < len(c.in) {
		return &c.in[k]
	}
	return &item{kind: brk}
}

func (c *combiner) is(k int, texts ...string) bool {
	t := c.at(k)
	if t.kind != word && t.kind != sign {
		return false
	}
	for _, s := range texts {
		if t.text == s {
			return true
		}
	}
	return false
}

// glued says whether item k follows the one before without a space.
func (c *combiner) glued(k int) bool { t := c.at(k); return t.kind != brk && !t.gap }

// number puts the numeral that begins here, if one does.
func (c *combiner) number() bool {
	n, next := &numeral{}, c.i
	switch t := c.at(c.i); {
	case t.kind == digits:
		next = c.digits(n)
	case t.kind == part:
		n.text, n.frac, next = t.text, true, c.i+1
	case t.kind == sign && t.text == "." && t.gap && c.at(c.i+1).kind == digits && c.glued(c.i+1):
		n.text, next = "0."+c.at(c.i+1).text, c.i+2
	case t.kind == word:
		next = c.words(n)
	}
	if next == c.i {
		return false
	}
	next = c.unit(n, next)
	if c.eachOne(n, next) {
		return false
	}
	n.minus = c.behindMinus()
	t := *c.at(c.i)
	t.kind, t.num, t.end = number, n, c.at(next-1).end
	t.text = n.text
	c.out = append(c.out, t)
	c.i = next
	return true
}

// eachOne says whether the one of "two strips, each one 9 x 2" counts and measures nothing: neither a unit nor "by"
// follows.
func (c *combiner) eachOne(n *numeral, next int) bool {
	k := len(c.out) - 1
	return k >= 0 && c.out[k].kind == word && c.out[k].text == "each" && n.word && n.whole && n.text == "1" && !n.said && n.foreign == "" && !c.is(next, "x", "by")
}

// behindMinus says whether a minus belongs to the number: it stands behind a separator and right before the number.
func (c *combiner) behindMinus() bool {
	k := len(c.out) - 1
	if k < 1 || c.at(c.i).gap || c.out[k].kind != sign || c.out[k].text != "-" || !c.out[k].gap || c.out[k].first {
		return false
	}
	switch c.out[k-1].text {
	case ",", ";", "at", "x", "by", "and", "/":
		return true
	}
	return false
}

// digits reads a number that begins with digits, and returns the item behind it.
func (c *combiner) digits(n *numeral) int {
	n.text = c.at(c.i).text
	k := c.i + 1
	joined := func(mark string) bool { return c.is(k, mark) && c.glued(k) && c.at(k+1).kind == digits && c.glued(k+1) }
	switch {
	case joined("."):
		n.text += "." + c.at(k+1).text
		return k + 2
	case joined(",") && !c.partFollows(k+2):
		n.run = []string{n.text}
		for joined(",") && !c.partFollows(k+2) {
			n.run = append(n.run, c.at(k+1).text)
			k += 2
		}
		return k
	case joined("/") && proper(n.text, c.at(k+1).text) && !c.slashBefore() && !(c.is(k+2, "/") && c.glued(k+2)):
		n.text, n.frac = n.text+"/"+c.at(k+1).text, true
		return k + 2
	}
	n.whole = true
	return c.mixed(n, k)
}

func (c *combiner) slashBefore() bool {
	k := len(c.out) - 1
	return k >= 0 && c.out[k].text == "/" && !c.at(c.i).gap && !c.out[k].gap
}

// partFollows says whether digits before item k go on as a fraction or a decimal, and so are no decimals themselves.
func (c *combiner) partFollows(k int) bool {
	if c.is(k, ".") && c.glued(k) && c.at(k+1).kind == digits && c.glued(k+1) || c.is(k, "/") && c.glued(k) && c.at(k+1).kind == digits {
		return true
	}
	_, next := c.fraction(k)
	return next > k
}

// proper says whether two runs of digits make a fraction that a ruler has.
func proper(num, den string) bool {
	switch den {
	case "2", "3", "4", "5", "6", "8", "10", "12", "16", "20", "32", "64":
		a, err := strconv.Atoi(num)
		b, _ := strconv.Atoi(den)
		return err == nil && a > 0 && a < b
	}
	return false
}

// fraction reads the fraction behind a whole number: 1/2, ½, -1/2, "and a half". It returns "" and k where none stands.
func (c *combiner) fraction(k int) (string, int) {
	from := k
	if c.at(k).first {
		return "", from // on the next line stands something else
	}
	and := false
	switch {
	case c.is(k, "-") && c.glued(k) && c.glued(k+1):
		k++
	case c.is(k, "and", "&"):
		k, and = k+1, true
	}
	switch t := c.at(k); {
	case t.first:
	case t.kind == part && (t.gap || k == from || c.at(k-1).text == "-"):
		return t.text, k + 1
	case t.kind == digits && (t.gap || k > from) && c.is(k+1, "/") && c.glued(k+1) && c.at(k+2).kind == digits && c.glued(k+2) &&
		proper(t.text, c.at(k+2).text) && !(c.is(k+3, "/") && c.glued(k+3)):
		return t.text + "/" + c.at(k+2).text, k + 3
	case and:
		return c.partWord(k, from)
	}
	return "", from
}

// partWord reads "a half" or "three quarters" at k; it returns "" and from where none stands.
func (c *combiner) partWord(k, from int) (string, int) {
	top := 1
	if c.is(k, "a", "an") {
		k++
	} else if n := oneWords[c.at(k).text]; n > 0 {
		top, k = n, k+1
	}
	den := 0
	if c.at(k).kind == word {
		den = partWords[c.at(k).text]
	}
	if den == 0 || top >= den {
		return "", from
	}
	return strconv.Itoa(top) + "/" + strconv.Itoa(den), k + 1
}

// mixed adds a fraction to a whole number.
func (c *combiner) mixed(n *numeral, k int) int {
	f, next := c.fraction(k)
	if f != "" {
		n.text, n.frac, n.whole = n.text+" "+f, true, false
	}
	return next
}

// words reads a number in words, and returns the item behind it; c.i where none stands.
func (c *combiner) words(n *numeral) int {
	k := c.i
	n.word = true
	v := 0
	if t := tenWords[c.at(k).text]; t > 0 {
		v, k = t, k+1
	}
	if o := oneWords[c.at(k).text]; o > 0 && c.at(k).kind == word && (v == 0 || o < 10) {
		v, k = v+o, k+1
	}
	if v > 0 {
		n.text = strconv.Itoa(v)
		if den := c.partBehind(k, v); den > 0 {
			n.text, n.frac = n.text+"/"+strconv.Itoa(den), true
			return k + 1
		}
		n.whole = true
		return c.mixed(n, k)
	}
	if c.is(k, "a", "an") {
		if unitWords[c.at(k+1).text].said && !c.is(k+1, "in") && c.at(k+1).kind == word {
			n.text, n.whole = "1", true
			return k + 1
		}
		k++
	}
	if den := partWords[c.at(k).text]; den > 0 && c.at(k).kind == word && c.unitBehind(k+1) {
		n.text, n.frac = "1/"+strconv.Itoa(den), true
		return k + 1
	}
	return c.i
}

// partBehind returns the denominator of "quarters" in three quarters; 0 where none stands.
func (c *combiner) partBehind(k, v int) int {
	t := c.at(k)
	if t.kind != word {
		return 0
	}
	den := partWords[t.text]
	if den <= v || strings.HasSuffix(t.text, "s") != (v > 1) && !c.unitBehind(k+1) && den%2 == 1 {
		return 0
	}
	return den
}

// unitBehind says whether "inch", "of an inch" or "a cm" stands at k.
func (c *combiner) unitBehind(k int) bool {
	if c.is(k, "of") {
		k++
	}
	if c.is(k, "a", "an") {
		k++
	}
	t := c.at(k)
	return t.kind == word && unitWords[t.text].said && t.text != "in"
}

// unit reads the unit of a numeral at k and returns the item behind it.
func (c *combiner) unit(n *numeral, k int) int {
	at := k
	if n.frac && c.unitBehind(k) {
		for c.is(at, "of", "a", "an") {
			at++
		}
	}
	if c.is(at, "-") && c.glued(at) && c.glued(at+1) {
		at++
	}
	t := c.at(at)
	u := unitWords[t.text]
	switch {
	case t.kind == sign && t.text == `"` && (!t.gap || t.first || c.at(at+1).gap || c.at(at+1).kind != word):
		n.unit, n.said = length.IN, true
		return at + 1
	case t.kind == sign && (t.text == "'" || t.text == "°" || t.text == "%" || t.text == "µ") && !t.gap:
		n.foreign = t.text
		return at + 1
	case t.kind != word || t.text == "in" && !c.inIsUnit(at, n):
		return k
	case u.said:
		n.unit, n.said = u.unit, true
		at = c.dot(at + 1)
		if n.whole && n.text != "" && c.is(at, "and") {
			return c.wordsOnly(n, at)
		}
		return at
	case u.foreign == "ft" && c.at(at+1).kind == digits: // two feet 80 x 60
	case u.foreign != "" && !(n.word && u.foreign == "th") && !(u.foreign == "th" && t.gap):
		n.foreign = u.foreign
		return c.perArea(c.dot(at + 1))
	}
	return k
}

// wordsOnly reads "and a half" behind a unit: an inch and a half.
func (c *combiner) wordsOnly(n *numeral, k int) int {
	if !c.is(k+1, "a", "one", "three") {
		return k
	}
	f, next := c.partWord(k+1, k)
	if f == "" || c.unitBehind(next) {
		return k
	}
	n.text, n.frac, n.whole = n.text+" "+f, true, false
	return next
}

// dot passes over the full stop of an abbreviated unit, where the sentence goes on.
func (c *combiner) dot(k int) int {
	next := c.at(k + 1)
	if c.is(k, ".") && c.glued(k) && next.kind != brk && !next.upper {
		return k + 1
	}
	return k
}

// perArea passes over /m² behind g.
func (c *combiner) perArea(k int) int {
	if c.is(k, "/") && c.is(k+1, "m", "m2") {
		k += 2
		if c.is(k, "²") {
			k++
		}
	}
	return k
}

// inIsUnit tells the unit from the preposition: 9½ x 2½ in scored at, but 2 in navy.
func (c *combiner) inIsUnit(k int, n *numeral) bool {
	next := c.at(k + 1)
	if next.kind != word {
		return !n.word || n.frac || next.kind != brk
	}
	switch next.text {
	case "half", "halves", "thirds", "quarters", "the", "a", "an", "your", "my", "order", "total", "all", "each", "plain", "mm", "cm", "inches", "inch", "two", "any":
		return false
	}
	return !colours[next.text] && !shades[next.text] && !paperWords[next.text]
}

// others takes a length in brackets out of the text where it repeats the one before it in another unit: 5 in (12.7 cm).
func others(in []item) []item {
	out := make([]item, 0, len(in))
	for i := 0; i < len(in); i++ {
		t := in[i]
		if end := otherEnd(in, i); end > i {
			other := in[end]
			if in[i+1].text == "(" {
				other = in[end-1]
			}
			t.num.other, t.end = &other, in[end].end
			i = end
		}
		out = append(out, t)
	}
	return out
}

// otherEnd returns the last item of "(12.7 cm)", "= 12.7 cm" or "/ 12.7 cm" behind the number i; i where none stands.
func otherEnd(in []item, i int) int {
	n := in[i].num
	if n == nil || !n.said || i+2 >= len(in) {
		return i
	}
	open := in[i+1].kind == sign && in[i+1].text == "("
	if !open && in[i+1].text != "=" && in[i+1].text != "≈" && in[i+1].text != "/" && in[i+1].text != "or" {
		return i
	}
	k := i + 2
	for range 3 {
		if k < len(in) && (in[k].text == "=" || in[k].text == "≈" || in[k].text == "~" || in[k].text == "about" || in[k].text == "approx" || in[k].text == ".") {
			k++
		}
	}
	if k >= len(in) || in[k].num == nil || !in[k].num.said || in[k].num.unit == n.unit {
		return i
	}
	if open {
		if k+1 < len(in) && in[k+1].text == ")" {
			return k + 1
		}
		return i
	}
	if same(n, in[k].num) {
		return k
	}
	return i
}

// same says whether two lengths in two units are one measurement, rounded: within a sixteenth of an inch or 2 %.
func same(a, b *numeral) bool {
	x, okX := a.length(a.unit)
	y, okY := b.length(b.unit)
	return okX == nil && okY == nil && near(x, y)
}

func near(x, y length.Length) bool {
	d := (x - y).Abs()
	return d <= length.Inch/16 || d <= max(x.Abs(), y.Abs())/50
}

// decimal returns the text of the number; a comma without a space is a decimal mark.
func (n *numeral) decimal() string {
	if len(n.run) == 2 {
		return n.run[0] + "." + n.run[1]
	}
	return n.text
}

// length returns the exact length in a unit; commas without a space are decimal marks.
func (n *numeral) length(unit length.Unit) (length.Length, error) {
	text := n.decimal()
	if n.minus {
		text = "-" + text
	}
	return length.Parse(text, unit)
}
