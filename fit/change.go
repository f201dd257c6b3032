package fit

import (
	"math"

	"foldwright/length"
	"foldwright/stock"
)

// Dim is what a mail class limits.
type Dim uint8

// What a mail class limits: the long and the short side, the thickness, all three together, the weight, the ratio of the
// long to the short side, the bump, and whether it bends.
const (
	Long Dim = iota
	Short
	Thickness
	Sum
	Mass
	Aspect
	Evenness
	Stiffness
)

// String returns long side, short side, thickness, sum of sides, weight, aspect, bump or stiffness.
func (d Dim) String() string {
	return [...]string{"long side", "short side", "thickness", "sum of sides", "weight", "aspect", "bump", "stiffness"}[d]
}

// Miss is a limit that an item does not keep. Have and Need are lengths, in Number for weights in grams and for ratios.
type Miss struct {
	Dim Dim
	// Under says that it is less than the smallest that is taken, not more than the largest.
	Under                  bool
	Have, Need             length.Length
	HaveNumber, NeedNumber float64
}

// Reason names the miss: "long side over maximum".
func (m Miss) Reason() string {
	switch {
	case m.Dim == Stiffness:
		return "does not bend"
	case m.Under:
		return m.Dim.String() + " under minimum"
	}
	return m.Dim.String() + " over maximum"
}

// hair is the weight in grams below which two weights are the same: sums of floats are not exact.
const hair = 1e-6

// Misses lists the limits of a class that an item does not keep. even is the bump above which a class that wants even
// letters, and says no number, is taken to refuse one.
func Misses(i Item, c stock.MailClass, even length.Length) []Miss {
	var out []Miss
	between := func(d Dim, have, least, most length.Length) {
		switch {
		case least > 0 && have < least:
			out = append(out, Miss{Dim: d, Under: true, Have: have, Need: least})
		case most > 0 && have > most:
			out = append(out, Miss{Dim: d, Have: have, Need: most})
		}
	}
	minLong, minShort := c.MinLong, c.MinShort
	if c.MinUpTo > 0 && i.Thick > c.MinUpTo {
		minLong, minShort = 0, 0
	}
	between(Long, i.Long, minLong, c.MaxLong)
	between(Short, i.Short, minShort, c.MaxShort)
	between(Thickness, i.Thick, c.MinThick, c.MaxThick)
	between(Sum, i.Long+i.Short+i.Thick, 0, c.MaxSum)
	if c.MaxGrams > 0 && i.Grams > c.MaxGrams+hair {
		out = append(out, Miss{Dim: Mass, HaveNumber: i.Grams, NeedNumber: c.MaxGrams})
	}
	switch ratio := float64(i.Long) / float64(i.Short); {
	case c.AspectMin > 0 && ratio < c.AspectMin:
		out = append(out, Miss{Dim: Aspect, Under: true, HaveNumber: ratio, NeedNumber: c.AspectMin})
	case c.AspectMax > 0 && ratio > c.AspectMax:
		out = append(out, Miss{Dim: Aspect, HaveNumber: ratio, NeedNumber: c.AspectMax})
	}
	if c.Even {
		if c.MaxBump > 0 {
			even = c.MaxBump
		}
		between(Evenness, i.Bump, 0, even)
	}
	if c.Flexible && i.Rigid {
		out = append(out, Miss{Dim: Stiffness})
	}
	return out
}

// Change is one thing that brings an item into a class: a side, the thickness or the weight made less or more, a bump made
// less, or something that does not bend left out.
type Change struct {
	Dim  Dim
	Less bool
	// Length is by how much; Grams for the weight.
	Length length.Length
	Grams  float64
}

