package foldwright

import (
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The rules for packages above the mark "--- pure" in the layers, and why:
//
//  1. They import nothing that reaches files, the network, the process or a log; they take values, readers and writers.
//     So the same engine runs in the browser, and a test needs no world around it.
//  2. They do not read the clock or the shared random numbers; engine packages do not import time at all. So the same
//     recipe gives the same bytes every time.
//  3. A package variable has a value from the start that does not depend on the order of initialisation, and nothing in
//     the package changes it; there is no func init. So engine state is immutable values, and cards can be worked out
//     beside each other.
//
// Rule 3 is checked on the syntax: an assignment to the variable or a part of it, its address taken (a method with a
// pointer receiver takes it), delete, clear, copy and the sorting functions. A slice that is handed out and changed by the
// caller is beyond it and is for the reviewer.

// pureFaults returns what breaks the rules in the files of one package; imports and types of other packages are not read.
func pureFaults(fset *token.FileSet, files []*ast.File, isEngine bool) []string {
	c := &purity{fset: fset, engine: isEngine, info: &types.Info{
		Uses:       map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{},
	}}
	conf := types.Config{Importer: emptyImporter{}, Error: func(error) {}}
	c.pkg, _ = conf.Check("checked", fset, files, c.info) // names of other packages stay unknown, ours are found
	for _, f := range files {
		c.imports(f)
		c.declarations(f)
		ast.Inspect(f, c.changes)
	}
	slices.Sort(c.faults)
	return c.faults
}

// emptyImporter gives every import without its contents: enough to tell our own names apart.
type emptyImporter struct{}

var _ types.Importer = emptyImporter{}

func (emptyImporter) Import(p string) (*types.Package, error) {
	if p == "unsafe" {
		return importer.Default().Import(p)
	}
	name := path.Base(p)
	if strings.HasPrefix(name, "v") && len(name) == 2 {
		name = path.Base(path.Dir(p)) // math/rand/v2 is called rand
	}
	pkg := types.NewPackage(p, name)
	pkg.MarkComplete()
	return pkg, nil
}

type purity struct {
	fset   *token.FileSet
	info   *types.Info
	pkg    *types.Package
	engine bool
	faults []string
}

func (c *purity) add(at ast.Node, format string, args ...any) {
	p := c.fset.Position(at.Pos())
	c.faults = append(c.faults, fmt.Sprintf("%s:%d: ", filepath.Base(p.Filename), p.Line)+fmt.Sprintf(format, args...))
}

func (c *purity) imports(f *ast.File) {
	for _, i := range f.Imports {
		p, err := strconv.Unquote(i.Path.Value)
		first, _, _ := strings.Cut(p, "/")
		if err != nil || slices.Contains([]string{"os", "net", "syscall", "log", "plugin", "C"}, first) || p == "io/ioutil" ||
			p == "crypto/rand" || c.engine && p == "time" {
			c.add(i, "imports %s", p)
		}
	}
}

// declarations judges package variables and init functions.
func (c *purity) declarations(f *ast.File) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.Name == "init" && d.Recv == nil {
				c.add(d, "has a func init")
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				if v, ok := s.(*ast.ValueSpec); ok && d.Tok == token.VAR {
					c.variable(v, embedded(d.Doc) || embedded(v.Doc))
				}
			}
		}
	}
}

func embedded(doc *ast.CommentGroup) bool {
	return doc != nil && slices.ContainsFunc(doc.List, func(l *ast.Comment) bool { return strings.HasPrefix(l.Text, "//go:embed ") })
}

func (c *purity) variable(v *ast.ValueSpec, embed bool) {
	if v.Names[0].Name == "_" {
		return // asserts a type
	}
	if len(v.Values) == 0 && !embed {
		c.add(v, "the variable %s has no value from the start", v.Names[0].Name)
	}
	for _, value := range v.Values {
		ast.Inspect(value, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncLit:
				return false // what a function does when it is called later is no part of the value
			case *ast.CallExpr:
				if !c.plainCall(n) {
					c.add(n, "the variable %s is made by a call; a table, a conversion or one of %s may stand here",
						v.Names[0].Name, strings.Join(constantCalls(), ", "))
				}
			}
			return true
		})
	}
}

