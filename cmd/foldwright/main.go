// Command foldwright proves dimensional cards: it reads a recipe, folds it, and says before any paper is cut whether the
// card lies flat and opens, what is wrong, and which measurement cures it. It draws patterns and templates true to size.
//
//	foldwright prove CARD…     say whether the cards lie flat and open
//	foldwright draw CARD…      draw templates, patterns and views into a folder
//	foldwright resize CARD     bring a card to another size, on the marks of a ruler
//	foldwright sizes CARD      the same for many sizes, as one table
//	foldwright mend CARD       the fewest changes that make a card lie flat again
//	foldwright read LIST       turn a pasted cut list into a recipe
//	foldwright forms           the catalogue of cards to start from
//	foldwright format CARD…    write recipes in their one form
//
// CARD is a file, or - for standard input. Lengths are answered in the card's own unit with the other one in brackets.
//
// Exit codes, a promise: 0 done and proven; 1 the card has problems; 2 wrong use; 3 stopped early (a limit, or cancelled);
// 10 files could not be read or written. A command that is refused writes nothing.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/alecthomas/kong"
	"github.com/posener/complete"
	"github.com/willabides/kongplete"
)

// Exit codes.
const (
	exitDone     = 0
	exitProblems = 1
	exitUsage    = 2
	exitStopped  = 3
	exitFiles    = 10
)

// cli is everything that can be typed.
type cli struct {
	Prove      proveCmd                     `cmd:"" help:"Say whether a card lies flat and opens, what is wrong, and what cures it."`
	Spring     springCmd                    `cmd:"" help:"Say where the folds of a card bring it to rest, and how strongly they push."`
	Tune       tuneCmd                      `cmd:"" help:"Find the leaf width or the press with which a card stands as deep, or feels, as you wish."`
	Stand      standCmd                     `cmd:"" help:"Say whether the open card stands, how far it may be tilted, and what ornament tips it."`
	Care       careCmd                      `cmd:"" help:"Say what the errors of a hand do to a card, and which lines want most care."`
	BenchTest  benchTestCmd                 `cmd:"" name:"bench-test" help:"Measure a stock of your own with things on any table: how stiff it is, how springy its folds are."`
	Fit        fitCmd                       `cmd:"" help:"Say which envelope a card goes into, what it weighs, and by which mail class it can be sent."`
	Dress      dressCmd                     `cmd:"" help:"Lay mats and toppers on a card, and say what is to be cut for them."`
	Wrap       wrapCmd                      `cmd:"" help:"Make the envelope or the box for a card, as a recipe that is proven like any card."`
	Trim       trimCmd                      `cmd:"" help:"Plan how the parts of some cards are cut out of the sheets in the drawer, edge to edge."`
	Draw       drawCmd                      `cmd:"" help:"Draw templates true to size, patterns with measurements, and the closed and open card."`
	Resize     resizeCmd                    `cmd:"" help:"Bring a card to another size, on the marks of a ruler, so that it still lies flat."`
	Sizes      sizesCmd                     `cmd:"" help:"Bring a card to many sizes and rulers, as one table."`
	Forms      formsCmd                     `cmd:"" help:"List the catalogue of cards to start from, or print one."`
	Mend       mendCmd                      `cmd:"" help:"Find the fewest and smallest changes that make a card lie flat again."`
	Read       readCmd                      `cmd:"" help:"Turn a pasted cut list into a recipe, and prove it."`
	Format     formatCmd                    `cmd:"" help:"Write a recipe in its one form, comments and order kept."`
	Completion kongplete.InstallCompletions `cmd:"" help:"Print the line that turns on completion in your shell."`
}

// env is what a command may touch outside itself.
type env struct {
	ctx    context.Context
	stdin  io.Reader
	stdout io.Writer
	stderr io.Writer
}

// exitError ends a command with a code; its text, if any, goes to standard error.
type exitError struct {
	code int
	text string
}

func (e *exitError) Error() string { return e.text }

func fail(code int, format string, args ...any) error {
	return &exitError{code, fmt.Sprintf(format, args...)}
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(env{ctx, os.Stdin, os.Stdout, os.Stderr}, os.Args[1:]))
}

// run carries out one command line and returns its exit code.
func run(e env, args []string) (code int) {
	var c cli
	exited := -1
	parser, err := kong.New(&c,
		kong.Name("foldwright"),
		kong.Description("Foldwright proves a card of scored, folded and glued card stock before any paper is cut.\n\n"+
			"Exit codes: 0 done and proven, 1 the card has problems, 2 wrong use, 3 stopped early, 10 file trouble."),
		kong.Writers(e.stdout, e.stderr),
		kong.Exit(func(code int) {
			if exited < 0 {
				exited = code
			}
		}),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
		kong.BindTo(e.ctx, (*context.Context)(nil)),
	)
	if err != nil {
		fmt.Fprintln(e.stderr, "foldwright:", err)
		return exitUsage
	}
	kongplete.Complete(parser,
		kongplete.WithPredictor("card", complete.PredictFiles("*.card")),
		kongplete.WithPredictor("folder", complete.PredictDirs("*")))
	if exited >= 0 { // the shell asked for completions, and has them
		return exited
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := parser.Parse(args)
	if exited >= 0 {
		return exited
	}
	if err != nil {
		fmt.Fprintf(e.stderr, "foldwright: %v\n", err)
		fmt.Fprintln(e.stderr, "    try: foldwright --help")
		return exitUsage
	}
	err = parsed.Run(&e)
	var exit *exitError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &exit):
		if exit.text != "" {
			fmt.Fprintln(e.stderr, "foldwright:", exit.text)
		}
		return exit.code
	}
	fmt.Fprintln(e.stderr, "foldwright:", err)
	return exitFiles
}
