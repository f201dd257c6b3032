package store

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strings"
	"testing"
)

// sqlFaults returns the calls of a file that give the database anything else than a constant, a string written there, or a
// script of this folder: text that somebody typed must only ever be an argument.
func sqlFaults(fset *token.FileSet, f *ast.File, constants []string) (faults []string, calls int) {
	constant := func(e ast.Expr) bool {
		switch e := e.(type) {
		case *ast.BasicLit:
			return true
		case *ast.Ident:
			return slices.Contains(constants, e.Name)
		}
		return false
	}
	ast.Inspect(f, func(n ast.Node) bool {
		c, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		s, ok := c.Fun.(*ast.SelectorExpr)
		if !ok || !slices.Contains([]string{"ExecContext", "QueryContext", "QueryRowContext", "PrepareContext", "Exec", "Query", "QueryRow", "Prepare"}, s.Sel.Name) {
			return true
		}
		calls++
		if at := 1; len(c.Args) <= at || !strings.HasSuffix(s.Sel.Name, "Context") || !constant(c.Args[at]) {
			faults = append(faults, fset.Position(c.Pos()).String())
		}
		return true
	})
	return faults, calls
}

// constantsOf returns the names of the constants of some files.
func constantsOf(files []*ast.File) []string {
	var out []string
	for _, f := range files {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, s := range g.Specs {
				for _, name := range s.(*ast.ValueSpec).Names {
					out = append(out, name.Name)
				}
			}
		}
	}
	return out
}

// TestSQL: no statement is put together out of strings. Four places hand a statement on: each and sound, which take it as a
// parameter, and the two that run an embedded script; who calls the first two is looked at as well.
func TestSQL(t *testing.T) {
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var parsed []*ast.File
	for _, e := range entries {
		if name := e.Name(); strings.HasSuffix(name, ".go") && !strings.HasSuffix(name, "_test.go") {
			f, err := parser.ParseFile(fset, name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			parsed = append(parsed, f)
		}
	}
	constants := constantsOf(parsed)
	var faults []string
	calls := 0
	for _, f := range parsed {
		more, n := sqlFaults(fset, f, constants)
		faults, calls = append(faults, more...), calls+n
		faults = append(faults, handedOn(fset, f, constants)...)
	}
	if calls < 10 {
		t.Errorf("only %d calls were found", calls)
	}
	var files []string
	for _, f := range faults {
		name, _, _ := strings.Cut(f, ":")
		files = append(files, name)
	}
	if want := []string{"copy.go", "migrate.go", "open.go", "revision.go"}; !slices.Equal(slices.Sorted(slices.Values(files)), want) {
		t.Errorf("statements that are no constants: %v; known are one each in %v", faults, want)
	}
}

// handedOn returns the calls of each and sound whose statement is no constant.
func handedOn(fset *token.FileSet, f *ast.File, constants []string) []string {
	var out []string
	ast.Inspect(f, func(n ast.Node) bool {
		c, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		name, ok := c.Fun.(*ast.Ident)
		if !ok || name.Name != "each" && name.Name != "sound" {
			return true
		}
		if id, ok := c.Args[3].(*ast.Ident); ok && !slices.Contains(constants, id.Name) {
			out = append(out, fset.Position(c.Pos()).String())
		} else if _, lit := c.Args[3].(*ast.BasicLit); !ok && !lit {
			out = append(out, fset.Position(c.Pos()).String())
		}
		return true
	})
	return out
}

// TestSQL_fails shows that the rule notices what it is for.
func TestSQL_fails(t *testing.T) {
	const text = `package p
const fine = "SELECT 1"
func f() {
	db.QueryRowContext(ctx, fine, x)
	db.ExecContext(ctx, "SELECT 1" + x)
	db.ExecContext(ctx, fmt.Sprintf("SELECT %s", x))
	db.QueryContext(ctx, x)
	db.Exec(fine)
	each(ctx, db, scan, "SELECT " + x)
	each(ctx, db, scan, x)
	each(ctx, db, scan, fine)
}`
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "p.go", text, 0)
	if err != nil {
		t.Fatal(err)
	}
	constants := constantsOf([]*ast.File{f})
	faults, calls := sqlFaults(fset, f, constants)
	want := []string{"p.go:5:2", "p.go:6:2", "p.go:7:2", "p.go:8:2"}
	if calls != 5 || !slices.Equal(faults, want) {
		t.Errorf("of %d calls got %v, want %v", calls, faults, want)
	}
	if got := handedOn(fset, f, constants); !slices.Equal(got, []string{"p.go:9:2", "p.go:10:2"}) {
		t.Errorf("handed on: got %v", got)
	}
}
