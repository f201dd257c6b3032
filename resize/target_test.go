package resize

import (
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/stock"
)

func TestParseSize(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		text string
		want card.Size
		says string // of the error
	}{
		{"6x6in", card.Size{W: 6 * in, H: 6 * in}, ""},
		{"120x170mm", card.Size{W: 120 * length.Millimetre, H: 170 * length.Millimetre}, ""},
		{"4 1/4 x 5 1/2 in", card.Size{W: 17 * in / 4, H: 11 * in / 2}, ""},
		{"4¼×5½\"", card.Size{W: 17 * in / 4, H: 11 * in / 2}, ""},
		{"12X17cm", card.Size{W: 120 * length.Millimetre, H: 170 * length.Millimetre}, ""},
		{"5in x 170mm", card.Size{W: 5 * in, H: 170 * length.Millimetre}, ""},
		{"10.5 x 14.8 cm", card.Size{W: 105 * length.Millimetre, H: 148 * length.Millimetre}, ""},
		{"6x6", card.Size{}, "has no unit"},
		{"6", card.Size{}, "is not a size"},
		{"", card.Size{}, "is not a size"},
		{"0x6in", card.Size{}, "above zero"},
		{"-5x6in", card.Size{}, "above zero"},
		{"6x-1mm", card.Size{}, "above zero"},
		{"1000000x6mm", card.Size{}, "1000000"},
		{"fivex6mm", card.Size{}, "five"},
		{"1/0x6mm", card.Size{}, "1/0"},
		{"6x7x8mm", card.Size{}, "7x8"},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := ParseSize(c.text)
			checkText(t, err, c.says)
			if err == nil && got != c.want {
				t.Errorf("got %v, want %v", got, c.want)
			}
		})
	}
}

// checkText checks what an error says, and that it says nothing that helps nobody.
func checkText(t *testing.T, err error, says string) {
	t.Helper()
	if (err == nil) != (says == "") {
		t.Fatalf("got %v, want an error that says %q", err, says)
	}
	if err == nil {
		return
	}
	if !strings.Contains(err.Error(), says) {
		t.Errorf("%q does not say %q", err, says)
	}
	for _, word := range []string{"invalid", "bad ", "illegal", "failed"} {
		if strings.Contains(strings.ToLower(err.Error()), word) {
			t.Errorf("%q says %q", err, word)
		}
	}
}

func TestMarks(t *testing.T) {
	for _, c := range []struct {
		text string
		want length.Length
		unit length.Unit
		says string
	}{
		{"1mm", length.Millimetre, length.MM, ""},
		{"5 mm", 5 * length.Millimetre, length.MM, ""},
		{"0.5cm", 5 * length.Millimetre, length.CM, ""},
		{"1/8in", length.Inch / 8, length.IN, ""},
		{" 1/16\" ", length.Inch / 16, length.IN, ""},
		{"1", 0, 0, "have no unit"},
		{"", 0, 0, "have no unit"},
		{"0mm", 0, 0, "above zero"},
		{"-1mm", 0, 0, "above zero"},
		{"fine mm", 0, 0, "fine"},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, unit, err := Marks(c.text)
			checkText(t, err, c.says)
			if err == nil && (got != c.want || unit != c.unit) {
				t.Errorf("got %v %v, want %v %v", got, unit, c.want, c.unit)
			}
		})
	}
}

func TestTarget(t *testing.T) {
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text    string
		upright bool
		w, h    string
		note    string
		says    string
	}{
		{"6x6in", true, "6 in", "6 in", "", ""},
		// C6 is 114 x 162 mm outside (ISO 269); a card has 6 mm of room (common practice).
		{"C6", true, "108 mm", "156 mm", "envelope C6 is 114 mm x 162 mm outside", ""},
		{"c6", false, "156 mm", "108 mm", "a card of 156 mm x 108 mm", ""},
		{" DL ", true, "104 mm", "214 mm", "envelope DL", ""},
		// The American A7 envelope holds a card of 5 x 7 in (common practice); ISO A7 is a sheet.
		{"A7", true, "5 in", "7 in", "for the sheet ISO A7 write 74 mm x 105 mm", ""},
		{"A5", true, "", "", "", "148 mm x 210 mm"},
		{"C66", true, "", "", "", "C6"},
		{"wardrobe", true, "", "", "", "write a size such as"},
		{"", true, "", "", "", "write a size such as"},
		{"6x6", true, "", "", "", "has no unit"},
		{"0x0mm", true, "", "", "", "above zero"},
		{"-5x5mm", true, "", "", "", "above zero"},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, note, err := Target(c.text, table, c.upright)
			checkText(t, err, c.says)
			if err != nil {
				return
			}
			unit := length.MM
			if strings.HasSuffix(c.w, "in") {
				unit = length.IN
			}
			if got.W.Human(unit) != c.w || got.H.Human(unit) != c.h {
				t.Errorf("got %s x %s, want %s x %s", got.W.Human(unit), got.H.Human(unit), c.w, c.h)
			}
			if !strings.Contains(note, c.note) || c.note == "" && note != "" {
				t.Errorf("the note is %q, want %q in it", note, c.note)
			}
		})
	}
}

func FuzzParseSize(f *testing.F) {
	for _, s := range []string{"6x6in", "4 1/4 x 5 1/2 in", "4¼×5½\"", "120x170mm", "0x0mm", "x", "xin", "6x6", "1/0x1in", "9e9x1mm", "6x7x8mm", "\xffx1mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := ParseSize(s)
		if err == nil && (got.W <= 0 || got.H <= 0 || got.W > length.Max || got.H > length.Max) {
			t.Errorf("%q is %v", s, got)
		}
		if err != nil && err.Error() == "" {
			t.Errorf("%q: an error that says nothing", s)
		}
	})
}

func FuzzMarks(f *testing.F) {
	for _, s := range []string{"1mm", "1/8in", "1/16\"", "0mm", "-1in", "mm", "", "1e3cm", "½ in", "\xffmm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		pitch, unit, err := Marks(s)
		if err == nil && (pitch <= 0 || pitch > length.Max || unit.Size() == 0) {
			t.Errorf("%q is %v %v", s, pitch, unit)
		}
	})
}
