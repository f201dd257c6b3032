package main

import (
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/drawing/png"
	"foldwright/drawing/svg"
	"foldwright/drawing/view"
	"foldwright/forms"
	"foldwright/proof"
)

// formsCmd shows the catalogue.
type formsCmd struct {
	Form string `arg:"" optional:"" help:"Print the recipe of this form, to start a card from."`
	Out  string `short:"o" placeholder:"FOLDER" predictor:"folder" help:"Draw every form small, closed to open, into this folder (SVG and PNG)."`
}

// Run lists the forms, prints one, or draws them.
func (c *formsCmd) Run(e *env) error {
	if c.Form != "" {
		text, err := forms.Text(c.Form)
		if err != nil {
			return fail(exitUsage, "%v", err)
		}
		_, err = e.stdout.Write(text)
		return err
	}
	p := &page{w: e.stdout}
	var files []file
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			return err
		}
		r := proof.Prove(e.ctx, name, text)
		if r.Closed == nil || !r.Closed.LiesFlat() {
			return fail(codeOf(r), "the form %s is not proven", name)
		}
		p.line("%s", name)
		if about := firstComment(string(text)); about != "" {
			p.line("    %s", about)
		}
		p.line("    closed %s x %s, %s", r.Closed.Box.W().Human(r.Card.Unit), r.Closed.Box.H().Human(r.Card.Unit), opensWords(r.Card))
		for _, line := range sketch(r) {
			p.line("    %s", line)
		}
		p.line("")
		if c.Out == "" || r.Opening == nil {
			continue
		}
		small, err := drawSmall(view.Sequence(r.Closed, r.Opening, 3), name)
		if err != nil {
			return err
		}
		files = append(files, small...)
	}
	p.line("A recipe to start from: foldwright forms NAME > my.card")
	if c.Out != "" {
		if err := writeAll(c.Out, files); err != nil {
			return err
		}
		p.line("Drawings of all forms are in %s", c.Out)
	}
	return p.err
}

// firstComment returns the remark that a recipe begins with.
func firstComment(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	if about, ok := strings.CutPrefix(line, "#"); ok {
		return strings.TrimSpace(about)
	}
	return ""
}

func opensWords(c *card.Card) string {
	switch c.Opening.Kind {
	case card.OpensAt:
		return "opens at a score"
	case card.OpensByPulling:
		return "opens by pulling"
	}
	return "opens by itself"
}

func drawSmall(d *drawing.Drawing, name string) ([]file, error) {
	var files []file
	for _, dev := range []drawing.Device{svg.Device{}, png.Device{DPI: 96}} {
		data, err := write(dev, d)
		if err != nil {
			return nil, err
		}
		files = append(files, file{name + dev.Ext(), data})
	}
	return files, nil
}
