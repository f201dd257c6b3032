package stock

import (
	"strings"
	"testing"

	"foldwright/length"
)

const ownRows = ownColumns + "\nquay bag,padded,mm,170,235,,180,265,14\nbox envelope,box,in,5.25,7.25,0.5,,,1 oz\nplain one,plain,cm,12,17.5,,,,\n"

func TestReadOwnEnvelopes(t *testing.T) {
	got, probs := ReadOwnEnvelopes("own.csv", []byte(ownRows))
	if len(probs) > 0 || len(got) != 3 {
		t.Fatalf("got %d envelopes and\n%s", len(got), said(probs))
	}
	bag, box, plain := got[0], got[1], got[2]
	if bag.Kind != PaddedEnvelope || bag.OutLong != 265*length.Millimetre || bag.Grams != 14 {
		t.Errorf("got %+v", bag)
	}
	if box.Kind != BoxEnvelope || box.Depth != length.Inch/2 || box.Short != 21*length.Inch/4 || box.Grams != GramsPerOunce {
		t.Errorf("got %+v", box)
	}
	if plain.Long != 175*length.Millimetre || plain.Where.Line != 4 || plain.OutShort != 0 {
		t.Errorf("got %+v", plain)
	}
}

// TestReadOwnEnvelopes_problems: each row that is wrong is said, and the others are there all the same.
func TestReadOwnEnvelopes_problems(t *testing.T) {
	for _, c := range []struct{ row, want string }{
		{"bag,paded,mm,170,235,,,,", `own.csv:2:5  "paded" is not a kind of envelope; did you mean "padded"? [table-cell]
    needs: plain, padded, box`},
		{"bag,plain,mm,0,235,,,,", `own.csv:2:14  short is 0 [table-cell]
    needs: a measurement above 0`},
		{"bag,plain,mm,235,170,,,,", `own.csv:2:18  long is 170, which is shorter than short, 235 [table-order]
    needs: short at most as long as long`},
		{"bag,plain,mm,170,235,,160,265,", `own.csv:2:23  out_short is 160, which is shorter than short inside, 170 [table-order]
    needs: short at most as long as out_short`},
		{"bag,box,mm,170,235,,,,", `own.csv:2:20  the box has no depth [table-cell]
    needs: the depth inside the box`},
		{"bag,plain,mm,170,235,5,,,", `own.csv:2:22  depth is 5 [table-cell]
    needs: nothing: only a box has a depth`},
		{"Good,plain,mm,170,235,,,,", `own.csv:3:1  the name "good" is taken [table-name]
    needs: a name of its own for each envelope
    own.csv:2:1  it stands here already`},
		{",plain,mm,170,235,,,,", `own.csv:2:1  the cell "name" is empty [table-cell]
    needs: a value in this column`},
	} {
		got, probs := ReadOwnEnvelopes("own.csv", []byte(ownColumns+"\n"+c.row+"\ngood,plain,mm,120,170,,,,\n"))
		if said(probs) != c.want || len(got) != 1 {
			t.Errorf("%s: got %d envelopes and\n%s\nwant 1 and\n%s", c.row, len(got), said(probs), c.want)
		}
	}
}

// FuzzReadOwnEnvelopes: whatever the file holds, there is no panic, problems have a place, and every envelope has a size.
func FuzzReadOwnEnvelopes(f *testing.F) {
	for _, s := range []string{"", ownColumns, ownRows, strings.ReplaceAll(ownRows, "mm", "inch"), ownColumns + "\n\"a\"\"b\",box,in,1e9,2,3,4,5,6"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got, probs := ReadOwnEnvelopes("own.csv", text)
		wellPlaced(t, probs)
		for _, e := range got {
			if e.Name == "" || e.Short <= 0 || e.Long < e.Short || (e.Kind == BoxEnvelope) != (e.Depth > 0) {
				t.Errorf("got %+v", e)
			}
		}
	})
}
