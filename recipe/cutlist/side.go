package cutlist

// endsAt returns the item behind "1/2 in from each end" if that stands at k.
func (p *parser) endsAt(k int) int {
	i := k + 1
	for range 2 {
		if w := p.at(i).text; w == "in" || w == "away" {
			i++
		}
	}
	if p.at(i).text != "from" && p.at(i).text != "at" {
		return k
	}
	i++
	if w := p.at(i).text; p.at(i+1).text == "and" && (w == "left" && p.at(i+2).text == "right" || w == "top" && p.at(i+2).text == "bottom") {
		i += 2
	} else if w != "each" && w != "both" && w != "either" && w != "every" {
		return k
	}
	for i++; ; i++ {
		switch p.at(i).text {
		case "of", "the", "short", "outer", "4":
			continue
		case "end", "ends", "side", "sides", "edge", "edges":
			return i + 1
		}
		return k
	}
}

// fromAt reads "from the right"; it returns k where that does not stand.
func (p *parser) fromAt(k int) (fromSide, int) {
	if w := p.at(k).text; w != "from" && w != "measuring" && w != "measured" {
		return fromUnsaid, k
	}
	i := k + 1
	for range 3 {
		if w := p.at(i).text; w == "from" || w == "the" || w == "its" {
			i++
		}
	}
	f := fromUnsaid
	switch p.at(i).text {
	case "left", "left-hand":
		f = fromLeft
	case "right", "right-hand":
		f = fromRight
	case "top":
		f = fromTop
	case "bottom":
		f = fromBottom
	default:
		return f, k
	}
	i++
	for range 2 {
		if w := p.at(i).text; w == "edge" || w == "side" || w == "end" || w == "hand" {
			i++
		}
	}
	return f, i
}

// directionAt reads the words for a side: long side, short edge, 3 in side, top, vertically.
func (p *parser) directionAt(k int) (direction, int) {
	t, next := p.at(k), p.at(k+1)
	if t.num != nil {
		if next.kind == word && (next.text == "side" || next.text == "sides" || next.text == "edge" || next.text == "edges" || next.text == "length") && p.numberAt(k) {
			return direction{namedSide, k}, k + 2
		}
		return direction{}, k
	}
	if t.kind != word {
		return direction{}, k
	}
	if d, end := p.everyWay(k); end > k {
		return d, end
	}
	side := next.kind == word && (next.text == "side" || next.text == "sides" || next.text == "edge" || next.text == "edges" || next.text == "length" || next.text == "way" || next.text == "dimension")
	end := k + 1
	if side {
		end++
	}
	before := p.at(k - 1).text
	switch t.text {
	case "long", "longer", "longest":
		if side {
			return direction{kind: longSide}, end
		}
	case "short", "shorter", "shortest":
		if side {
			return direction{kind: shortSide}, end
		}
	case "long-side", "long-edge", "length":
		return direction{kind: longSide}, k + 1
	case "short-side", "short-edge":
		return direction{kind: shortSide}, k + 1
	case "vertically", "vertical", "upright":
		return direction{kind: acrossPiece}, k + 1
	case "horizontally", "horizontal", "level":
		return direction{kind: upPiece}, k + 1
	case "width", "top", "bottom":
		if before == "the" || before == "along" || before == "on" || before == "across" {
			return direction{kind: acrossPiece}, end
		}
	case "height", "left", "right":
		if before == "the" || before == "along" || before == "on" || before == "down" || before == "up" {
			return direction{kind: upPiece}, end
		}
	case "across":
		if next.text == "at" || p.numberAt(k+1) || next.text == ":" {
			return direction{kind: acrossPiece}, k + 1
		}
	case "up":
		if next.text == "at" || next.text == ":" {
			return direction{kind: upPiece}, k + 1
		}
	}
	return direction{}, k
}

// everyWay reads "both directions" and "all four sides" at k.
func (p *parser) everyWay(k int) (direction, int) {
	next := p.at(k + 1)
	switch p.at(k).text {
	case "both":
		if next.text == "directions" || next.text == "ways" {
			return direction{kind: eachWay}, k + 2
		}
	case "all":
		i := k + 1
		for w := p.at(i).text; w == "4" || w == "the" || w == "way" || w == "of"; w = p.at(i).text {
			i++
		}
		if w := p.at(i).text; w == "round" || w == "around" {
			if w := p.at(i + 1).text; w != "sides" && w != "edges" {
				return direction{kind: allSides}, i + 1
			}
			i++
		}
		if w := p.at(i).text; w == "sides" || w == "edges" {
			return direction{kind: allSides}, i + 1
		}
	case "each", "every":
		i := k + 1
		for w := p.at(i).text; w == "4" || w == "the" || w == "of" || w == "single"; w = p.at(i).text {
			i++
		}
		if w := p.at(i).text; w == "side" || w == "edge" || i > k+1 && (w == "sides" || w == "edges") {
			return direction{kind: allSides}, i + 1
		}
	}
	return direction{}, k
}
