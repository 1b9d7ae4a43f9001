package main

import (
	"io"

	"github.com/spf13/cobra"

	"tieover/export/report"
	"tieover/export/report/facts"
	"tieover/score"
)

// anyTempo is the tempo of a piece whose clock nobody looks at.
const anyTempo = "120"

// newFitCmd makes `tieover fit`: ways to end a loop on a barline.
func newFitCmd(s streams) *cobra.Command {
	l := loops{meters: []string{"4/4"}, offsets: []string{"0"}, tempo: anyTempo}
	var o report.Options
	var bars, cycles int
	var asJSON bool
	var pulse string
	var out target
	cmd := &cobra.Command{
		Use:   "fit GROUPS",
		Short: "Find ways to make a loop end on a barline",
		Long: `Finds ways to make a loop fill a number of bars: whole cycles, where a cut would
fall, the fewest groups of 2 and 3 to add or leave out, and closing formulas that
land on the next downbeat.`,
		Example: `  tieover fit 3+2+2+2 --meter 5/4 --bars 6
  tieover fit 3+3+2 --pulse 1/16 --bars 4
  tieover fit 3+2+2+2 --meter 5/4 --cycles 7`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := withoutEffect(cmd, "json", "terms"); err != nil {
				return err
			}
			if cmd.Flags().Changed("bars") == cmd.Flags().Changed("cycles") {
				return usage("say either --bars N or --cycles N")
			}
			for _, name := range []string{"bars", "cycles"} {
				n, _ := cmd.Flags().GetInt(name)
				if cmd.Flags().Changed(name) && (n < 1 || n > score.MaxBars) {
					return usage("--%s %d: write a number from 1 to 1,000,000", name, n)
				}
			}
			l.groups, l.pulses = args, []string{pulse}
			p, err := l.filling(bars, cycles)
			if err != nil {
				return err
			}
			return writeOut(cmd.Context(), s, out, func(w io.Writer) error {
				if asJSON {
					return facts.WriteFit(w, p)
				}
				return report.Fit(w, p, o)
			})
		},
	}
	f := cmd.Flags()
	f.Var(&list{into: &l.meters}, "meter", "bars; several, as in 4/4,2/4, by turns")
	f.IntVar(&bars, "bars", 0, "how many bars to fill")
	f.IntVar(&cycles, "cycles", 0, "how many cycles; the bars are those they take")
	f.StringVar(&pulse, "pulse", "1/8", "what sizes count")
	f.BoolVar(&asJSON, "json", false, "for programs: as JSON")
	addTerms(cmd, &o.Terms)
	addOutput(cmd, &out)
	return cmd
}

// filling makes a section of so many bars, or of the bars that so many cycles
// take.
func (l loops) filling(bars, cycles int) (*score.Piece, error) {
	p, problems := l.piece(score.LengthRule{Kind: score.Bars, N: int64(max(bars, 1))})
	if len(problems) > 0 || bars > 0 {
		return p, problems.Err()
	}
	length := int64(0)
	for _, item := range p.Sections[0].Layers[0].Patterns[0].Groups {
		length += int64(item.Size)
	}
	p, problems = l.piece(score.LengthRule{Kind: score.Pulses, N: length * int64(cycles)})
	if len(problems) > 0 {
		return p, problems.Err()
	}
	p, problems = l.piece(score.LengthRule{Kind: score.Bars, N: int64(p.Sections[0].BarCount())})
	return p, problems.Err()
}