// Words says the change: "2 mm thinner", "6 g lighter". What is not on a tenth of a millimetre or 1/32 in is rounded up.
func (c Change) Words(unit length.Unit) string {
	pitch := length.Millimetre / 10
	if unit == length.IN {
		pitch = length.Inch / 32
	}
	way := func(less, more string) string {
		if c.Less {
			return " " + less
		}
		return " " + more
	}
	switch c.Dim {
	case Long:
		return up(c.Length, pitch).Human(unit) + way("shorter", "longer")
	case Short:
		return up(c.Length, pitch).Human(unit) + way("narrower", "wider")
	case Thickness:
		return thin(upThin(c.Length, unit), unit) + way("thinner", "thicker")
	case Mass:
		return grams(c.Grams, unit) + way("lighter", "heavier")
	case Evenness:
		return "a bump that is " + thin(upThin(c.Length, unit), unit) + " less"
	}
	return "nothing stiff on it"
}

// upThin rounds a thickness up to what is printed: 0.1 mm, a hundredth of an inch.
func upThin(l length.Length, unit length.Unit) length.Length {
	if unit == length.IN {
		return up(l, length.Inch/100)
	}
	return up(l, length.Millimetre/10)
}

// Apply returns the item with a change made.
func (c Change) Apply(i Item) Item {
	by, weight := c.Length, c.Grams
	if c.Less {
		by, weight = -by, -weight
	}
	switch c.Dim {
	case Long:
		i.Long += by
	case Short:
		i.Short += by
	case Thickness:
		i.Thick += by
	case Mass:
		i.Grams += weight
	case Evenness:
		i.Bump += by
	case Stiffness:
		i.Rigid = false
	}
	return i
}

// rounds bounds how often an item is mended: each round keeps one more of some eight limits.
const rounds = 16

// changesInto returns the changes that bring an item into a class, by making it smaller where that does, else longer; nil
// where neither does.
func changesInto(i Item, c stock.MailClass, even length.Length) []Change {
	for _, longer := range []bool{false, true} {
		to := i
		for range rounds {
			misses := Misses(to, c, even)
			if len(misses) == 0 {
				return difference(i, to)
			}
			if to = mend(to, misses[0], longer); to.Short <= 0 || to.Long < to.Short || to.Thick <= 0 {
				break
			}
		}
	}
	return nil
}

// mend makes an item keep a limit. An aspect is mended on one side, to a tenth of a millimetre on the safe side.
func mend(i Item, m Miss, longer bool) Item {
	const tenth = length.Millimetre / 10
	switch m.Dim {
	case Long:
		i.Long = m.Need
		i.Short = min(i.Short, i.Long)
	case Short:
		i.Short = m.Need
		i.Long = max(i.Long, i.Short)
	case Thickness:
		i.Thick = m.Need
	case Sum:
		i.Long -= m.Have - m.Need
		i.Short = min(i.Short, i.Long)
	case Mass:
		i.Grams = m.NeedNumber
	case Aspect:
		switch {
		case m.Under && longer:
			i.Long = up(length.FromMM(i.Short.MM()*m.NeedNumber), tenth)
		case m.Under:
			i.Short = up(length.FromMM(i.Long.MM()/m.NeedNumber), tenth) - tenth
		default:
			i.Long = up(length.FromMM(i.Short.MM()*m.NeedNumber), tenth) - tenth
		}
	case Evenness:
		i.Bump = m.Need
	case Stiffness:
		i.Rigid = false
	}
	return i
}

// difference lists what was changed.
func difference(from, to Item) []Change {
	var out []Change
	add := func(d Dim, a, b length.Length) {
		if a != b {
			out = append(out, Change{Dim: d, Less: b < a, Length: (b - a).Abs()})
		}
	}
	add(Long, from.Long, to.Long)
	add(Short, from.Short, to.Short)
	add(Thickness, from.Thick, to.Thick)
	if math.Abs(from.Grams-to.Grams) > hair {
		out = append(out, Change{Dim: Mass, Less: to.Grams < from.Grams, Grams: math.Abs(to.Grams - from.Grams)})
	}
	add(Evenness, from.Bump, to.Bump)
	if from.Rigid != to.Rigid {
		out = append(out, Change{Dim: Stiffness, Less: true})
	}
	return out
}