// constantCalls are the functions that may make the value of a package variable: what they return depends on nothing but
// their arguments and nobody changes it. sync.OnceValue puts a table off until it is first asked for.
func constantCalls() []string {
	return []string{"errors.New", "fmt.Errorf", "math.Inf", "math.Sqrt", "regexp.MustCompile", "strings.NewReplacer", "sync.OnceValue", "sync.OnceValues", "time.Date"}
}

// plainCall says whether a call makes a constant of sorts.
func (c *purity) plainCall(call *ast.CallExpr) bool {
	switch f := ast.Unparen(call.Fun).(type) {
	case *ast.SelectorExpr:
		return slices.Contains(constantCalls(), types.ExprString(f))
	case *ast.Ident:
		switch o := c.info.Uses[f].(type) {
		case *types.TypeName:
			return true
		case *types.Builtin:
			return o.Name() == "len" || o.Name() == "min" || o.Name() == "max"
		}
	case *ast.ArrayType, *ast.MapType:
		return true
	}
	return false
}

// global returns the package variable of ours that an expression is or is a part of.
func (c *purity) global(e ast.Expr) (string, bool) {
	for {
		switch x := e.(type) {
		case *ast.ParenExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.SliceExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		case *ast.SelectorExpr:
			e = x.X
		case *ast.Ident:
			v, ok := c.info.Uses[x].(*types.Var)
			return x.Name, ok && v.Parent() == c.pkg.Scope()
		default:
			return "", false
		}
	}
}

// changes reports what changes a package variable, reads the clock or draws shared random numbers.
func (c *purity) changes(n ast.Node) bool {
	changed := func(how string, targets ...ast.Expr) {
		for _, e := range targets {
			if name, ok := c.global(e); ok {
				c.add(n, "%s the variable %s", how, name)
			}
		}
	}
	switch n := n.(type) {
	case *ast.AssignStmt:
		changed("assigns to", n.Lhs...)
	case *ast.IncDecStmt:
		changed("counts with", n.X)
	case *ast.UnaryExpr:
		if n.Op == token.AND {
			changed("takes the address of", n.X)
		}
	case *ast.RangeStmt:
		if n.Tok == token.ASSIGN {
			changed("assigns to", n.Key)
			if n.Value != nil {
				changed("assigns to", n.Value)
			}
		}
	case *ast.CallExpr:
		if changesFirst(n.Fun) && len(n.Args) > 0 {
			changed("passes to "+types.ExprString(n.Fun), n.Args[0])
		}
	case *ast.SelectorExpr:
		if c.pointerMethod(n) {
			changed("takes the address of", n.X)
		}
		c.impure(n)
	}
	return true
}

// changesFirst says whether a function of the language or the standard library changes what its first argument holds.
func changesFirst(f ast.Expr) bool {
	name := types.ExprString(f)
	for _, prefix := range []string{"slices.Sort", "slices.Delete", "slices.Compact", "sort."} {
		if strings.HasPrefix(name, prefix) && name != "slices.Sorted" && !strings.HasPrefix(name, "sort.Search") {
			return true
		}
	}
	return slices.Contains([]string{"delete", "clear", "copy", "slices.Reverse", "slices.Insert", "slices.Replace",
		"maps.Copy", "maps.DeleteFunc", "maps.Insert"}, name)
}

// pointerMethod says whether a selector is a method of ours with a pointer receiver, called on a value.
func (c *purity) pointerMethod(s *ast.SelectorExpr) bool {
	sel := c.info.Selections[s]
	if sel == nil || sel.Kind() != types.MethodVal {
		return false
	}
	f, ok := sel.Obj().(*types.Func)
	if !ok {
		return false
	}
	_, pointer := f.Signature().Recv().Type().(*types.Pointer)
	return pointer
}

// impure reports the clock and the shared random numbers.
func (c *purity) impure(s *ast.SelectorExpr) {
	id, ok := s.X.(*ast.Ident)
	if !ok {
		return
	}
	p, ok := c.info.Uses[id].(*types.PkgName)
	if !ok {
		return
	}
	switch p.Imported().Path() {
	case "time":
		if slices.Contains([]string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"}, s.Sel.Name) {
			c.add(s, "reads the clock with time.%s", s.Sel.Name)
		}
	case "math/rand", "math/rand/v2":
		if !strings.HasPrefix(s.Sel.Name, "New") && !slices.Contains([]string{"Rand", "Source", "Zipf", "PCG", "ChaCha8"}, s.Sel.Name) {
			c.add(s, "draws shared random numbers with rand.%s", s.Sel.Name)
		}
	}
}

