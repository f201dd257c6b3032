package store

import (
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
)

// titles returns what a query finds.
func titles(t *testing.T, s *Store, q Query) string {
	t.Helper()
	cards, err := s.Cards(ctx, q)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, c := range cards {
		out = append(out, c.Title)
	}
	return strings.Join(out, ", ")
}

func TestCards(t *testing.T) {
	s := opened(t, place(t))
	must(s.Add(ctx, "card \"Harbour light\"\n# a tall white tower\n", []string{"Lights", "sea  birds"}, "first"))(t)
	must(s.Add(ctx, "card \"Möwe\"\npiece wing of navy\n", []string{"sea birds"}, "first"))(t)
	tern := must(s.Add(ctx, "card \"Tern 100%_\"\n", nil, "first"))(t)
	for _, c := range []struct {
		q    Query
		want string
	}{
		{Query{}, "Tern 100%_, Möwe, Harbour light"},
		{Query{Words: "TOWER harbour"}, "Harbour light"},
		{Query{Words: "MÖWE"}, "Möwe"},
		{Query{Words: "sea"}, "Möwe, Harbour light"},
		{Query{Words: "tower wing"}, ""},
		{Query{Words: "%"}, "Tern 100%_"},
		{Query{Words: "0%_"}, "Tern 100%_"},
		{Query{Words: `"Tern`}, "Tern 100%_"},
		{Query{Words: `' OR 1=1`}, ""},
		{Query{Tags: []string{"SEA birds"}}, "Möwe, Harbour light"},
		{Query{Tags: []string{"sea birds", "lights"}}, "Harbour light"},
		{Query{Tags: []string{"sea"}}, ""}, // a part of a tag is another tag
		{Query{Words: "wing", Tags: []string{"sea birds"}}, "Möwe"},
		{Query{Archived: true}, ""},
	} {
		if got := titles(t, s, c.q); got != c.want {
			t.Errorf("%+v finds %q, want %q", c.q, got, c.want)
		}
	}
	must(s.Save(ctx, tern.Doc, 1, "card \"Arctic tern\"\n", "another title"))(t)
	if got := titles(t, s, Query{Words: "100%"}) + "|" + titles(t, s, Query{Words: "arctic"}); got != "|Arctic tern" {
		t.Errorf("after the edit: %q", got)
	}
}

// TestCard_title: the title follows the text, and stays while the text cannot be read.
func TestCard_title(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "car")
	for _, c := range []struct{ text, want string }{
		{"card \"Buoy\"", "Buoy"}, {"card \"Bu", "Buoy"}, {"", "Buoy"}, {"card \"Bell buoy\"\nunits mm\nnonsense\n", "Bell buoy"},
	} {
		r = must(s.Save(ctx, r.Doc, r.Number, c.text, "typed"))(t)
		got, err := s.Card(ctx, r.Doc)
		if err != nil || got.Title != c.want || got.Revision != r.Number || !got.Changed.Equal(r.Made) || !got.Created.Before(got.Changed) {
			t.Errorf("%q: %+v, %v; want the title %q", c.text, got, err, c.want)
		}
	}
	_, err := s.Card(ctx, 1001)
	wantFault(t, err, Missing, "card 1001")
}

func TestSetTags(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "A")
	r = must(s.SetTags(ctx, r.Doc, r.Number, []string{" Gulls ", "boats", "gulls", ""}))(t)
	if want := []string{"boats", "gulls"}; !slices.Equal(r.Tags, want) || r.What != "tags: boats, gulls" {
		t.Errorf("got %+v", r)
	}
	r = must(s.Save(ctx, r.Doc, r.Number, "B", "b"))(t)
	if len(r.Tags) != 2 {
		t.Errorf("a save of the text lost the tags: %+v", r)
	}
	if same := must(s.SetTags(ctx, r.Doc, r.Number, []string{"GULLS", "boats"}))(t); same.Number != r.Number {
		t.Errorf("tags that are there already made %+v", same)
	}
	r = must(s.SetTags(ctx, r.Doc, r.Number, nil))(t)
	if c, _ := s.Card(ctx, r.Doc); len(c.Tags) != 0 || r.What != "no tags" {
		t.Errorf("got %+v", c)
	}
	r = must(s.Undo(ctx, r.Doc, r.Number))(t)
	if c, _ := s.Card(ctx, r.Doc); len(c.Tags) != 2 || titles(t, s, Query{Words: "gulls"}) != "" && len(r.Tags) != 2 {
		t.Errorf("undo brought back %+v", c)
	}
	for _, bad := range [][]string{{strings.Repeat("x", 41)}, {"a\x07"}, strings.Split("a b c d e f g h i j k l m n o p q r s t u", " ")} {
		_, err := s.SetTags(ctx, r.Doc, r.Number, bad)
		wantFault(t, err, Refused, "at most")
	}
	_, err := s.SetTags(ctx, Papers, 1, []string{"x"})
	wantFault(t, err, Refused, "only cards have tags")
}

