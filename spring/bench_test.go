package spring

import (
	"math"
	"strings"
	"testing"

	"foldwright/internal/check"
	"foldwright/length"

	"pgregory.net/rapid"
)

const degree = math.Pi / 180

func mm(v float64) length.Length { return length.FromMM(v) }

func TestSag_angle(t *testing.T) {
	check.Each(t, "testdata/check/droop_angle.csv", func(t *testing.T, r check.Row) {
		chord := r.Float("chord_deg") * degree
		c := SagWhere(func(c Curve) float64 { return c.Chord }, chord)
		r.NearColumn("expected_length_ratio", math.Cbrt(c.Load))
		r.NearColumn("expected_peirce", Peirce(chord))
		r.NearColumn("expected_tip_deg", c.Tip/degree)
		r.NearColumn("expected_drop", c.Drop)
		r.NearColumn("expected_reach", c.Reach)
	})
}

func TestSag_length(t *testing.T) {
	check.Each(t, "testdata/check/droop_length.csv", func(t *testing.T, r check.Row) {
		c := SagWhere(func(c Curve) float64 { return math.Cbrt(c.Load) }, r.Float("length_ratio"))
		r.NearColumn("expected_chord_deg", c.Chord/degree)
		r.NearColumn("expected_tip_deg", c.Tip/degree)
		r.NearColumn("expected_drop", c.Drop)
		r.NearColumn("expected_reach", c.Reach)
	})
}

func TestTipLoaded(t *testing.T) {
	load := func(c Curve) float64 { return c.Load }
	check.Each(t, "testdata/check/tip_load.csv", func(t *testing.T, r check.Row) {
		c := TipLoadedWhere(load, r.Float("alpha"))
		r.NearColumn("expected_drop", c.Drop)
		r.NearColumn("expected_reach", c.Reach)
		r.NearColumn("expected_tip_deg", c.Tip/degree)
	})
	check.Each(t, "testdata/check/two_point.csv", func(t *testing.T, r check.Row) {
		r.NearColumn("expected_alpha", TipLoadedWhere(func(c Curve) float64 { return c.Chord }, r.Float("chord_deg")*degree).Load)
	})
}

func TestDroop(t *testing.T) {
	check.Each(t, "testdata/check/droop_example.csv", func(t *testing.T, r check.Row) {
		d := DroopTest{Overhang: mm(r.Float("overhang_mm")), Drops: []length.Length{mm(r.Float("drop_mm"))}, Grammage: r.Float("gsm")}
		got, problems := d.Stiffness()
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		r.NearColumn("expected_mNm", got.Stiffness.Value)
		if got.Stiffness.Spread != 0 {
			t.Errorf("without errors of reading the spread is %g", got.Stiffness.Spread)
		}
	})
}

// TestDroop_spread compares the spread with that of a little sag, where B = w L⁴ / (8 drop) and the shares add in squares
// with the factors 4, 1 and 1 (worked out by hand).
func TestDroop_spread(t *testing.T) {
	d := DroopTest{Overhang: mm(200), OverhangError: mm(0.5), Drops: []length.Length{mm(9), mm(11)}, DropError: mm(1), Grammage: 300, GrammageShare: 0.03}
	got, problems := d.Stiffness()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	// Two drops that scatter by √2 mm: their mean by 1 mm.
	want := math.Sqrt(math.Pow(4*0.5/200, 2) + math.Pow(1.0/10, 2) + math.Pow(0.03, 2))
	if share := got.Stiffness.Share(); math.Abs(share-want) > 0.02*want {
		t.Errorf("the spread is %.4f of the value, want %.4f", share, want)
	}
}

func TestDroop_problems(t *testing.T) {
	good := DroopTest{Overhang: mm(200), Drops: []length.Length{mm(50)}, Grammage: 300}
	for _, c := range []struct {
		change func(*DroopTest)
		want   string
	}{
		{func(d *DroopTest) { d.Overhang = 0 }, "the strip juts out by 0 mm"},
		{func(d *DroopTest) { d.Drops = nil }, "no drop was read"},
		{func(d *DroopTest) { d.Drops[0] = mm(1) }, "too little to be read well"},
		{func(d *DroopTest) { d.Drops[0] = mm(-5) }, "too little to be read well"},
		{func(d *DroopTest) { d.Drops[0] = mm(199) }, "hangs straight down"},
		{func(d *DroopTest) { d.Grammage = math.NaN() }, "the grammage is NaN gsm"},
		{func(d *DroopTest) { d.DropError = -1 }, "an error of reading is below nought"},
	} {
		d := good
		d.Drops = []length.Length{mm(50)}
		c.change(&d)
		if _, p := d.Stiffness(); len(p) != 1 || !strings.Contains(p[0].String(), c.want) {
			t.Errorf("got %v, want %q", p, c.want)
		}
	}
}

