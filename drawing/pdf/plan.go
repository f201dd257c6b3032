package pdf

import "foldwright/drawing"

// Plan says which drawing lies where on which page.
type Plan struct {
	Paper Paper
	Pages []Page
}

// Page is one sheet with one or more drawings, or with one tile of a large one.
type Page struct {
	// Sideways: the long side of the paper is level.
	Sideways bool
	Places   []Place
}

// Place is a drawing, or a part of one, on a page.
type Place struct {
	// Drawing counts from 0.
	Drawing int
	// Turned: the drawing is turned a quarter counter-clockwise.
	Turned bool
	// Left and Top are where the window's top left corner lies on the page, in mm from the page's top left corner.
	Left, Top float64
	// Window is the part of the drawing shown, in mm, y up, after turning.
	Window drawing.Box
	// Row and Column count the tiles from 1, from the top left, of Rows x Columns; one tile is a whole drawing.
	Row, Column, Rows, Columns int

	caption []string // lines that name a drawing that is not tiled
	grid    *grid    // of a tile
}

// Tiled says whether the place shows only a part of its drawing.
func (p Place) Tiled() bool { return p.Rows*p.Columns > 1 }

// Tiles returns how many pages drawing n is cut into; 1 if it is whole.
func (p Plan) Tiles(n int) int {
	count := 0
	for _, page := range p.Pages {
		for _, place := range page.Places {
			if place.Drawing == n {
				count++
			}
		}
	}
	return count
}

// NewPlan lays drawings out on sheets, in their order: each on the first page that has room for it, else on a new one.
// A drawing is turned only if it would be tiled otherwise, and tiled into as few pages as can be. Drawings must have
// sizes above 0.
func NewPlan(drawings []*drawing.Drawing, paper Paper) Plan {
	l := &layouter{paper: paper}
	for i, d := range drawings {
		l.add(i, d)
	}
	plan := Plan{Paper: paper}
	for _, p := range l.pages {
		plan.Pages = append(plan.Pages, p.page)
	}
	return plan
}

type layouter struct {
	paper Paper
	pages []*openPage
}

// openPage is a page that may take more drawings: rows of drawings from the top down.
type openPage struct {
	page Page
	full bool
	rows []shelf
}

// shelf is a row of drawings; x is where the next one would begin, all in mm from the page's top left corner.
type shelf struct{ x, top, high float64 }

// attempt is a way of putting a drawing on a sheet.
type attempt struct{ sideways, turned bool }

// attempts lists the ways, best first: text stays upright for the reader as long as that can be.
var attempts = [...]attempt{{false, false}, {true, false}, {false, true}, {true, true}}

func (l *layouter) add(i int, d *drawing.Drawing) {
	for _, a := range attempts {
		w, h := turnedSize(d, a.turned)
		if !l.paper.sheet(a.sideways).fits(w, h) {
			continue
		}
		for _, p := range l.pages {
			if !a.turned && !p.full && p.put(l.paper, i, d, false) {
				return
			}
		}
		p := &openPage{page: Page{Sideways: a.sideways}, full: a.turned}
		l.pages = append(l.pages, p)
		p.put(l.paper, i, d, a.turned)
		return
	}
	l.tile(i, d)
}

// put finds room for a drawing on the rows that there are or opens a new one below; false if the page has none.
func (p *openPage) put(paper Paper, i int, d *drawing.Drawing, turned bool) bool {
	left, top, roomW, roomH := paper.sheet(p.page.Sideways).room()
	right, low := left+roomW+0.01, top+roomH+0.01
	w, h := turnedSize(d, turned)
	for k := range p.rows {
		r := &p.rows[k]
		wide, words := captioned(d, w, right-r.x)
		if high := h + captionHigh(words); r.x+wide <= right && high <= r.high+0.01 {
			p.place(i, d, turned, r.x, r.top, words)
			r.x += wide + apart
			return true
		}
	}
	if n := len(p.rows); n > 0 {
		top = p.rows[n-1].top + p.rows[n-1].high + apart
	}
	wide, words := captioned(d, w, roomW)
	if top+h+captionHigh(words) > low {
		words = words[:1] // a drawing as high as the page stands alone there, and the page is named after it
	}
	high := h + captionHigh(words)
	if w > roomW+0.01 || top+high > low {
		return false
	}
	p.place(i, d, turned, left, top, words)
	p.rows = append(p.rows, shelf{left + wide + apart, top, high})
	return true
}

// captioned returns the width of a drawing of w mm with its caption, and the lines of the caption: one where there is
// room for it beside the drawing.
func captioned(d *drawing.Drawing, w, room float64) (wide float64, words []string) {
	t := caption(d.Title)
	wide = max(w, min(room, drawing.TextRoom(t.Words, t.Size, t.Bold)))
	words = drawing.Wrap(t.Words, t.Size, t.Bold, wide)
	for _, line := range words { // a single long word
		wide = max(wide, drawing.TextWidth(line, t.Size, t.Bold))
	}
	if len(words) == 0 {
		words = []string{""}
	}
	return wide, words
}

// captionHigh returns how much the lines of a caption take above a drawing.
func captionHigh(words []string) float64 { return captionRow + captionLine*float64(len(words)-1) }

func (p *openPage) place(i int, d *drawing.Drawing, turned bool, left, top float64, words []string) {
	p.page.Places = append(p.page.Places, Place{
		Drawing: i, Turned: turned, Left: left, Top: top + captionHigh(words), Window: whole(d, turned),
		Row: 1, Column: 1, Rows: 1, Columns: 1, caption: words,
	})
}

// tile cuts a drawing into windows that overlap, one to a page.
func (l *layouter) tile(i int, d *drawing.Drawing) {
	var best attempt
	var g *grid
	for _, a := range attempts {
		_, _, roomW, roomH := l.paper.sheet(a.sideways).room()
		if try := newGrid(d, a.turned, roomW, roomH); g == nil || try.rows()*try.columns() < g.rows()*g.columns() {
			best, g = a, try
		}
	}
	left, top, _, _ := l.paper.sheet(best.sideways).room()
	for r := range g.rows() {
		for c := range g.columns() {
			l.pages = append(l.pages, &openPage{full: true, page: Page{Sideways: best.sideways, Places: []Place{{
				Drawing: i, Turned: best.turned, Left: left, Top: top,
				Window: g.window(c, g.rows()-1-r), // rows count from the top
				Row:    r + 1, Column: c + 1, Rows: g.rows(), Columns: g.columns(), grid: g,
			}}}})
		}
	}
}
