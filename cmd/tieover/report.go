package main

import (
	"cmp"
	"io"

	"github.com/spf13/cobra"

	"tieover/export/report"
	"tieover/export/report/facts"
	"tieover/score/beat"
)

// newReportCmd makes `tieover report`: the analysis, for people or programs.
func newReportCmd(s streams) *cobra.Command {
	var o report.Options
	var asJSON, brief bool
	var out target
	cmd := &cobra.Command{
		Use:   "report SPEC...",
		Short: "Write what is known about a section",
		Long: `Writes the analysis of one or more section specs: when the loops realign and how
they drift, what they make together, what each grouping is and may be heard as,
where the end cuts them, and ways to bar them.`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := cmp.Or(withoutEffect(cmd, "json", "brief", "glossary", "indices", "rows", "terms"), rowLimit(cmd, &o)); err != nil {
				return err
			}
			p, err := load(s, args)
			if err != nil {
				return err
			}
			fill := func(w io.Writer) error {
				switch {
				case asJSON:
					return facts.Write(w, p)
				case brief:
					return report.Brief(w, p, o)
				}
				return report.Text(w, p, o)
			}
			return writeOut(cmd.Context(), s, out, fill, args...)
		},
	}
	f := cmd.Flags()
	f.BoolVar(&asJSON, "json", false, "for programs: everything as JSON")
	f.BoolVar(&brief, "brief", false, "the opening sentences alone, fit to paste")
	f.BoolVar(&o.Indices, "indices", false, "also what only a specialist reads of the groupings")
	f.BoolVar(&o.Glossary, "glossary", false, "explain words and name sources at the end")
	f.IntVar(&o.Rows, "rows", report.Rows, "rows of a table at most; 0 for all")
	addTerms(cmd, &o.Terms)
	addOutput(cmd, &out)
	return cmd
}

// rowLimit turns --rows into what the report takes.
func rowLimit(cmd *cobra.Command, o *report.Options) error {
	switch {
	case !cmd.Flags().Changed("rows"):
		o.Rows = 0
	case o.Rows < 0:
		return usage("--rows %d: write a number of rows, or 0 for all", o.Rows)
	case o.Rows == 0:
		o.Rows = -1
	}
	return nil
}

// addTerms registers the names for note values.
func addTerms(cmd *cobra.Command, into *beat.Terms) {
	addChoice(cmd.Flags(), into, "terms", "names of note values", "american", "british")
}
