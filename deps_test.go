package foldwright

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// layers is the order of the packages, lowest first. A package imports only packages of lines above its own; packages of
// one line do not import each other. A package that is not written yet may stand here already.
//
// The list is the design, so a build is not mended by changing it: move the code, or change the design with its reason in
// ARCHITECTURE.md. Packages that help tests have no line (see testHelper).
const layers = `
dense length
plane problem
stock
card
recipe
pattern
recipe/cutlist
flat
fold
spring resize care stance
fit trim wrap dress
kit
proof
--- engine
forms
drawing
drawing/svg drawing/pdf drawing/png drawing/view
teach
--- pure
studio
studio/store studio/web
cmd/foldwright cmd/wasm
`

// outside says which packages may import a module that is not ours; "tests" is test files only. A new line needs a
// sentence with its reason and its licence in ARCHITECTURE.md.
const outside = `
codeberg.org/go-pdf/fpdf         drawing/pdf
git.sr.ht/~sbinet/gg             drawing/png
golang.org/x/image               drawing drawing/pdf drawing/png
github.com/alecthomas/kong       cmd/foldwright
github.com/willabides/kongplete  cmd/foldwright
github.com/posener/complete      cmd/foldwright
modernc.org/sqlite               studio/store
github.com/google/go-cmp         tests
github.com/rogpeppe/go-internal  tests
gonum.org/v1/gonum               tests
pgregory.net/rapid               tests
`

const module = "foldwright"

// rank returns the line of every package in layers, and the last line of what stands above "--- mark".
func rank(t testing.TB, mark string) (lines map[string]int, last int) {
	t.Helper()
	lines, last = map[string]int{}, -1
	n := 0
	for line := range strings.Lines(strings.TrimSpace(layers)) {
		if m, ok := strings.CutPrefix(strings.TrimSpace(line), "--- "); ok {
			if m == mark {
				last = n - 1
			}
			continue
		}
		for _, p := range strings.Fields(line) {
			if _, twice := lines[p]; twice {
				t.Fatalf("%s stands twice in the layers", p)
			}
			lines[p] = n
		}
		n++
	}
	return lines, last
}

// engine are the packages that compute, pure those that take values, readers and writers and nothing else of the world.
func engine(t testing.TB, name string) bool { return above(t, "engine", name) }
func pure(t testing.TB, name string) bool   { return above(t, "pure", name) }

func above(t testing.TB, mark, name string) bool {
	t.Helper()
	lines, last := rank(t, mark)
	if last < 0 {
		t.Fatalf("there is no mark %q in the layers", mark)
	}
	line, ok := lines[name]
	return ok && line <= last
}

// testHelper says whether a package helps tests: then it has no line, and only tests and other helpers import it.
func testHelper(name string) bool {
	return strings.HasPrefix(name, "internal/") || name == "drawing/conform"
}

// pkg is what go list says of a package.
type pkg struct {
	ImportPath, Dir                    string
	GoFiles                            []string
	Imports, TestImports, XTestImports []string
}

// name returns the path below the module, "." for the root.
func (p pkg) name() string {
	if p.ImportPath == module {
		return "."
	}
	return strings.TrimPrefix(p.ImportPath, module+"/")
}