// parse reads the files of a package that are not tests.
func parse(t testing.TB, p pkg) (*token.FileSet, []*ast.File) {
	t.Helper()
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	return fset, files
}

func TestPurity(t *testing.T) {
	checked := 0
	for _, p := range packages(t) {
		if !pure(t, p.name()) {
			continue
		}
		checked++
		fset, files := parse(t, p)
		for _, f := range pureFaults(fset, files, engine(t, p.name())) {
			t.Errorf("%s/%s", p.name(), f)
		}
	}
	if checked == 0 {
		t.Error("no package stands above the mark: nothing was checked")
	}
}

// TestPurity_fails shows that each rule notices what it is for, and lets pass what it should.
func TestPurity_fails(t *testing.T) {
	for _, c := range []struct{ name, source, want string }{
		{"tables and errors", `import ("errors"; "regexp")
			var table = map[string]int{"a": 1}
			var kinds = []Kind{Kind(1)}
			type Kind int
			var ErrX = errors.New("x")
			var word = regexp.MustCompile("a+")
			var _ error = (*E)(nil)
			func f() int { table := map[string]int{}; table["a"] = 2; x := kinds; return len(x) + table["a"] }`, ""},
		{"embed", "import _ \"embed\"\n//go:embed a.csv\nvar text string", ""},
		{"no value", "var n int", "a.go:2: the variable n has no value from the start"},
		{"made by a call", "var n = f()\nfunc f() int { return 1 }", "a.go:2: the variable n is made by a call"},
		{"assigned", "var n = 1\nfunc f() { n = 2 }", "a.go:3: assigns to the variable n"},
		{"part assigned", "var m = map[string][]int{}\nfunc f() { m[\"a\"][0] += 2 }", "a.go:3: assigns to the variable m"},
		{"counted", "var n = 1\nfunc f() { n++ }", "a.go:3: counts with the variable n"},
		{"address", "var n = 1\nfunc f() *int { return &n }", "a.go:3: takes the address of the variable n"},
		{"pointer method", "type T struct{}\nfunc (t *T) Set() {}\nvar v = T{}\nfunc f() { v.Set() }", "a.go:5: takes the address of the variable v"},
		{"value method", "type T struct{}\nfunc (t T) Get() {}\nvar v = T{}\nfunc f() { v.Get() }", ""},
		{"ranged over", "var n = 1\nfunc f() { for n = range 3 {} }", "a.go:3: assigns to the variable n"},
		{"deleted from", "var m = map[string]int{}\nfunc f() { delete(m, \"a\") }", "a.go:3: passes to delete the variable m"},
		{"sorted", "import \"slices\"\nvar s = []int{2, 1}\nfunc f() { slices.Sort(s) }", "a.go:4: passes to slices.Sort the variable s"},
		{"sorted copy", "import (\"slices\"; \"maps\")\nvar m = map[int]int{}\nfunc f() { slices.Sorted(maps.Keys(m)) }", ""},
		{"init", "func init() {}", "a.go:2: has a func init"},
		{"files", "import \"os\"", "a.go:2: imports os"},
		{"network", "import \"net/http\"", "a.go:2: imports net/http"},
		{"time", "import \"time\"\nfunc f(d time.Duration) {}", "a.go:2: imports time"},
		{"clock", "import \"time\"\nfunc f() { time.Now() }", "a.go:2: imports time\na.go:3: reads the clock with time.Now"},
		{"shared random numbers", "import \"math/rand/v2\"\nfunc f() int { return rand.IntN(3) }", "a.go:3: draws shared random numbers with rand.IntN"},
		{"own random numbers", "import \"math/rand/v2\"\nfunc f() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }", ""},
	} {
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, "a.go", "package a\n"+c.source, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		got := strings.Join(pureFaults(fset, []*ast.File{f}, true), "\n")
		if c.want == "" && got != "" || !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
