package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// usageError makes wrong arguments a wrong use of the command line, with a message in
// the command's own words.
func usageError(check cobra.PositionalArgs) cobra.PositionalArgs {
	if check == nil {
		return nil
	}
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case check(cmd, args) == nil:
			return nil
		case cmd.HasParent():
			return usage("%s: the wrong number of arguments, %d; write: tieover %s", cmd.Name(), len(args), cmd.Use)
		}
		hint := ""
		if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
			hint = "did you mean " + strings.Join(near, " or ") + "? "
		}
		return usage("there is no command %q; %stieover --help lists them", args[0], hint)
	}
}

// wrongFlag says what is wrong with a flag, without the words of the library
// that parses numbers.
func wrongFlag(cmd *cobra.Command, err error) error {
	text, reason, number := strings.Cut(err.Error(), ": strconv.")
	switch {
	case number && strings.HasPrefix(reason, "ParseFloat"):
		text += ": it takes a number"
	case number:
		text += ": it takes a whole number"
	}
	return usage("%s; %s --help lists the flags", text, cmd.CommandPath())
}

// withoutEffect refuses flags that change nothing beside another.
func withoutEffect(cmd *cobra.Command, beside string, flags ...string) error {
	given := func(name string) bool {
		flag := cmd.Flags().Lookup(name)
		return flag.Changed && flag.Value.String() != "false"
	}
	for _, name := range flags {
		if given(beside) && given(name) {
			return usage("--%s changes nothing with --%s", name, beside)
		}
	}
	return nil
}