// packages returns every package of the module, each once, with what it has when built here or for the browser.
func packages(t testing.TB) []pkg {
	t.Helper()
	lookAtTree(t)
	var all []pkg
	add := func(p pkg) {
		i := slices.IndexFunc(all, func(q pkg) bool { return q.ImportPath == p.ImportPath })
		if i < 0 {
			all = append(all, p)
			return
		}
		q := &all[i]
		q.GoFiles = union(q.GoFiles, p.GoFiles)
		q.Imports = union(q.Imports, p.Imports)
		q.TestImports = union(q.TestImports, p.TestImports)
		q.XTestImports = union(q.XTestImports, p.XTestImports)
	}
	for _, target := range [][]string{nil, {"GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0"}} {
		// -e: a package that does not build still shows what it imports, and its own build says what is wrong with it
		cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,Imports,TestImports,XTestImports", "./...")
		cmd.Env = append(os.Environ(), target...)
		out, err := cmd.Output()
		if err != nil {
			var exit *exec.ExitError
			if errors.As(err, &exit) {
				t.Fatalf("%v: %s", cmd, exit.Stderr)
			}
			t.Fatalf("%v: %v", cmd, err)
		}
		for d := json.NewDecoder(strings.NewReader(string(out))); ; {
			var p pkg
			if err := d.Decode(&p); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%v: %v", cmd, err)
			}
			add(p)
		}
	}
	if len(all) == 0 {
		t.Fatal("go list found no packages: nothing was checked")
	}
	return all
}