// TestDroop_back: a strip of any stiffness, sagging as it must, gives that stiffness back.
func TestDroop_back(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.Float64Range(0.5, 60).Draw(t, "stiffness")
		gsm := rapid.Float64Range(80, 500).Draw(t, "grammage")
		over := GoodOverhang(gsm, b)
		load := gsm * gravity * math.Pow(over.MM()/1000, 3) / b
		c := SagWhere(func(c Curve) float64 { return c.Load }, load)
		d := DroopTest{Overhang: over, Drops: []length.Length{mm(c.Drop * over.MM())}, DropError: ReadDrop, Grammage: gsm}
		got, problems := d.Stiffness()
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if math.Abs(got.Stiffness.Value-b) > 1e-5*b {
			t.Fatalf("got %g, want %g", got.Stiffness.Value, b)
		}
		if s := got.Stiffness.Share(); !(s > 0 && s < 0.15) {
			t.Fatalf("an overhang of %v is not a good one: the spread is %g of the value", over.MM(), s)
		}
	})
}

func flapOf(r check.Row) FlapTest {
	flap := r.Float("flap_mm")
	gap := func(deg float64) length.Length { return mm(2 * flap * math.Sin(deg*degree/2)) }
	return FlapTest{Flap: mm(flap), Width: mm(r.Float("width_mm")), Alone: gap(r.Float("alone_deg")), Loaded: gap(r.Float("loaded_deg")),
		Mass: r.Float("mass_g"), Arm: mm(r.Float("arm_mm")), Grammage: r.Float("gsm")}
}

func TestFlap(t *testing.T) {
	check.Each(t, "testdata/check/flap.csv", func(t *testing.T, r check.Row) {
		f := flapOf(r)
		got, problems := f.Crease()
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		r.NearColumn("expected_crease", got.Stiffness.Value)
		r.NearColumn("expected_rest_deg", got.Rest.Value/degree)
		f.GapError, f.MassShare = mm(0.5), 0.02
		got, _ = f.Crease()
		if s := got.Stiffness.Share(); !(s > 0.01 && s < 1) || got.Rest.Spread <= 0 {
			t.Errorf("half a millimetre of error in the gaps makes %g of the stiffness and %g rad of the angle", s, got.Rest.Spread)
		}
	})
}

func TestFlap_problems(t *testing.T) {
	good := FlapTest{Flap: mm(60), Width: mm(100), Alone: mm(57), Loaded: mm(48), Mass: 2, Arm: mm(55), Grammage: 300}
	if _, p := good.Crease(); len(p) > 0 {
		t.Fatal(p)
	}
	for _, c := range []struct {
		change func(*FlapTest)
		want   string
	}{
		{func(f *FlapTest) { f.Flap = 0 }, "the flap is 0 mm long"},
		{func(f *FlapTest) { f.Mass = math.NaN() }, "the weight is NaN g"},
		{func(f *FlapTest) { f.Arm = mm(61) }, "the weight lies 61 mm from the fold"},
		{func(f *FlapTest) { f.Loaded = mm(58) }, "58 mm with it"},
		{func(f *FlapTest) { f.Alone, f.Loaded = mm(119), mm(118) }, "no springy fold stands so"},
	} {
		f := good
		c.change(&f)
		if _, p := f.Crease(); len(p) == 0 || !strings.Contains(p[0].String(), c.want) {
			t.Errorf("got %v, want %q", p, c.want)
		}
	}
}

func BenchmarkDroop(b *testing.B) {
	d := DroopTest{Overhang: mm(200), OverhangError: ReadOverhang, Drops: []length.Length{mm(50), mm(55)}, DropError: ReadDrop, Grammage: 300, GrammageShare: ReadGrammage}
	for b.Loop() {
		d.Stiffness()
	}
}