func TestCopy(t *testing.T) {
	s := opened(t, place(t))
	r := must(s.Add(ctx, "card \"Gull\"\n", []string{"birds"}, "first"))(t)
	r = must(s.Save(ctx, r.Doc, 1, "card \"Gull\"\nunits mm\n", "units"))(t)
	c := must(s.Copy(ctx, r.Doc))(t)
	if c.Doc == r.Doc || c.Number != 1 || c.Text != r.Text || !slices.Equal(c.Tags, r.Tags) || c.What != "copied from card 1000, revision 2" {
		t.Errorf("the copy is %+v", c)
	}
	must(s.Save(ctx, c.Doc, 1, "card \"Other gull\"\n", "title"))(t)
	if r := must(s.Newest(ctx, r.Doc))(t); r.Number != 2 || r.Text != "card \"Gull\"\nunits mm\n" {
		t.Errorf("a change of the copy changed the card: %+v", r)
	}
	if c, err := s.Card(ctx, c.Doc); err != nil || c.Origin != r.Doc {
		t.Errorf("got %+v, %v", c, err)
	}
	_, err := s.Copy(ctx, 1234)
	wantFault(t, err, Missing, "card 1234")
	_, err = s.Copy(ctx, Papers)
	wantFault(t, err, Refused, "papers")
}

func TestArchive(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "card \"Gull\"\n")
	for _, away := range []bool{true, true, false, true} {
		if err := s.Archive(ctx, r.Doc, away); err != nil {
			t.Fatal(err)
		}
		want := map[bool]string{true: "|Gull", false: "Gull|"}[away]
		if got := titles(t, s, Query{}) + "|" + titles(t, s, Query{Archived: true}); got != want {
			t.Errorf("away %v: %q, want %q", away, got, want)
		}
	}
	must(s.Save(ctx, r.Doc, 1, "card \"Gull 2\"\n", "edited while put away"))(t)
	wantFault(t, s.Archive(ctx, 1001, true), Missing, "card 1001")
}

func TestAsk(t *testing.T) {
	s := opened(t, place(t))
	c6 := card.Size{W: 114 * length.Millimetre, H: 162 * length.Millimetre}
	seven := card.Size{W: 5 * length.IN.Size(), H: 7 * length.IN.Size()}
	for _, a := range []struct {
		size card.Size
		unit length.Unit
	}{{c6, length.MM}, {seven, length.MM}, {seven, length.IN}, {c6, length.CM}, {seven, length.IN}} {
		if err := s.Ask(ctx, a.size, a.unit); err != nil {
			t.Fatal(err)
		}
	}
	want := []Asked{{seven, length.IN, 3}, {c6, length.CM, 2}}
	if got, err := s.AskedFor(ctx); err != nil || !slices.Equal(got, want) {
		t.Errorf("got %v, %v; want %v", got, err, want)
	}
	for range 2 {
		if err := s.Unask(ctx, c6); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := s.AskedFor(ctx); err != nil || !slices.Equal(got, want[:1]) {
		t.Errorf("got %v, %v; want %v", got, err, want[:1])
	}
	wantFault(t, s.Unask(ctx, c6), Missing, "114 mm x 162 mm")
	wantFault(t, s.Ask(ctx, card.Size{W: 0, H: 1}, length.MM), Refused)
	wantFault(t, s.Ask(ctx, card.Size{W: 1, H: length.Max + 1}, length.MM), Refused, "2000 mm")
}
