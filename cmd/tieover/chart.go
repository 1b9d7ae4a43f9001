package main

import (
	"cmp"
	"errors"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"tieover/export/chart"
	"tieover/score"
)

// newChartCmd makes `tieover chart`: the rhythm chart on standard output or in
// a file.
func newChartCmd(s streams) *cobra.Command {
	opt := chart.Default()
	var shown bars
	var felt string
	whole, every := false, 0
	var out target
	cmd := &cobra.Command{
		Use:   "chart SPEC...",
		Short: "Write the rhythm chart",
		Long: `Writes the rhythm chart of one or more section specs: every layer a row that
can be counted aloud, with the composite, the realignments and the spoken count.`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			opt.From, opt.To = shown.from, shown.to
			err := cmp.Or(checkWidth("chart", opt.Width, chart.Narrowest), checkCut(cmd, every), withoutEffect(cmd, "plain", "template"),
				withoutEffect(cmd, "drift", "template", "pitches", "touches", "words", "compact"))
			if err != nil {
				return err
			}
			if opt.Words, err = readTemplate(s, opt.File); err != nil {
				return err
			}
			p, err := load(s, args)
			if err != nil {
				return err
			}
			if p, err = inVersions(p, &opt, whole, every, felt); err != nil {
				return err
			}
			fill := func(w io.Writer) error { return chart.Write(w, p, opt) }
			return writeOut(cmd.Context(), s, out, fill, append(args, opt.File)...)
		},
	}
	f := cmd.Flags()
	f.IntVar(&opt.Width, "width", opt.Width, "columns of a line")
	f.BoolVar(&opt.ASCII, "ascii", false, "no byte above 127: accents dropped, other letters as <6C34>")
	f.BoolVar(&opt.Bare, "plain", false, "only the rows, no heading, legend or closing lines")
	f.BoolVar(&opt.Pitches, "pitches", false, "pitch or drum names under each layer")
	f.BoolVar(&opt.Touches, "touches", false, "accents and touches over each layer's strokes")
	f.BoolVar(&opt.Sung, "words", false, "syllables or lyrics under each layer")
	f.BoolVar(&opt.Compact, "compact", false, "letters instead of names")
	f.BoolVar(&opt.Drift, "drift", false, "each layer's cycles under one another against the barline")
	f.BoolVar(&whole, "whole", false, "beside each loop that is cut the same loop whole, and where they part and meet")
	addCut(cmd, &every)
	f.StringVar(&felt, "felt", "", "in the bars that this `LAYER` may be heard from; LAYER=3+2+2 of several ways")
	f.Var(&list{into: &opt.Layers}, "layers", "only these layers, joined by commas")
	f.Var(barsFlag(&shown), "bars", "only these bars: 5, 5-12, 5- or -12, which has a pickup too")
	f.StringVar(&opt.File, "template", "", "template `FILE` for heading and closing lines")
	addOutput(cmd, &out)
	return cmd
}

// inVersions is a piece as a chart is asked to show it: with loops in two versions,
// in the bars that are felt from a layer, or both.
func inVersions(p *score.Piece, opt *chart.Options, whole bool, every int, felt string) (*score.Piece, error) {
	var all []versions
	if whole || every != 0 {
		var err error
		if p, all, err = allVersions(p, every); err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(all, func(v versions) bool { return len(v.twins) > 0 }) {
			return nil, errors.New("--whole: no loop is cut short; --cut 10 shows what a cut every 10 bars would make")
		}
		for _, v := range all {
			v.asRows(opt)
		}
	}
	if felt != "" {
		heard, notes, err := feltPiece(p, felt)
		if err != nil {
			return nil, err
		}
		for i, note := range opt.Notes {
			if note != "" {
				notes[i] += "; " + note
			}
		}
		p, opt.Notes = heard, notes
	}
	for i, v := range all {
		opt.Closing = append(opt.Closing, v.lines(p.Sections[i]))
	}
	return p, nil
}

// checkWidth refuses what no chart or worksheet can be set in.
func checkWidth(what string, columns, least int) error {
	if columns < least || columns > chart.Widest {
		return usage("--width %d: a %s has %d to %d columns", columns, what, least, chart.Widest)
	}
	return nil
}
