package trim

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

const smallInstances = `# source: made up
instance quay
sheet 40 30 120 -1 # blue
part 12 8 5 0 -1 1
part 7 30 2 9 4 0

instance mole
part 3 4 0 12 -1 0
sheet 10 9 90 1
`

func TestReadInstances(t *testing.T) {
	got, l := ReadInstances("harbour.txt", []byte("\ufeff"+strings.ReplaceAll(smallInstances, "\n", "\r\n")))
	if len(l) != 0 || len(got) != 2 {
		t.Fatalf("got %+v, %v", got, l)
	}
	quay, mole := got[0], got[1]
	if quay.Name != "quay" || mole.Name != "mole" || quay.Knapsack() || !mole.Knapsack() {
		t.Errorf("got %+v and %+v", quay, mole)
	}
	s, p := quay.Job.Sheets[0], quay.Job.Parts[1]
	if s.W != 40*InstanceUnit || s.H != 30*InstanceUnit || s.Price != 120 || s.Quantity != Unlimited || s.Where.Line != 3 {
		t.Errorf("sheet: got %+v", s)
	}
	if p.W != 7*InstanceUnit || p.H != 30*InstanceUnit || p.Count != 2 || p.Value != 9 || p.Most != 4 || p.Turn || !quay.Job.Parts[0].Turn {
		t.Errorf("part: got %+v", p)
	}
}

func TestReadInstances_problems(t *testing.T) {
	many := func(line string, n int) string { return strings.Repeat(line+"\n", n) }
	for _, c := range []struct{ text, want string }{
		{"", `h: the file holds no instance [instance-empty]`},
		{"# only a remark", `h: the file holds no instance [instance-empty]`},
		{"instance", `h:1:1: an instance has 0 words for its name [instance-line]`},
		{"instance north mole", `h:1:1: an instance has 2 words for its name [instance-line]`},
		{"instance a\nsheets 3 4 5 6", `h:2:1: the line starts with "sheets" [instance-line]`},
		{"part 3 4 5 6 7 0", `h:1:1: a part stands before the first instance [instance-line]`},
		{"instance a\nsheet 3 4 5", `h:2:1: the line has 3 numbers behind sheet [instance-line]`},
		{"instance a\nsheet 3 0 5 1", `h:2:1: the height is "0" [instance-number]`},
		{"instance a\nsheet 3 200001 5 1", `h:2:1: the height is "200001" [instance-number]`},
		{"instance a\nsheet 3 4 5 -2", `h:2:1: the quantity is "-2" [instance-number]`},
		{"instance a\npart 3 4 2.5 6 7 0", `h:2:1: the count is "2.5" [instance-number]`},
		{"instance a\npart 3 4 -1 6 7 0", `h:2:1: the count is "-1" [instance-number]`},
		{"instance a\npart 3 4 99999999999999999999 6 7 2", `h:2:1: the count is "99999999999999999999" [instance-number]; h:2:1: the turn is "2" [instance-number]`},
		{"instance a\npart 3 4 1 6 7 1", `h:1:1: instance "a" has no sheet [instance-empty]`},
		{"instance a\nsheet 3 4 1 1\ninstance b", `h:1:1: instance "a" has no part [instance-empty]`},
		{smallInstances + "instance quay\nsheet 1 1 1 1\npart 1 1 1 1 1 1", `h:10:1: there is a second instance "quay" [instance-name]`},
		{"instance a\n" + many("part 1 1 1 1 1 1", 1001), `h:1002:1: the instance holds too many parts [instance-long]`},
		{"instance a\n" + many("sheet 1 1 1 1", 1001), `h:1002:1: the instance holds too many sheets [instance-long]`},
	} {
		_, l := ReadInstances("h", []byte(c.text))
		var got []string
		for _, p := range l {
			got = append(got, fmt.Sprintf("%s: %s [%s]", p.Where, p.What, p.Rule))
			if p.Needs == "" {
				t.Errorf("%s: nothing is said of what would be right", p.What)
			}
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("got  %s\nwant %s", s, c.want)
		}
	}
}

// FuzzReadInstances: no text makes the reader panic; what it reads without a problem is a job of right sizes and counts.
func FuzzReadInstances(f *testing.F) {
	f.Add([]byte(smallInstances))
	for _, name := range []string{"kp_cgcut", "b1_one_card_in", "cs_macedo_A"} {
		text, err := os.ReadFile("testdata/" + name + ".txt")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text[:min(len(text), 2000)])
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got, l := ReadInstances("fuzz", text)
		if (len(got) == 0) && len(l) == 0 || len(l) > mostSaid+10 {
			t.Fatalf("%d instances, %d problems", len(got), len(l))
		}
		for _, in := range got {
			for _, p := range in.Job.Check() {
				// Whether a part comes out of a sheet is for who plans it.
				if p.Rule != "trim-no-sheet" && p.Rule != "trim-grain" {
					t.Errorf("read without a problem: %v", p)
				}
			}
		}
	})
}
