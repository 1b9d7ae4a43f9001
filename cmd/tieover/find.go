package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"tieover/export/readback"
	"tieover/score/find"
	"tieover/score/find/align"
	"tieover/score/found"
)

// findOptions is what the command line of find asks for.
type findOptions struct {
	pulse     string
	part      string
	voice     string
	bars      bars
	onsets    []string
	meter     string
	tempo     float64
	tolerance []string
	top       int
	all       bool
	asSpec    bool
	asJSON    bool

	noise   int     // find.Options.Exceptions
	seconds float64 // that a tap may be off its pulse
}

const usualTop = 3 // descriptions

// newFindCmd makes `tieover find`: the shortest description of a rhythm.
func newFindCmd(s streams) *cobra.Command {
	var o findOptions
	cmd := &cobra.Command{
		Use:   "find [DURATION... | SCORE]",
		Short: "Find the pattern in a rhythm",
		Long: `Looks for the shortest description of a rhythm: a cycle of groups that loops, is
cut, grows, rotates, shifts, is turned round or gets longer, and a pitch series of
its own length. Durations are numbers of pulses, "rest 2" is a silence of two; or a box
such as x..x..x.; or they stand on standard input. A MusicXML score, a MIDI file or
--onsets with a file of seconds gives attacks instead; --onsets again for another
part that counts from the same moment.

A cycle that differs, a tap too many or too few, a pause, a passage with another loop
are exceptions and segments, and are listed where they pay for themselves.

The measure is description length in bits (minimum description length: the best
description is the shortest that gives the whole rhythm back). More than 8 bits
saved against the bare list is called strong, less is weak: chance may do as much.
A rhythm without a pattern is said to have none.`,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			m, err := o.music(s, args)
			if err != nil {
				return err
			}
			for _, text := range m.Notes {
				fmt.Fprintln(s.err, text)
			}
			o.rank(m)
			switch {
			case o.asSpec || o.all && !o.asJSON:
				return writeFoundSpec(s, m)
			case o.asJSON:
				return readback.FindJSON(s.out, m, o.top)
			}
			return readback.Find(&visible{to: s.out}, m, o.top)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.pulse, "pulse", "1/8", "the note value that durations count")
	f.StringVar(&o.part, "part", "", "`NAME` of the part of the score")
	f.StringVar(&o.voice, "voice", "", "`NAME` of the voice, where a part has several")
	f.Var(barsFlag(&o.bars), "bars", "only these `BARS`: 5, 5-20, 5- or -20")
	f.StringArrayVar(&o.onsets, "onsets", nil, "`FILE` of onset times in seconds, one a line, or a MIDI file played freely; - for standard input; again for each part")
	f.Float64Var(&o.tempo, "tempo", 0, "quarters a minute of the onsets (estimated)")
	f.Var(&list{into: &o.tolerance}, "tolerance", "`N` exceptions at most, even if they do not pay (0: none), or 40ms that a tap may be off, or both")
	f.StringVar(&o.meter, "meter", "", "`METER` of the spec, and for saying where things are: 5/4, 3+2+2/8")
	f.IntVar(&o.top, "top", usualTop, "how many descriptions are listed")
	f.BoolVar(&o.all, "all", false, "every part of the score or of the played file: a whole section spec")
	f.BoolVar(&o.asSpec, "spec", false, "write a section spec that gives exactly the input")
	f.BoolVar(&o.asJSON, "json", false, "for programs")
	return cmd
}

// rank looks for the descriptions of all lines that have none yet, or that were searched
// without the exceptions that are asked for.
func (o *findOptions) rank(m found.Music) {
	for i, line := range m.Lines {
		if line.Ranked == nil || line.Part != nil && o.noise != 0 {
			m.Lines[i].Ranked = find.Search(line.List, find.Options{Exceptions: o.noise})
		}
	}
}

// check reads the flags that have a grammar of their own.
func (o *findOptions) check() error {
	for _, text := range o.tolerance {
		if ms, ok := strings.CutSuffix(text, "ms"); ok {
			n, err := strconv.ParseFloat(ms, 64)
			if err != nil || !(n >= 1 && n <= 1000) { // NaN is refused too
				return usage("--tolerance %s: write milliseconds from 1ms to 1000ms", text)
			}
			o.seconds = n / 1000
			continue
		}
		count, err := strconv.Atoi(text)
		if err != nil || count < 0 || count > 1000 {
			return usage("--tolerance %s: write how many exceptions there may be, or milliseconds as 40ms", text)
		}
		if o.noise = count; count == 0 {
			o.noise = align.None
		}
	}
	if _, ok := found.BarLength(o.meter); o.meter != "" && !ok {
		return usage("--meter %s: write a signature such as 5/4 or 3+2+2/8", o.meter)
	}
	switch {
	case !(o.tempo >= 0 && o.tempo <= 2000): // NaN is refused too
		return usage("--tempo %g: write quarters a minute, up to 2000", o.tempo)
	case o.top < 1:
		return usage("--top %d: at least 1", o.top)
	case o.asSpec && o.asJSON:
		return usage("--spec and --json together: choose one")
	case o.all && (o.part != "" || o.voice != ""):
		return usage("--all takes every part; leave out --part and --voice")
	}
	return nil
}

// writeFoundSpec writes a section spec of what was found.
func writeFoundSpec(s streams, m found.Music) error {
	text, notes, err := m.Spec()
	for _, note := range notes {
		fmt.Fprintln(s.err, note)
	}
	switch {
	case errors.Is(err, found.ErrTooManyLayers):
		return fmt.Errorf("%w, so take parts of the score with --part", err)
	case err == nil:
		_, err = io.WriteString(s.out, text)
	}
	return err
}
