package flat

import (
	"testing"

	"foldwright/length"
	"foldwright/plane"
)

// TestCut: a mat is cut as the pattern of its panel lies, whichever way the panel lies in the closed card; a second mat lies within
// the first by its own edge. A topper is cut as its recipe says.
func TestCut(t *testing.T) {
	const text = `card "Pennant"
units mm
stock sand "sand card" 240 gsm, 0.32 mm
piece page of sand
  size 100 x 60
  score across at 50
  panels left, right
  fold all mountain
piece flag of sand
  size 30 x 20
  panels flag
glue flag.flag outside page.left, centre, turned 90
mat flag.flag, page.left of sand, edge 2
mat flag.flag of sand, edge 3
topper oval 12 x 18 of sand on page.left, centre
opens at page.1 to 90
`
	c := shut(t, text)
	if !c.LiesFlat() {
		t.Fatal("the card does not lie flat: nothing is checked")
	}
	want := map[string][][2]length.Length{"flag": {{26, 16}, {20, 10}}, "left": {{46, 56}, {12, 18}}}
	turned := false
	for _, d := range c.Decorations() {
		label := c.Assembly.Panels[d.Panel].Label
		box, lies := plane.BoxOf(d.Cut...), plane.BoxOf(d.Ring...)
		w := want[label][d.Layer]
		if box.W() != w[0]*length.Millimetre || box.H() != w[1]*length.Millimetre {
			t.Errorf("layer %d on %s is cut to %g × %g mm, want %d × %d", d.Layer, label, box.W().MM(), box.H().MM(), w[0], w[1])
		}
		turned = turned || box.W() == lies.H() && box.W() != lies.W()
	}
	if !turned {
		t.Error("no mat lies turned: nothing was checked")
	}
}
