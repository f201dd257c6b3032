package proof

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/flat"
	"foldwright/pattern"
	"foldwright/recipe"
)

func stand(b *testing.B) []byte {
	text, err := os.ReadFile("../forms/harbour-light.card")
	if err != nil {
		b.Fatal(err)
	}
	return text
}

// BenchmarkReadAndProveFlat reads the stand (29 hinges, 5 loops) and folds it shut. Wanted: 2 ms at most.
func BenchmarkReadAndProveFlat(b *testing.B) {
	text := stand(b)
	b.ReportAllocs()
	for b.Loop() {
		r, _ := recipe.Parse("stand.card", text)
		a, _ := pattern.Assemble(r.Card())
		if !flat.Close(ctx, a).LiesFlat() {
			b.Fatal("does not lie flat")
		}
	}
}

// BenchmarkProve runs everything on every card of the catalogue. Wanted: 150 ms and 64 MB at most.
func BenchmarkProve(b *testing.B) {
	for _, path := range forms(b) {
		text, err := os.ReadFile(path)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(strings.TrimSuffix(filepath.Base(path), ".card"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if !Prove(ctx, path, text).Proven() {
					b.Fatal("not proven")
				}
			}
		})
	}
}

// BenchmarkWrongScore explains a stand with one wrong score, cures proven.
func BenchmarkWrongScore(b *testing.B) {
	text := []byte(strings.Replace(string(stand(b)), "120, 162", "121, 162", 1))
	b.ReportAllocs()
	for b.Loop() {
		if len(Prove(ctx, "wrong.card", text).Miss.Cures) == 0 {
			b.Fatal("no cure")
		}
	}
}

// BenchmarkHostile answers texts that no person means. Wanted: 2 s and 256 MB at most.
func BenchmarkHostile(b *testing.B) {
	for name, c := range hostile() {
		b.Run(strings.ReplaceAll(name, " ", "-"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Prove(ctx, "hostile.card", []byte(c.text))
			}
		})
	}
}
