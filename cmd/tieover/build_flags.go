package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tieover/layout"
	"tieover/score/spec"
)

// choice is a flag that takes one of a few words.
type choice[T any] struct {
	name, about string
	words       []string
	values      []T
	into        *T
}

// add registers the flag; its first word is the default.
func (c choice[T]) add(cmd *cobra.Command) {
	cmd.Flags().Var(&choiceValue[T]{c, c.words[0]}, c.name, c.about+" ("+strings.Join(c.words, ", ")+")")
}

type choiceValue[T any] struct {
	choice[T]
	word string
}

func (v *choiceValue[T]) String() string { return v.word }
func (v *choiceValue[T]) Type() string   { return "word" }

func (v *choiceValue[T]) Set(word string) error {
	i := slices.Index(v.words, word)
	if i < 0 {
		return fmt.Errorf("%q is none of %s", word, strings.Join(v.words, ", "))
	}
	v.word = word
	*v.into = v.values[i]
	return nil
}

// addLayoutFlags registers what decides how music is written down.
func addLayoutFlags(cmd *cobra.Command, o *layout.Options) {
	cmd.Flags().Var(&viewValue{&o.Barring, "common"}, "view", "whose bars: common, layer:NAME, own (parts only)")
	cmd.Flags().BoolVar(&o.Barring.Split, "split", false, "with --view layer:NAME or own, write a long cycle as equal bars where its groups allow")
	choice[layout.Spelling]{"spelling", "which divisions a note may hide", []string{"auto", "group", "meter"},
		[]layout.Spelling{layout.SpellAuto, layout.SpellGroup, layout.SpellMeter}, &o.Spelling}.add(cmd)
	cmd.Flags().BoolVar(&o.Strict, "strict", false, "spelling by the meter without syncopations over stronger divisions")
	cmd.Flags().BoolVar(&o.DoubleDots, "double-dots", false, "allow double dots")
	choice[layout.Beaming]{"beams", "what beams show", []string{"groups", "meter"},
		[]layout.Beaming{layout.BeamGroups, layout.BeamMeter}, &o.Beams}.add(cmd)
	cmd.Flags().BoolVar(&o.BeamOverBarlines, "beam-over-barlines", false, "let a group's beam run over a barline")
	cmd.Flags().Var(&marksValue{&o.Marks, "cycles,groups"}, "marks", "analytical marks, joined by commas: cycles, groups, sizes; or none")
	choice[layout.Breaking]{"breaks", "where systems begin", []string{"auto", "realign", "none"},
		[]layout.Breaking{layout.BreakAuto, layout.BreakRealign, layout.BreakNone}, &o.Breaks}.add(cmd)
	choice[layout.Cueing]{"cues", "how an entry after a long rest is prepared", []string{"words", "notes", "none"},
		[]layout.Cueing{layout.CueWords, layout.CueNotes, layout.CueNone}, &o.Cues}.add(cmd)
	cmd.Flags().BoolVar(&o.Concert, "concert", false, "sounding pitch for transposing instruments")
	cmd.Flags().BoolVar(&o.FewNumbers, "few-tuplet-numbers", false, "tuplet numbers only in a section's first two bars")
}

// viewValue reads common, layer:NAME or own.
type viewValue struct {
	into *layout.Barring
	word string
}

func (v *viewValue) String() string { return v.word }
func (v *viewValue) Type() string   { return "view" }

func (v *viewValue) Set(word string) error {
	name, byLayer := strings.CutPrefix(word, "layer:")
	switch {
	case byLayer && name != "":
		v.into.View, v.into.Layer = layout.ByLayer, spec.Name(name)
	case word == "common":
		v.into.View = layout.Common
	case word == "own":
		v.into.View = layout.Own
	default:
		return fmt.Errorf("%q is none of common, layer:NAME, own", word)
	}
	v.word = word
	return nil
}

// marksValue reads a list of marks.
type marksValue struct {
	into *layout.Marking
	word string
}

func (v *marksValue) String() string { return v.word }
func (v *marksValue) Type() string   { return "marks" }

func (v *marksValue) Set(list string) error {
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
	*v.into, v.word = marks, list
	return nil
}
