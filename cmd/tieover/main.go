package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/score/source"
)

func main() { os.Exit(asProgram()) }

// asProgram is the program as a process of its own.
func asProgram() (code int) {
	outliveReaders()
	return run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})
}

// streams is all that a command may talk to, handed in so that tests need no
// process.
type streams struct {
	in  io.Reader
	out io.Writer // results
	err io.Writer // messages
}

// Exit codes.
const (
	done      = 0
	wrongData = 1 // the input is wrong; the message says where
	wrongUse  = 2 // the command line is wrong
	differs   = 3 // verify found differences
)

// exit is an error that ends the program with a code of its own; all other errors
// end it with wrongData. A nil err was already reported.
type exit struct {
	code int
	err  error
}

func (e exit) Error() string {
	if e.err == nil {
		return ""
	}
	return e.err.Error()
}

func (e exit) Unwrap() error { return e.err }

// usage makes an error about the command line.
func usage(format string, args ...any) error {
	return exit{wrongUse, fmt.Errorf(format, args...)}
}

// run is the whole program; it returns the exit code.
func run(args []string, s streams) (code int) {
	s, rest := withProgress(s)
	defer rest()
	messages := &visible{to: s.err}
	defer messages.flush()
	results := &remembered{to: s.out}
	s.out, s.err = results, messages
	if isTerminal(results) {
		seen := &visible{to: results}
		defer seen.flush()
		s.out = seen
	}
	defer func() {
		if r := recover(); r != nil {
			code = finish(s, files.AsBug(r))
		}
	}()
	root := newRoot(s)
	root.SetArgs(args)
	code = finish(s, root.Execute())
	if err := results.failure(); err != nil && !isClosedPipe(err) && code == done {
		code = finish(s, files.Error("cannot write", "standard output", err))
	}
	return code
}

// finish prints an error and returns the exit code for it. A reader that goes
// away has seen enough.
func finish(s streams, err error) int {
	if err == nil || isClosedPipe(err) {
		return done
	}
	e := exit{wrongData, err}
	errors.As(err, &e)
	if problems, ok := source.Of(e.err); ok {
		printProblems(s.err, problems)
	} else if e.err != nil {
		fmt.Fprintf(s.err, "tieover: %v\n", e.err)
	}
	return e.code
}

func newRoot(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:           "tieover",
		Short:         "Looped groupings in, readable notation out",
		SilenceErrors: true,
		SilenceUsage:  true,

		SuggestionsMinimumDistance: 2,
		Args:                       usageError(cobra.NoArgs),
		RunE:                       func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetIn(s.in)
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(wrongFlag)
	for _, add := range commands {
		cmd := add(s)
		cmd.Args = usageError(cmd.Args)
		root.AddCommand(cmd)
	}
	addTopics(root)
	return root
}

// commands lists every subcommand; the help text sorts them by name.
var commands = []func(streams) *cobra.Command{
	newNewCmd,
	newBuildCmd,
	newReportCmd,
	newChartCmd,
	newRealignCmd,
	newFitCmd,
	newFindCmd,
	newVerifyCmd,
	newWorksheetCmd,
	newServeCmd,
	newTapCmd,
	newInstrumentsCmd,
}
