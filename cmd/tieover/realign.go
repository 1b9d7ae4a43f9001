package main

import (
	"cmp"
	"io"

	"github.com/spf13/cobra"

	"tieover/export/report"
	"tieover/export/report/facts"
	"tieover/score"
)

// newRealignCmd makes `tieover realign`: the arithmetic of a few groupings.
func newRealignCmd(s streams) *cobra.Command {
	l := loops{meters: []string{"4/4"}, pulses: []string{"1/8"}, offsets: []string{"0"}}
	var o report.Options
	var asJSON bool
	var out target
	cmd := &cobra.Command{
		Use:   "realign GROUPS...",
		Short: "Say when groupings come together, without a file",
		Long: `Says when loops of the given groupings begin together again, how they drift
against the bars and one another, and what they make together until then.`,
		Example: `  tieover realign 3+2+2+3 3+3+2+2+2 --meter 5/4
  tieover realign 3+3+2 3+2 --pulse 1/16
  tieover realign 3+3+2 2+2+2+3 --pulse "1/8,1/8 in 3:2"
  tieover realign 9 15 --meter 9/8 --offset 0,3`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := cmp.Or(withoutEffect(cmd, "json", "rows", "terms"), rowLimit(cmd, &o)); err != nil {
				return err
			}
			l.groups = args
			p, whole, err := l.untilTogether()
			if err != nil {
				return err
			}
			return writeOut(cmd.Context(), s, out, func(w io.Writer) error {
				if asJSON {
					return facts.Write(w, p)
				}
				return report.Realign(w, p, whole, o)
			})
		},
	}
	f := cmd.Flags()
	f.Var(&list{into: &l.meters}, "meter", "bars; several, as in 4/4,2/4, by turns")
	f.Var(&list{into: &l.pulses}, "pulse", "what sizes count; one value, or one each")
	f.Var(&list{into: &l.offsets}, "offset", "pulses late; one value, or one each")
	f.StringVar(&l.tempo, "tempo", "120", "quarters a minute, for the clock")
	f.IntVar(&o.Rows, "rows", report.Rows, "rows of a table at most; 0 for all")
	f.BoolVar(&asJSON, "json", false, "for programs: JSON, as of report")
	addTerms(cmd, &o.Terms)
	addOutput(cmd, &out)
	return cmd
}

// untilTogether makes a section that lasts until the loops come together, or,
// where that is never or too far off, so many bars.
func (l loops) untilTogether() (p *score.Piece, whole bool, err error) {
	const bars = 16
	p, problems := l.piece(score.LengthRule{Kind: score.Bars, N: bars})
	if len(problems) > 0 {
		return nil, false, problems.Err()
	}
	m := p.Sections[0].Together()
	n := int64(1)
	if m.First != nil && m.Period != nil && m.First.Cmp(m.Period) < 0 {
		n = 2 // the first is no whole turn
	}
	for ; n > 0; n-- {
		until, problems := l.piece(score.LengthRule{Kind: score.Realignments, N: n})
		if len(problems) == 0 {
			return until, true, nil
		}
	}
	return p, false, nil
}
