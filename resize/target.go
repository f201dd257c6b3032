package resize

import (
	"errors"
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// Target reads what a card is to be brought to: a size such as 6x6in, 120x170mm or 4 1/4 x 5 1/2 in, or the name of an
// envelope (its size less the clearance), upright or lying as the card is.
//
// The note says how a name was understood; it is empty for a size.
// Errors: a text that is neither, with the names that come near.
func Target(text string, table *stock.Table, upright bool) (size card.Size, note string, err error) {
	text = strings.TrimSpace(text)
	if size, err := ParseSize(text); err == nil {
		return size, "", nil
	} else if looksLikeSize(text) {
		return card.Size{}, "", err
	}
	envelope, err := table.Envelope(text)
	if err != nil {
		return card.Size{}, "", unknown(text, err, table)
	}
	short, long := table.Holds(envelope)
	size = card.Size{W: short, H: long}
	if !upright {
		size = card.Size{W: long, H: short}
	}
	u := envelope.Unit
	note = fmt.Sprintf("envelope %s is %s x %s outside; a card of %s x %s goes into it", envelope.Name,
		envelope.Short.Human(u), envelope.Long.Human(u), size.W.Human(u), size.H.Human(u))
	if sheet, err := table.Sheet(text); err == nil {
		note += fmt.Sprintf(" (for the sheet %s write %s x %s)", sheet.Name, sheet.Short.Human(sheet.Unit), sheet.Long.Human(sheet.Unit))
	}
	return size, note, nil
}

func unknown(text string, err error, table *stock.Table) error {
	var u *stock.UnknownError
	if !errors.As(err, &u) || u.Near == "" && u.Elsewhere == "" {
		var names []string
		for _, e := range table.Envelopes() {
			names = append(names, e.Name)
		}
		if near, ok := problem.Suggest(text, names); ok {
			return fmt.Errorf("%q is no size and no envelope; did you mean %q? A size is written 120x170mm or 6x6in", text, near)
		}
		return fmt.Errorf("%q is no size and no envelope; write a size such as 120x170mm or 6x6in, or an envelope such as C6, DL or A7", text)
	}
	if u.Elsewhere == "sheet" {
		if sheet, err := table.Sheet(text); err == nil {
			return fmt.Errorf("%q is a sheet, not an envelope; for a card of its size write %s x %s", text,
				sheet.Short.Human(sheet.Unit), sheet.Long.Human(sheet.Unit))
		}
	}
	return fmt.Errorf("%w (a size is written 120x170mm or 6x6in)", err)
}

// looksLikeSize says whether a text was meant as a size: it begins with a digit and holds an x.
func looksLikeSize(text string) bool {
	return text != "" && strings.ContainsAny(text[:1], "-0123456789½¼¾⅛⅜⅝⅞.") && strings.ContainsAny(text, "xX×")
}

// ParseSize reads a width and a height: 6x6in, 120x170mm, 4 1/4 x 5 1/2 in. A unit behind the second number holds for
// the first too; there must be one.
func ParseSize(text string) (card.Size, error) {
	w, h, ok := strings.Cut(strings.NewReplacer("X", "x", "×", "x").Replace(text), "x")
	if !ok {
		return card.Size{}, fmt.Errorf("%q is not a size; write it as 120x170mm or 6x6in", text)
	}
	h = strings.TrimSpace(h)
	unit := length.MM
	switch {
	case strings.HasSuffix(h, "mm"):
	case strings.HasSuffix(h, "cm"):
		unit = length.CM
	case strings.HasSuffix(h, "in"), strings.HasSuffix(h, "\""), strings.HasSuffix(h, "″"):
		unit = length.IN
	default:
		return card.Size{}, fmt.Errorf("the size %q has no unit; write %smm or %sin", text, text, text)
	}
	var size card.Size
	var err error
	if size.W, err = length.Parse(w, unit); err != nil {
		return card.Size{}, err
	}
	if size.H, err = length.Parse(h, unit); err != nil {
		return card.Size{}, err
	}
	if size.W <= 0 || size.H <= 0 {
		return card.Size{}, fmt.Errorf("the size %q is no card: both numbers must be above zero", text)
	}
	return size, nil
}

// Marks reads the pitch of a ruler: 1mm, 1/8in, 5 mm.
func Marks(text string) (pitch length.Length, unit length.Unit, err error) {
	text = strings.TrimSpace(text)
	switch {
	case strings.HasSuffix(text, "mm"):
		unit = length.MM
	case strings.HasSuffix(text, "cm"):
		unit = length.CM
	case strings.HasSuffix(text, "in"), strings.HasSuffix(text, "\""):
		unit = length.IN
	default:
		return 0, 0, fmt.Errorf("the marks %q have no unit; write 1mm, 5mm, 1/8in or 1/16in", text)
	}
	pitch, err = length.Parse(text, unit)
	switch {
	case err != nil:
		err = fmt.Errorf("%w; marks that a ruler has: %s", err, strings.Join(length.RulerMarks(), ", "))
	case pitch <= 0:
		err = fmt.Errorf("the marks %q must be above zero", text)
	}
	return pitch, unit, err
}
