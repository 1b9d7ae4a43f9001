package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"tieover/export/chart"
	"tieover/export/worksheet"
	"tieover/layout/task"
)

// newWorksheetCmd makes `tieover worksheet`: exercises and their answer key
// from a spec, to print, as text and as MusicXML.
func newWorksheetCmd(s streams) *cobra.Command {
	opt := worksheet.Options{Width: chart.Default().Width}
	var to place
	var only []string
	cmd := &cobra.Command{
		Use:   "worksheet SPEC... -o DIR",
		Short: "Write exercises and their answer key",
		Long: `Writes worksheet.html to print, with the key on pages of its own, the same as
worksheet.txt and answers.txt, and for each exercise the notation that is given and
that is asked for. The kinds: ` + joinKinds() + `.

Level 1 takes two layers, 2 bars, and shows where cycles start; level 2 three layers
and 4 bars; level 3 four layers and 6 bars. Another seed draws other exercises.`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if to.dir == "" {
				return usage("name a folder with -o DIR")
			}
			if opt.Task.Level < 1 || opt.Task.Level > 3 {
				return usage("--level %d: levels are 1, 2 and 3", opt.Task.Level)
			}
			err := checkWidth("worksheet", opt.Width, worksheet.Narrowest)
			if err != nil {
				return err
			}
			if opt.Task.Only, err = chosenKinds(only); err != nil {
				return err
			}
			if opt.Words, err = readTemplate(s, opt.File); err != nil {
				return err
			}
			return makeWorksheet(cmd, s, args, to, opt)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&to.dir, "output", "o", "", "`DIR` to write into")
	f.Var(&list{into: &only}, "only", "only these `kinds`, joined by commas")
	f.IntVar(&opt.Task.Level, "level", 1, "difficulty, 1 to 3")
	f.Uint64Var(&opt.Task.Seed, "seed", 1, "number that draws the exercises")
	f.IntVar(&opt.Width, "width", opt.Width, "columns of the text")
	f.BoolVar(&opt.ASCII, "ascii", false, "no byte above 127 in the text")
	f.StringVar(&opt.File, "template", "", "template `FILE` for the text")
	addForce(cmd, &to.force)
	return cmd
}

func joinKinds() string {
	var words []string
	for _, k := range task.Kinds() {
		words = append(words, string(k))
	}
	return strings.Join(words, ", ")
}

func chosenKinds(words []string) ([]task.Kind, error) {
	var kinds []task.Kind
	for _, w := range words {
		k := task.Kind(w)
		if !slices.Contains(task.Kinds(), k) {
			return nil, usage("--only %s: the kinds are %s", w, joinKinds())
		}
		kinds = append(kinds, k)
	}
	return kinds, nil
}

// worksheetGroup is what worksheets belong to in a manifest.
const worksheetGroup = "worksheet"

// makeWorksheet writes all files or none. A kind that was asked for by name and
// cannot be made is an error; otherwise it is mentioned.
func makeWorksheet(cmd *cobra.Command, s streams, specs []string, to place, opt worksheet.Options) error {
	p, err := load(s, specs)
	if err != nil {
		return err
	}
	files, left, err := worksheet.Make(p, opt)
	if err != nil {
		return err
	}
	var lacks []error
	for _, l := range left {
		lacks = append(lacks, fmt.Errorf("no exercise of the kind %s: %s", l.Kind, l.Why))
	}
	if err := errors.Join(lacks...); err != nil && (opt.Task.Only != nil || len(files) == 0) {
		return err
	} else if err != nil {
		fmt.Fprintln(s.err, err)
	}
	var outputs []output
	for _, f := range files {
		outputs = append(outputs, output{f.Name, f.Write, worksheetGroup})
	}
	if opt.Task.Only == nil { // else the other exercises are still of this sheet
		to.whole = []string{worksheetGroup}
	}
	return writeAll(cmd.Context(), s, to, outputs, append(specs, opt.File)...)
}
