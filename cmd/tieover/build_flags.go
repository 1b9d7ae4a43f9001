package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"tieover/layout"
	"tieover/score/spec"
)

// addLayoutFlags registers what decides how music is written down.
func addLayoutFlags(cmd *cobra.Command, o *layout.Options) {
	f := cmd.Flags()
	f.Var(viewFlag(&o.Barring, "common"), "view", "whose bars: common, layer:NAME, own (parts only)")
	f.BoolVar(&o.Barring.Split, "split", false, "with --view layer:NAME or own, write a long cycle as equal bars where its groups allow")
	addChoice(f, &o.Spelling, "spelling", "which divisions a note may hide", "auto", "group", "meter")
	f.BoolVar(&o.Strict, "strict", false, "spelling by the meter without syncopations over stronger divisions")
	f.BoolVar(&o.DoubleDots, "double-dots", false, "allow double dots")
	addChoice(f, &o.Beams, "beams", "what beams show", "groups", "meter")
	f.BoolVar(&o.BeamOverBarlines, "beam-over-barlines", false, "let a group's beam run over a barline")
	f.Var(marksFlag(&o.Marks), "marks", "analytical marks, joined by commas: cycles, groups, sizes; or none")
	addChoice(f, &o.Breaks, "breaks", "where systems begin", "auto", "realign", "none")
	addChoice(f, &o.Cues, "cues", "how an entry after a long rest is prepared", "words", "notes", "none")
	f.BoolVar(&o.Concert, "concert", false, "sounding pitch for transposing instruments")
	f.BoolVar(&o.FewNumbers, "few-tuplet-numbers", false, "tuplet numbers only in a section's first two bars")
}

// viewFlag reads common, layer:NAME or own.
func viewFlag(into *layout.Barring, usual string) *textFlag {
	return &textFlag{kind: "view", text: usual, read: func(word string) error {
		name, byLayer := strings.CutPrefix(word, "layer:")
		switch {
		case byLayer && name != "":
			into.View, into.Layer = layout.ByLayer, spec.Name(name)
		case word == "common":
			into.View = layout.Common
		case word == "own":
			into.View = layout.Own
		default:
			return fmt.Errorf("%q is none of common, layer:NAME, own", word)
		}
		return nil
	}}
}

// marksFlag reads a list of marks.
func marksFlag(into *layout.Marking) *textFlag {
	return &textFlag{kind: "marks", text: "cycles,groups", read: func(list string) error {
		known := map[string]layout.Marking{"cycles": layout.MarkCycles, "groups": layout.MarkGroups, "sizes": layout.MarkSizes, "none": layout.MarkNone}
		var marks layout.Marking
		for _, word := range strings.Split(list, ",") {
			m, ok := known[strings.TrimSpace(word)]
			if !ok {
				return fmt.Errorf("%q is none of cycles, groups, sizes, none", word)
			}
			marks |= m
		}
		if marks&layout.MarkNone != 0 && marks != layout.MarkNone {
			return fmt.Errorf("none stands alone")
		}
		*into = marks
		return nil
	}}
}
