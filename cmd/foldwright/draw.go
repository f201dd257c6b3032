package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"foldwright/drawing"
	"foldwright/drawing/pdf"
	"foldwright/drawing/png"
	"foldwright/drawing/svg"
	"foldwright/drawing/view"
	"foldwright/proof"
)

// drawCmd draws cards.
type drawCmd struct {
	Cards  []string      `arg:"" name:"card" help:"Recipe files; - reads standard input." predictor:"card"`
	Out    string        `short:"o" default:"." help:"Folder for the drawings; made if need be." predictor:"folder"`
	What   []string      `enum:"templates,patterns,closed,thickness,open,opening" default:"templates,patterns,closed,thickness,open,opening" help:"What to draw: ${enum}."`
	As     []string      `enum:"svg,pdf,png" default:"svg,pdf,png" help:"File kinds: ${enum}. Templates come as SVG and PDF only."`
	Paper  []string      `enum:"a4,letter" default:"a4,letter" help:"Paper for templates in PDF: ${enum}."`
	DPI    float64       `name:"dpi" default:"150" help:"Dots per inch of PNG pictures, 36 to 600."`
	Anyway bool          `help:"Draw patterns and templates of a card that is not proven."`
	Limit  time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run proves every card and draws it. Nothing is written unless all cards can be drawn.
func (c *drawCmd) Run(e *env) error {
	if c.DPI < 36 || c.DPI > 600 {
		return fail(exitUsage, "--dpi is %g; it must lie between 36 and 600", c.DPI)
	}
	if len(c.What) == 1 && c.What[0] == "templates" && !slices.Contains(c.As, "svg") && !slices.Contains(c.As, "pdf") {
		return fail(exitUsage, "templates come as SVG and PDF, which --as leaves out")
	}
	if twice := sameStem(c.Cards); twice != "" {
		return fail(exitUsage, "two of the cards would give drawings called %s-…; draw them into folders of their own", twice)
	}
	var files []file
	code := exitDone
	for _, path := range c.Cards {
		text, err := e.read(path)
		if err != nil {
			return err
		}
		r := prove(e.ctx, path, text, c.Limit)
		if !r.Proven() && !(c.Anyway && r.Assembly != nil) {
			if err := r.Print(e.stderr); err != nil {
				return err
			}
			return fail(codeOf(r), "nothing was drawn%s", c.hint(r))
		}
		drawn, err := c.draw(r, stem(path))
		if err != nil {
			return err
		}
		files = append(files, drawn...)
		code = max(code, codeOf(r))
	}
	if err := writeAll(c.Out, files); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintln(e.stdout, filepath.Join(c.Out, f.name))
	}
	if code != exitDone { // drawn anyway, but not proven
		return &exitError{code: code}
	}
	return nil
}

// sameStem returns what the drawings of two cards would both be called by, "" if they are told apart.
func sameStem(paths []string) string {
	seen := map[string]bool{}
	for _, p := range paths {
		s := stem(p)
		if seen[s] {
			return s
		}
		seen[s] = true
	}
	return ""
}

func (c *drawCmd) hint(r *proof.Report) string {
	if r.Assembly == nil {
		return ""
	}
	return "; --anyway draws its patterns and templates all the same"
}

// stem returns what the names of a card's drawings begin with.
func stem(path string) string {
	if path == "-" {
		return "card"
	}
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// draw makes all files for one card.
func (c *drawCmd) draw(r *proof.Report, stem string) ([]file, error) {
	var files []file
	if slices.Contains(c.What, "templates") {
		made, err := c.templates(r, stem)
		if err != nil {
			return nil, err
		}
		files = append(files, made...)
	}
	for _, v := range c.views(r) {
		made, err := c.render(v.drawing, stem+"-"+v.name)
		if err != nil {
			return nil, err
		}
		files = append(files, made...)
	}
	return files, nil
}

// named is a drawing and what its file is called behind the card's name.
type named struct {
	name    string
	drawing *drawing.Drawing
}

// views makes the drawings that were asked for, apart from the templates; what a card that is not proven does not have is
// left out.
func (c *drawCmd) views(r *proof.Report) []named {
	var out []named
	want := func(what string) bool { return slices.Contains(c.What, what) }
	if want("patterns") {
		for i, d := range view.Patterns(r.Assembly) {
			out = append(out, named{"pattern-" + r.Card.Pieces[i].Name, d})
		}
	}
	if r.Closed.LiesFlat() && want("closed") {
		out = append(out, named{"closed-front", view.Closed(r.Closed, view.Front)}, named{"closed-back", view.Closed(r.Closed, view.Back)})
	}
	if r.Closed.LiesFlat() && want("thickness") {
		out = append(out, named{"thickness", view.Thickness(r.Closed)})
	}
	if r.Followed() && want("open") {
		out = append(out, named{"open", view.Open(r.Closed, r.Opening, len(r.Opening.Poses)-1)})
	}
	if r.Followed() && want("opening") {
		out = append(out, named{"opening", view.Sequence(r.Closed, r.Opening, 5)})
	}
	return out
}

// made is the date that PDF files carry: always the same, so that one recipe gives the same bytes whenever it is drawn.
var made = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// templates makes the true-to-size files: an SVG for each piece and for each shape of its mats and toppers, a PDF of them all for
// each paper. A card that does not close has none of mats and toppers.
func (c *drawCmd) templates(r *proof.Report, stem string) ([]file, error) {
	var files []file
	templates := append(view.Templates(r.Assembly), view.OrnamentTemplates(r.Closed)...)
	if slices.Contains(c.As, "svg") {
		for i, d := range templates {
			data, err := write(svg.Device{Template: true}, d)
			if err != nil {
				return nil, err
			}
			name := strings.TrimSuffix(d.Name, "-template")
			if i < len(r.Card.Pieces) {
				name = r.Card.Pieces[i].Name
			}
			files = append(files, file{stem + "-template-" + name + ".svg", data})
		}
	}
	if !slices.Contains(c.As, "pdf") {
		return files, nil
	}
	for _, p := range c.Paper {
		paper := pdf.A4()
		if p == "letter" {
			paper = pdf.Letter()
		}
		var b bytes.Buffer
		if err := pdf.Sheets(&b, templates, pdf.SheetOptions{Paper: paper, Title: r.Card.Title, Created: made}); err != nil {
			return nil, fmt.Errorf("draw templates: %w", err)
		}
		files = append(files, file{stem + "-templates-" + p + ".pdf", b.Bytes()})
	}
	return files, nil
}

// render writes one drawing in every kind that was asked for.
func (c *drawCmd) render(d *drawing.Drawing, name string) ([]file, error) {
	devices := map[string]drawing.Device{"svg": svg.Device{}, "pdf": pdf.Device{Created: made}, "png": png.Device{DPI: c.DPI}}
	var files []file
	for _, kind := range c.As {
		data, err := write(devices[kind], d)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name + "." + kind, data})
	}
	return files, nil
}

func write(dev drawing.Device, d *drawing.Drawing) ([]byte, error) {
	var b bytes.Buffer
	if err := dev.Write(&b, d); err != nil {
		return nil, fmt.Errorf("draw %s: %w", d.Title, err)
	}
	return b.Bytes(), nil
}
