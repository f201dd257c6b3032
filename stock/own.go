package stock

import (
	"maps"
	"slices"
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// EnvelopeKind is what an own envelope is made as.
type EnvelopeKind uint8

// The kinds of own envelopes: a flat one, one with a soft lining, and a box with a depth.
const (
	PlainEnvelope EnvelopeKind = iota
	PaddedEnvelope
	BoxEnvelope
)

func envelopeKinds() []string { return []string{"plain", "padded", "box"} }

// String returns plain, padded or box.
func (k EnvelopeKind) String() string { return envelopeKinds()[k] }

// OwnEnvelope is an envelope that a person has or makes, by its inside size.
type OwnEnvelope struct {
	Name string
	Kind EnvelopeKind
	Unit length.Unit
	// Short and Long are measured inside; Depth is that of a box, 0 for others.
	Short, Long, Depth length.Length
	// OutShort and OutLong are measured outside, Grams is its weight; 0 where the person does not say.
	OutShort, OutLong length.Length
	Grams             float64
	Where             problem.Place
}

// Own is the id under which rows that a person wrote may stand instead of naming a source.
const Own = "own"

const ownColumns = "name,kind,unit,short,long,depth,out_short,out_long,weight"

// ReadOwnEnvelopes reads envelopes that a person wrote down: CSV with the columns name, kind (plain, padded, box), unit,
// short, long, depth (of a box), out_short, out_long and weight, the last three of which may be empty. file names the text
// in messages. Rows with a problem are left out.
func ReadOwnEnvelopes(file string, text []byte) ([]OwnEnvelope, problem.List) {
	g, probs := readRows(file, text, ownColumns)
	var out []OwnEnvelope
	taken := map[string]problem.Place{}
	for _, r := range g.rows {
		p := &parser{}
		e := p.ownEnvelope(r)
		if before, twice := taken[fold(e.Name)]; twice {
			p.probs.Add(problem.Problem{Rule: "table-name", Where: r["name"].where, What: "the name " + problem.Quote(e.Name) + " is taken",
				Needs: "a name of its own for each envelope", Notes: []problem.Note{{Where: before, What: "it stands here already"}}})
		}
		taken[fold(e.Name)] = e.Where
		if len(p.probs) == 0 {
			out = append(out, e)
		}
		probs = append(probs, p.probs...)
	}
	return out, probs.Sorted()
}

func (p *parser) ownEnvelope(r row) OwnEnvelope {
	u := p.unit(r)
	e := OwnEnvelope{Name: p.text(r, "name"), Unit: u, Depth: p.limit(r, "depth", u), Grams: p.grams(r, "weight"), Where: r["name"].where}
	size := p.ascending(r, u, "short", "long")
	e.Short, e.Long = size[0], size[1]
	e.OutShort, e.OutLong = p.limit(r, "out_short", u), p.limit(r, "out_long", u)
	kind := slices.Index(envelopeKinds(), r["kind"].text)
	if kind < 0 {
		p.add("table-cell", r["kind"].where, strings.Join(envelopeKinds(), ", "),
			"%q is not a kind of envelope%s", r["kind"].text, didYouMean(r["kind"].text, envelopeKinds()))
		return e
	}
	e.Kind = EnvelopeKind(kind)
	switch {
	case e.Kind == BoxEnvelope && r["depth"].text == "":
		p.add("table-cell", r["depth"].where, "the depth inside the box", "the box has no depth")
	case e.Kind != BoxEnvelope && r["depth"].text != "":
		p.add("table-cell", r["depth"].where, "nothing: only a box has a depth", "depth is %s", r["depth"].text)
	}
	for _, c := range []struct {
		out, in string
		l, l2   length.Length
	}{{"out_short", "short", e.OutShort, e.Short}, {"out_long", "long", e.OutLong, e.Long}} {
		if c.l > 0 && c.l < c.l2 {
			p.add("table-order", r[c.out].where, c.in+" at most as long as "+c.out, "%s is %s, which is shorter than %s inside, %s",
				c.out, r[c.out].text, c.in, r[c.in].text)
		}
	}
	return e
}

// readRows is readGrid for a table that must have rows.
func readRows(file string, text []byte, columns string) (grid, problem.List) {
	g, p := readGrid(file, text, strings.Split(columns, ","))
	if len(g.rows) == 0 && !p.HasErrors() {
		p.Add(problem.Problem{Rule: "table-empty", Where: problem.Place{File: file}, What: "the table has no rows",
			Needs: "at least one row below the names of the columns"})
	}
	return g, p
}

// WithMail returns the table with mail classes that a person wrote, in a file with the columns of mail.csv: a row takes the
// place of the class with its id, any other is added. A row may give the source own. file names the text in messages.
//
// Where there are problems, the table that is returned is t as it was: what is built in stays usable.
func (t *Table) WithMail(file string, text []byte) (*Table, problem.List) {
	sources := maps.Clone(t.sources)
	sources[Own] = Source{ID: Own, Kind: "the user", Citation: "written down by the user in " + file, AsOf: "as the row says"}
	g, probs := readRows(file, text, mailColumns)
	classes, more := parseMail(g, sources)
	probs = append(probs, more...)
	merged := slices.Clone(t.mail)
	for _, c := range classes {
		if i := slices.IndexFunc(merged, func(m MailClass) bool { return fold(m.ID) == fold(c.ID) }); i >= 0 {
			merged[i] = c
			continue
		}
		merged = append(merged, c)
	}
	if len(probs) == 0 {
		probs = sameRanks(merged)
	}
	if len(probs) > 0 {
		return t, probs.Sorted()
	}
	out := *t
	out.mail, out.sources = merged, sources
	return &out, nil
}
