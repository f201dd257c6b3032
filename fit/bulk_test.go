package fit

import (
	"math"
	"strings"
	"testing"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/stock"
)

// buoy is one panel of 100 x 50 mm with a hole, a mat and an ornament that stands out: every area is worked out by hand.
const buoy = `card "Buoy"
units mm

stock sea "sea blue card" 200 gsm, 0.3 mm
stock foam "foam sheet" 100 gsm, 0.5 mm

piece sheet of sea
  size 100 x 50
  window rect 10 x 10 at (5, 5)

mat sheet.p of foam, edge 20
`

func TestMeasure(t *testing.T) {
	text := strings.Replace(buoy, "  window", "  panels p\n  window", 1) + "topper rect 20 x 10 of foam on sheet.p, top at 30, thick 2 mm\n"
	b := Measure(shut(t, text))
	// Card of 100 x 50 less 10 x 10. Mat of 60 x 10 in the middle, at 20 to 30 up; the topper of 20 x 10 lies on it all.
	want := []Level{{2800 * length.Micrometre, 200. / 4900}, {800 * length.Micrometre, 400. / 4900}, {300 * length.Micrometre, 4300. / 4900}}
	if len(b.Levels) != len(want) {
		t.Fatalf("got %+v, want %+v", b.Levels, want)
	}
	for i, l := range b.Levels {
		if l.Thick != want[i].Thick || math.Abs(l.Share-want[i].Share) > 1e-9 {
			t.Errorf("level %d: got %+v, want %+v", i, l, want[i])
		}
	}
	if b.Usual != 300*length.Micrometre || b.Max != 2800*length.Micrometre {
		t.Errorf("got usual %v, most %v", b.Usual, b.Max)
	}
	if x, y := b.At.X.MM(), b.At.Y.MM(); x < 40 || x > 60 || y < 20 || y > 30 {
		t.Errorf("got the thickest place at %v, %v; want it on the topper", x, y)
	}
	if len(b.Layers) != 3 || b.Layers[0] != (Layer{"sheet", 1, 300 * length.Micrometre}) || b.Layers[2].Thick != 2*mm {
		t.Errorf("got layers %+v", b.Layers)
	}
}

// TestMeasure_forms: for every form (1) the largest thickness is that of package flat, which works it out on its own, (2)
// the shares sum to 1, (3) thicknesses fall, (4) half of the area is no thicker than the usual thickness, and (5) the layers
// at the thickest place sum to it.
func TestMeasure_forms(t *testing.T) {
	eachForm(t, func(t *testing.T, _ string, c *flat.Closed) {
		b := Measure(c)
		if want := c.Thickness().Max; b.Max != want {
			t.Errorf("(1) got %v, want %v", b.Max, want)
		}
		sum, thin, layers := 0.0, 0.0, length.Length(0)
		for i, l := range b.Levels {
			sum += l.Share
			if l.Thick <= b.Usual {
				thin += l.Share
			}
			if i > 0 && l.Thick >= b.Levels[i-1].Thick {
				t.Errorf("(3) got %v after %v", l.Thick, b.Levels[i-1].Thick)
			}
		}
		for _, l := range b.Layers {
			layers += l.Thick
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("(2) got %v, want 1", sum)
		}
		if thin < 0.5-1e-9 {
			t.Errorf("(4) got %v of the area, want half", thin)
		}
		if layers != b.Max {
			t.Errorf("(5) got %v, want %v", layers, b.Max)
		}
	})
}

func TestPack(t *testing.T) {
	even := func(thick length.Length) Block {
		return Block{100 * mm, 150 * mm, thick, &Bulk{Max: thick, Usual: thick, Levels: []Level{{thick, 1}}}}
	}
	bumpy := even(3 * mm)
	bumpy.Bulk.Usual, bumpy.Bulk.At.X, bumpy.Bulk.At.Y = mm, 20*mm, 30*mm
	bumpy.Bulk.Levels = []Level{{3 * mm, 0.04}, {2 * mm, 0.2}, {mm, 0.76}}
	for _, c := range []struct {
		block Block
		unit  length.Unit
		kind  stock.EnvelopeKind
		why   string
	}{
		{even(960 * length.Micrometre), length.MM, stock.PlainEnvelope, "0.96 mm thick and even"},
		{even(length.Inch / 16), length.IN, stock.PlainEnvelope, "0.062 in thick and even"},
		{even(5 * mm), length.MM, stock.PlainEnvelope, "5 mm thick and even"},
		{Block{100 * mm, 150 * mm, mm, nil}, length.MM, stock.PlainEnvelope, "1 mm thick"},
		{bumpy, length.MM, stock.PaddedEnvelope, "3 mm at its thickest, 2 mm more than half of it: that presses through a flat envelope"},
		{even(6 * mm), length.MM, stock.PaddedEnvelope, "6 mm thick, more than the 5 mm up to which a flat envelope does"},
		{even(12 * mm), length.MM, stock.BoxEnvelope, "12 mm thick, more than the 10 mm up to which a padded envelope keeps a card flat"},
	} {
		if p := Pack(c.block, UsualLimits(), c.unit); p.Kind != c.kind || p.Why != c.why {
			t.Errorf("got %v, %s; want %v, %s", p.Kind, p.Why, c.kind, c.why)
		}
	}
	p, uneven := Uneven(bumpy, UsualLimits(), length.MM)
	want := `warning: the closed card is 3 mm thick at 20 mm from its left edge and 30 mm from its lower edge, but no more than 1 mm over half of it; 4 % of it stands out [uneven-bulk]
    needs: a place that is at most 1.75 mm thicker than the rest, or a padded envelope`
	if !uneven || p.String() != want {
		t.Errorf("got %v\n%s\nwant\n%s", uneven, p, want)
	}
	if _, uneven := Uneven(even(3*mm), UsualLimits(), length.MM); uneven {
		t.Error("got a warning of an even card")
	}
}
