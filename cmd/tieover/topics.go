package main

import (
	"embed"
	"strings"

	"github.com/spf13/cobra"
)

// topicFiles is the reference, one page a topic, readable on a code host too.
//
//go:embed help/*.md
var topicFiles embed.FS

// topics lists the pages of the reference in reading order, by what follows
// "tieover help". No topic has the name of a command: that prints the command's
// own help.
var topics = []struct{ name, about string }{
	{"spec", "every key of a section spec, its values and defaults; mistakes and bounds"},
	{"notation", "how bars, ties, beams, tuplets, marks and parts are written; MusicXML"},
	{"signs", "the signs of the rhythm chart, and the chart's flags"},
	{"analysis", "the report, realign and fit"},
	{"json", "the keys of the report's, find's and fit's JSON"},
	{"templates", "other words around charts and worksheets"},
	{"sound", "what is heard: the MIDI file"},
	{"page", "the page, its keys and its figures; serve and --watch"},
	{"reading", "reading back: verify and find"},
	{"exercises", "worksheets and their keys"},
}

// topicText is the page of a topic as it is printed.
func topicText(name string) string {
	text, err := topicFiles.ReadFile("help/" + name + ".md")
	if err != nil {
		panic(err) // the files are part of the program
	}
	return strings.TrimSpace(string(text))
}

// addTopics makes the pages further help topics, commands that run nothing, and
// the list of them in the program's help name them as they are asked for.
func addTopics(root *cobra.Command) {
	root.SetHelpCommand(newHelpCmd(root))
	root.SetUsageTemplate(strings.Replace(root.UsageTemplate(),
		"{{rpad .CommandPath .CommandPathPadding}}", "tieover help {{rpad .Name .NamePadding}}", 1))
	for _, t := range topics {
		root.AddCommand(&cobra.Command{Use: t.name, Short: t.about, Long: topicText(t.name)})
	}
}

// newHelpCmd prints the help of a command or a page of the reference.
func newHelpCmd(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND or TOPIC]",
		Short: "Print a command's help or a page of the reference",
		Args:  usageError(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			asked, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return usage("there is no command or topic %q; tieover --help lists them", args[0])
			}
			return asked.Help()
		},
	}
}
