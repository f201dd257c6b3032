package forms

import (
	"embed"
	"fmt"
	"strings"

	"foldwright/problem"
)

//go:embed *.card
var files embed.FS

const ending = ".card"

// Names returns the names of all forms, sorted.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil // cannot happen: the folder is embedded
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ending))
	}
	return names
}

// Text returns the recipe of a form.
// Errors: a name that is not in the catalogue, with the one that was probably meant.
func Text(name string) ([]byte, error) {
	text, err := files.ReadFile(name + ending)
	if err == nil {
		return text, nil
	}
	if near, ok := problem.Suggest(name, Names()); ok {
		return nil, fmt.Errorf("there is no form %q; did you mean %q?", name, near)
	}
	return nil, fmt.Errorf("there is no form %q; there are %s", name, strings.Join(Names(), ", "))
}