// lookAtTree lists every folder of the module. Go keeps the result of a test as long as what the test itself looked at
// stays the same, and does not see what go list reads: without this a new import could pass on an old result.
func lookAtTree(t testing.TB) {
	t.Helper()
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.IsDir() && slices.Contains([]string{".git", "bin", "out", "node_modules"}, d.Name()) {
			return filepath.SkipDir
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func union(a, b []string) []string {
	u := slices.Concat(a, b)
	slices.Sort(u)
	return slices.Compact(u)
}

// importFaults returns what is wrong with the imports of one package.
func importFaults(t testing.TB, p pkg) []string {
	t.Helper()
	lines, _ := rank(t, "")
	var out []string
	line, known := lines[p.name()]
	helper := testHelper(p.name())
	if !known && !helper && p.name() != "." {
		out = append(out, fmt.Sprintf("%s has no line in the layers", p.name()))
	}
	for _, path := range p.Imports {
		ours, ok := strings.CutPrefix(path, module+"/")
		if !ok {
			continue
		}
		switch up, ok := lines[ours]; {
		case testHelper(ours) && !helper:
			out = append(out, fmt.Sprintf("%s imports %s, which only tests may", p.name(), ours))
		case known && ok && up == line:
			out = append(out, fmt.Sprintf("%s imports %s sideways", p.name(), ours))
		case known && ok && up > line:
			out = append(out, fmt.Sprintf("%s imports %s upwards", p.name(), ours))
		}
	}
	return append(out, outsideFaults(p)...)
}

// outsideFaults returns the imports of other people's modules that have no line, or not for this package.
func outsideFaults(p pkg) []string {
	var out []string
	check := func(paths []string, test bool) {
		for _, path := range paths {
			first, _, _ := strings.Cut(path, "/")
			if !strings.Contains(first, ".") {
				continue // ours or the standard library
			}
			who, ok := allowed(path)
			switch {
			case !ok:
				out = append(out, fmt.Sprintf("%s imports %s, which has no line in outside", p.name(), path))
			case !test && !slices.Contains(who, p.name()) && !testHelper(p.name()):
				out = append(out, fmt.Sprintf("%s imports %s, which is for %s", p.name(), path, strings.Join(who, ", ")))
			}
		}
	}
	check(p.Imports, false)
	check(p.TestImports, true)
	check(p.XTestImports, true)
	return out
}

// allowed returns who may import a path of a module that is not ours.
func allowed(path string) ([]string, bool) {
	for line := range strings.Lines(strings.TrimSpace(outside)) {
		f := strings.Fields(line)
		if path == f[0] || strings.HasPrefix(path, f[0]+"/") {
			return f[1:], true
		}
	}
	return nil, false
}

// TestImports: imports run down the layers, and only the packages that need them import other people's modules. Tests may
// import any package of ours: a cycle is refused by Go itself.
func TestImports(t *testing.T) {
	edges := 0
	for _, p := range packages(t) {
		for _, f := range importFaults(t, p) {
			t.Error(f)
		}
		for _, path := range p.Imports {
			if strings.HasPrefix(path, module+"/") {
				edges++
			}
		}
	}
	if edges == 0 {
		t.Error("no package imports another: nothing was checked")
	}
}

// TestImports_fails shows that the rules above notice what they are for.
func TestImports_fails(t *testing.T) {
	for _, c := range []struct {
		name, imports, want string
	}{
		{"card", "foldwright/length foldwright/plane fmt", ""},
		{"pattern", "foldwright/card foldwright/length", ""},
		{"length", "foldwright/card", "length imports card upwards"},
		{"plane", "foldwright/problem", "plane imports problem sideways"},
		{"drawing/svg", "foldwright/drawing/pdf", "drawing/svg imports drawing/pdf sideways"},
		{"drawing/svg", "foldwright/drawing", ""},
		{"drawing", "foldwright/drawing/svg", "drawing imports drawing/svg upwards"},
		{"card", "foldwright/internal/check", "card imports internal/check, which only tests may"},
		{"drawing/svg", "foldwright/drawing/conform", "drawing/svg imports drawing/conform, which only tests may"},
		{"internal/golden", "foldwright/internal/check pgregory.net/rapid", ""},
		{"util", "fmt", "util has no line in the layers"},
		{"card/extra", "", "card/extra has no line in the layers"},
		{"fold", "gonum.org/v1/gonum/mat", "fold imports gonum.org/v1/gonum/mat, which is for tests"},
		{"drawing/png", "git.sr.ht/~sbinet/gg", ""},
		{"card", "example.org/thing", "card imports example.org/thing, which has no line in outside"},
	} {
		got := strings.Join(importFaults(t, pkg{ImportPath: module + "/" + c.name, Imports: strings.Fields(c.imports)}), "\n")
		if got != c.want {
			t.Errorf("%s imports %s: got %q, want %q", c.name, c.imports, got, c.want)
		}
	}
	if !engine(t, "proof") || engine(t, "forms") || !pure(t, "teach") || pure(t, "studio") {
		t.Error("engine ends with proof and pure with teach; the marks in the layers say otherwise")
	}
}

// required returns the modules that go.mod requires, at least one.
func required(t testing.TB) []string {
	t.Helper()
	out, err := exec.Command("go", "mod", "edit", "-json").Output()
	if err != nil {
		t.Fatalf("go mod edit -json: %v", err)
	}
	var mod struct{ Require []struct{ Path string } }
	if err := json.Unmarshal(out, &mod); err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, r := range mod.Require {
		paths = append(paths, r.Path)
	}
	if len(paths) == 0 {
		t.Fatal("go.mod requires nothing: nothing was checked")
	}
	return paths
}

// TestArchitecture: ARCHITECTURE.md has a sentence on every package that there is, on every module that they import, and
// names every module that go.mod requires, because each comes with a licence.
func TestArchitecture(t *testing.T) {
	b, err := os.ReadFile("ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	text := string(b)
	for _, p := range packages(t) {
		if p.name() != "." && !strings.Contains(text, "\n- `"+p.name()+"`") {
			t.Errorf("ARCHITECTURE.md has no line that starts with - `%s`", p.name())
		}
		for _, path := range slices.Concat(p.Imports, p.TestImports, p.XTestImports) {
			for line := range strings.Lines(strings.TrimSpace(outside)) {
				name := strings.Fields(line)[0]
				if strings.HasPrefix(path+"/", name+"/") && !strings.Contains(text, "\n| `"+name+"` |") {
					t.Errorf("ARCHITECTURE.md has no row | `%s` | in its table of dependencies", name)
				}
			}
		}
	}
	for _, m := range required(t) {
		if !strings.Contains(text, "`"+m+"`") {
			t.Errorf("ARCHITECTURE.md does not name `%s`, which go.mod requires, and its licence", m)
		}
	}
	if !strings.Contains(text, "\n```\n"+strings.TrimSpace(layers)+"\n```\n") {
		t.Error("ARCHITECTURE.md does not show the layers as they stand in deps_test.go")
	}
}
