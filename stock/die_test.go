package stock

import (
	"strings"
	"testing"

	"foldwright/length"
)

const dieRows = dieColumns + "\nlarge oval,die,oval,in,4.5,5 3/4,ovals\nsmall oval,die,oval,in,4,5 1/4,ovals\nsun,punch,circle,mm,50,,\ntern,stamp,rect,mm,40,25,\nmiddle oval,die,oval,in,4.25,5.5,Ovals\n"

func TestReadDies(t *testing.T) {
	got, probs := ReadDies("dies.csv", []byte(dieRows))
	if len(probs) > 0 || len(got) != 5 {
		t.Fatalf("got %d dies and\n%s", len(got), said(probs))
	}
	if d := got[0]; d.Tool != DieTool || d.Shape != OvalShape || d.W != 9*length.Inch/2 || d.H != 23*length.Inch/4 || d.Where.Line != 2 || d.Set != "ovals" {
		t.Errorf("got %+v", d)
	}
	if d := got[2]; d.Tool != PunchTool || d.Shape != CircleShape || d.H != 50*length.Millimetre {
		t.Errorf("got %+v", d)
	}
	var names []string
	for _, d := range Nest(got, "ovals") {
		names = append(names, d.Name)
	}
	if got := strings.Join(names, ", "); got != "large oval, middle oval, small oval" {
		t.Errorf("the set nests as %s", got)
	}
	if got := Nest(got, ""); got != nil {
		t.Errorf("no set: %v", got)
	}
}

// TestReadDies_problems: each row that is wrong is said, and the others are there all the same.
func TestReadDies_problems(t *testing.T) {
	for _, c := range []struct {
		row, want string
		n         int
	}{
		{"sun,punsh,circle,mm,50,,", `dies.csv:2:5  "punsh" is no tool; did you mean "punch"? [table-cell]
    needs: die, punch, stamp`, 1},
		{"sun,die,star,mm,50,50,", `dies.csv:2:9  "star" is no shape [table-cell]
    needs: rect, oval, circle`, 1},
		{"sun,die,oval,mm,50,,", `dies.csv:2:20  the oval has no height [table-cell]
    needs: a measurement above 0`, 1},
		{"sun,die,circle,mm,50,40,", `dies.csv:2:22  the circle is 50 wide and 40 high [table-cell]
    needs: the width again, or nothing`, 1},
		{"sun,die,circle,mm,0,,", `dies.csv:2:19  width is 0 [table-cell]
    needs: a measurement above 0`, 1},
		{"Good,die,circle,mm,50,,", `dies.csv:3:1  the name "good" is taken [table-name]
    needs: a name of its own for each tool
    dies.csv:2:1  it stands here already`, 1},
		{"other,die,rect,mm,60,20,s", `dies.csv:3:1  warning: "good" does not nest in "other" of the set "s" [table-nest]
    needs: one shape in a set, and each narrower and lower than the next larger one
    dies.csv:2:1  the larger one is here`, 2},
	} {
		got, probs := ReadDies("dies.csv", []byte(dieColumns+"\n"+c.row+"\ngood,die,rect,mm,40,30,s\n"))
		if said(probs) != c.want || len(got) != c.n {
			t.Errorf("%s: got %d dies and\n%s\nwant %d and\n%s", c.row, len(got), said(probs), c.n, c.want)
		}
	}
}

// FuzzReadDies: whatever the file holds, there is no panic, problems have a place, and every die has a size.
func FuzzReadDies(f *testing.F) {
	for _, s := range []string{"", dieColumns, dieRows, strings.ReplaceAll(dieRows, "in,", "furlong,"), dieColumns + "\n\"a\"\"b\",die,circle,in,1e9,,\n,,,,,,\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got, probs := ReadDies("dies.csv", text)
		wellPlaced(t, probs)
		for _, d := range got {
			if d.Name == "" || d.W <= 0 || d.H <= 0 || d.W > length.Max || (d.Shape == CircleShape && d.W != d.H) {
				t.Errorf("got %+v", d)
			}
			if nest := Nest(got, d.Set); d.Set != "" && d.Tool != StampTool && len(nest) == 0 {
				t.Errorf("%+v is not in its own set", d)
			}
		}
	})
}
