package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/export/chart"
	"tieover/export/midi"
	"tieover/export/musicxml"
	"tieover/layout"
	"tieover/score/beat"
	heardxml "tieover/score/heard/musicxml"
	"tieover/score/spec"
)

// buildOptions is what the command line of build asks for.
type buildOptions struct {
	dir        string
	only       []string
	compressed bool
	force      bool
	watch      bool

	layout      layout.Options
	edition     int // 0: study for the score, play for the parts; 1: study; 2: play
	fold        bool
	bars        bars
	layers      []string
	compare     *textFlag // another view of the same bars, below them in the score
	compareView layout.Barring
	compositeOf []string
	compositeOn string
	pageTurns   bool
	xml         musicxml.Options
	chart       chart.Options
	midi        midi.Options
	terms       beat.Terms
	cut         int // see pageOptions

	laid  []laidSheet // of the plan at hand
	drawn *drawings
}

func newBuildCmd(s streams) *cobra.Command {
	o := buildOptions{chart: chart.Default()}
	cmd := &cobra.Command{
		Use:   "build SPEC...",
		Short: "Write score, parts, chart, report, sound and page",
		Long: "Reads one or more section specs as one piece and writes everything made from it\n" +
			"into a folder, or only what --only names: " + strings.Join(kindNames(), ", ") + ".",
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := checkCut(cmd, o.cut); err != nil {
				return err
			}
			if o.watch {
				return o.keepBuilding(cmd.Context(), s, args)
			}
			return o.build(cmd.Context(), s, args)
		},
	}
	o.addFlags(cmd)
	return cmd
}

func (o *buildOptions) addFlags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVarP(&o.dir, "output", "o", "", "folder to write into; - sends a single file to standard output (needed)")
	f.Var(&list{into: &o.only}, "only", "which outputs to write, joined by commas")
	f.BoolVar(&o.compressed, "compressed", false, "write .mxl instead of .musicxml")
	f.BoolVar(&o.watch, "watch", false, "build again whenever a spec is saved")
	addLayoutFlags(cmd, &o.layout)
	addChoice(f, &o.edition, "edition", "how much analysis is printed", "auto", "study", "play")
	f.BoolVar(&o.fold, "fold", false, "write exact repetitions of whole periods as repeats")
	f.Var(barsFlag(&o.bars), "bars", "only these bars, as 5-12; -12 has a pickup too")
	f.Var(&list{into: &o.layers}, "layers", "in the chart only these layers, in notation their players with all they play, joined by commas")
	f.StringVar(&o.layout.Partner, "partner", "", "another layer's rhythm on a small staff above each part")
	o.compare = viewFlag(&o.compareView, "")
	f.Var(o.compare, "compare", "in the score, the same bars once more below in another view: common, layer:NAME")
	f.Var(&list{into: &o.compositeOf}, "composite", "the layers of the composite part, joined by commas; all by default")
	f.StringVar(&o.compositeOn, "composite-instrument", "", "who plays the composite part; by default an instrument that can")
	addChoice(f, &o.xml.Page, "page", "paper", "A4", "letter")
	f.Var(millimeterFlag(&o.xml.Staff), "staff-height", "height of a five-line staff in mm, 3 to 12 (7)")
	f.Var(millimeterFlag(&o.xml.Margin), "margin", "page margins in mm, up to 50 (two staff heights)")
	f.BoolVar(&o.pageTurns, "page-turns", false, "in parts, begin new pages after rests")
	f.StringVar(&o.xml.Date, "date", "", "encoding date to write, as 2031-05-30; none by default")
	f.IntVar(&o.chart.Width, "width", o.chart.Width, "columns of the chart")
	f.BoolVar(&o.chart.ASCII, "ascii", false, "chart in pure ASCII")
	f.BoolVar(&o.midi.Click, "click", false, "a click track in section.mid")
	f.IntVar(&o.midi.CountIn, "count-in", 0, "bars of clicks before the music")
	addCut(cmd, &o.cut)
	addTerms(cmd, &o.terms)
	addForce(cmd, &o.force)
}

// build reads the specs and writes what is asked for.
func (o *buildOptions) build(ctx context.Context, s streams, names []string) error {
	if o.dir == "" {
		return usage("say where to write: -o DIR, or -o - for standard output")
	}
	o.layout.Partner = spec.Name(o.layout.Partner)
	for _, kind := range o.only {
		if !slices.Contains(kindNames(), kind) {
			return usage("--only %s: there is no such output; choose from %s", kind, strings.Join(kindNames(), ", "))
		}
	}
	if err := checkWidth("chart", o.chart.Width, chart.Narrowest); err != nil {
		return err
	}
	var made plan
	err := unlessStopped(ctx, func() error {
		p, err := load(s, names)
		if err == nil {
			made, err = o.plan(p)
		}
		return err
	})
	if err != nil {
		return err
	}
	if o.dir == "-" {
		return writeOne(s, made.files)
	}
	to := place{dir: o.dir, force: o.force}
	if len(o.layers) == 0 { // else the other parts are still of this piece
		to.whole = made.groups
	}
	if err := writeAll(ctx, s, to, made.files, names...); err != nil {
		return err
	}
	made.tooLarge(o.dir, heardxml.MaxBytes)
	for _, remark := range append(made.remarks, o.drawn.remarks()...) {
		fmt.Fprintln(s.err, remark)
	}
	return nil
}

// keepBuilding builds now and whenever a spec is saved, until it is stopped.
// Problems are printed as they come and end nothing.
func (o *buildOptions) keepBuilding(ctx context.Context, s streams, names []string) error {
	if o.dir == "" || o.dir == "-" || slices.Contains(names, "-") {
		return usage("--watch needs files to watch and a folder to write into")
	}
	ctx, stop := files.Stoppable(ctx)
	defer stop()
	again := func() int {
		code := finish(s, o.build(ctx, s, names))
		if code == done {
			fmt.Fprintf(s.err, "built %s\n", o.dir)
		}
		return code
	}
	w := newWatcher(names)
	if again() == wrongUse {
		return exit{code: wrongUse} // no other spec makes that right
	}
	w.follow(ctx, func() { again() })
	return nil
}
