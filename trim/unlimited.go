package trim

import (
	"context"
	"math"

	"foldwright/length"
)

// table holds the most value that comes out of every rectangle of a grid, copies unlimited: F[i][j] for x.pts[i] by
// y.pts[j].
type table struct {
	g *grid
	// worth of every part, by its number.
	worth []int64
	f     [][]int64
}

// fill works the table out by the recurrence of Gilmore and Gomory (1966) and Beasley (1985), both from memory:
//
//	F(x, y) = max of  worth of a part that fits,  F(a, y) + F(x − a, y),  F(x, b) + F(x, y − b)
//
// with a and b on raster points, up to the middle. Exact. The rows of upright cuts are added as whole rows, which is
// what makes
// it fast. It returns nil where ctx ends first.
func fill(ctx context.Context, g *grid, worth []int64) *table {
	return fillFor(ctx, g, worth, Trimmer{})
}

// fillFor is fill with only such cuts as the trimmer reaches across, judged by the points of the grid: what comes out
// has to be looked at again.
func fillFor(ctx context.Context, g *grid, worth []int64, on Trimmer) *table {
	t := &table{g, worth, make([][]int64, len(g.x.pts))}
	ny := len(g.y.pts)
	cells := make([]int64, len(t.f)*ny)
	for i := range t.f {
		t.f[i] = cells[i*ny : (i+1)*ny : (i+1)*ny]
	}
	low := 0 // points up that upright cuts reach
	for low < ny && on.reaches(length.Length(g.y.pts[low])*g.uy) {
		low++
	}
	at := make([][]item, len(t.f)) // items by the row that they appear in
	for _, it := range g.items {
		if i, j := g.x.up(it.w), g.y.up(it.h); i < len(at) && j < ny && worth[it.part] > 0 {
			at[i] = append(at[i], it)
		}
	}
	for i := 1; i < len(t.f); i++ {
		if ctx.Err() != nil {
			return nil
		}
		row := t.f[i]
		copy(row[:low], t.f[i-1])
		for _, it := range at[i] {
			j := g.y.up(it.h)
			row[j] = max(row[j], worth[it.part])
		}
		for _, s := range g.x.pairs[i] {
			addRows(row[:low], t.f[s.one], t.f[s.two])
		}
		if on.reaches(length.Length(g.x.pts[i]) * g.ux) {
			levelCuts(row, g.y.pairs)
		}
	}
	return t
}

// addRows makes row at least a + b.
func addRows(row, a, b []int64) {
	a, b = a[:len(row)], b[:len(row)]
	for j, v := range row {
		row[j] = max(v, a[j]+b[j])
	}
}

func levelCuts(row []int64, pairs [][]split) {
	for j := 1; j < len(row); j++ {
		best := max(row[j], row[j-1])
		for _, s := range pairs[j] {
			best = max(best, row[s.one]+row[s.two])
		}
		row[j] = best
	}
}

// value of the whole sheet.
func (t *table) value() int64 {
	last := t.f[len(t.f)-1]
	return last[len(last)-1]
}

// plan returns a tree for the whole sheet that is worth value.
func (t *table) plan() *Cut {
	return t.block(len(t.f)-1, len(t.g.y.pts)-1).within(t.g.sheet.W, t.g.sheet.H)
}

// block finds again how the value of a cell came about.
func (t *table) block(i, j int) block {
	v := t.f[i][j]
	if v == 0 {
		return block{}
	}
	for i > 0 && t.f[i-1][j] == v {
		i--
	}
	for j > 0 && t.f[i][j-1] == v {
		j--
	}
	for _, it := range t.g.items {
		if t.worth[it.part] == v && t.g.x.up(it.w) <= i && t.g.y.up(it.h) <= j {
			return t.g.leaf(it)
		}
	}
	for _, s := range t.g.x.pairs[i] {
		if t.f[s.one][j]+t.f[s.two][j] == v {
			return t.block(int(s.one), j).beside(t.block(int(s.two), j))
		}
	}
	for _, s := range t.g.y.pairs[j] {
		if t.f[i][s.one]+t.f[i][s.two] == v {
			return t.block(i, int(s.one)).above(t.block(i, int(s.two)))
		}
	}
	return block{} // cannot happen: one of the three made the value
}

// around returns, for a block that fills x.pts[i] by y.pts[j] at the corner of the sheet, the most value that can still be
// cut beside and above it, copies unlimited (Viswanathan and Bagchi 1993, from memory): U[i][j].
func (t *table) around(ctx context.Context) [][]int64 {
	nx, ny := len(t.f), len(t.g.y.pts)
	u := make([][]int64, nx)
	for i := nx - 1; i >= 0; i-- {
		if ctx.Err() != nil {
			return nil
		}
		u[i] = make([]int64, ny)
		d := 0 // down of the difference, which grows with r
		for r := i + 1; r < nx; r++ {
			for d+1 < nx && t.g.x.pts[d+1] <= t.g.x.pts[r]-t.g.x.pts[i] {
				d++
			}
			addRows(u[i], t.f[d], u[r])
		}
		aroundRow(u[i], t.f[i], t.g.y.pts)
	}
	return u
}

func aroundRow(u, f, pts []int64) {
	for j := len(pts) - 1; j >= 0; j-- {
		d, best := 0, u[j]
		for s := j + 1; s < len(pts); s++ {
			for d+1 < len(pts) && pts[d+1] <= pts[s]-pts[j] {
				d++
			}
			best = max(best, f[d]+u[s])
		}
		u[j] = best
	}
}

// capOf returns how many of a part one sheet can hold by area and by Most.
func (g *grid) capOf(part int) int64 {
	p := g.parts[part]
	n := area(g.sheet.W, g.sheet.H) / area(p.W, p.H)
	if p.Most != Unlimited {
		n = min(n, int64(p.Most))
	}
	return min(n, math.MaxUint16)
}
