package main

import (
	"io"
	"slices"

	"tieover/export/chart"
	"tieover/export/midi"
	"tieover/export/musicxml"
	"tieover/export/page"
	"tieover/export/report"
	"tieover/layout"
	"tieover/score"
	"tieover/score/beat"
)

// kind is one sort of output, as --only names it.
type kind struct {
	name    string
	outputs func(o *buildOptions, p *score.Piece) ([]output, error)
	extra   bool // only when it is asked for
}

// kinds lists all sorts of outputs in the order in which they are written.
func kinds() []kind {
	return []kind{
		{"musicxml", (*buildOptions).scoreOutputs, false},
		{"chart", (*buildOptions).chartOutput, false},
		{"report", (*buildOptions).reportOutput, false},
		{"json", (*buildOptions).jsonOutput, false},
		{"midi", (*buildOptions).midiOutput, false},
		{"page", (*buildOptions).pageOutput, false},
		{"figures", (*buildOptions).figureOutputs, true},
	}
}

func kindNames() []string {
	var names []string
	for _, k := range kinds() {
		names = append(names, k.name)
	}
	return names
}

// outputs lists the files to write. left says what a large piece has to do
// without, unless it was asked for by name: then that is the error.
func (o *buildOptions) outputs(p *score.Piece) (list []output, left []error, err error) {
	for _, k := range kinds() {
		if len(o.only) > 0 && !slices.Contains(o.only, k.name) || len(o.only) == 0 && k.extra {
			continue
		}
		outs, err := k.outputs(o, p)
		switch {
		case err == nil:
			list = append(list, outs...)
		case len(o.only) == 0 && isTooLarge(err):
			left = append(left, err)
		default:
			return nil, nil, err
		}
	}
	return list, left, nil
}

// scoreOutputs are the score, the parts and the composite.
func (o *buildOptions) scoreOutputs(p *score.Piece) ([]output, error) {
	opts := o.layout
	opts.Edition = o.editionOr(layout.Study)
	scoreOpts := opts
	if scoreOpts.Barring.View == layout.Own {
		scoreOpts.Barring = layout.Barring{}
	}
	whole, problems := layout.Lay(p, scoreOpts)
	if len(problems) > 0 {
		return nil, problemsOf(problems)
	}
	list := []output{o.sheet("score", whole)}
	if o.dir == "-" {
		return list, nil
	}
	opts.Edition = o.editionOr(layout.Play)
	names := fileNames(p)
	for i := range p.Players() {
		part, problems := layout.LayPart(p, opts, i)
		if len(problems) > 0 {
			return nil, problemsOf(problems)
		}
		list = append(list, o.sheet("parts/"+names[i], part))
	}
	return list, nil
}

func (o *buildOptions) editionOr(usual layout.Edition) layout.Edition {
	switch o.edition {
	case "study":
		return layout.Study
	case "play":
		return layout.Play
	}
	return usual
}

// sheet is a written sheet under a name without its ending.
func (o *buildOptions) sheet(name string, sheet *layout.Sheet) output {
	if o.compressed {
		return output{name + ".mxl", func(w io.Writer) error { return musicxml.WriteCompressed(w, sheet, o.xml) }}
	}
	return output{name + ".musicxml", func(w io.Writer) error { return musicxml.Write(w, sheet, o.xml) }}
}

func (o *buildOptions) chartOutput(p *score.Piece) ([]output, error) {
	opt := o.chart
	opt.Layers = o.layers
	opt.From, opt.To = o.bars.from, o.bars.to
	return []output{{"chart.txt", func(w io.Writer) error { return chart.Write(w, p, opt) }}}, nil
}

func (o *buildOptions) reportOutput(p *score.Piece) ([]output, error) {
	opt := report.Options{}
	if o.britishT {
		opt.Terms = beat.British
	}
	return []output{{"report.txt", func(w io.Writer) error { return report.Text(w, p, opt) }}}, nil
}

func (o *buildOptions) jsonOutput(p *score.Piece) ([]output, error) {
	return []output{{"report.json", func(w io.Writer) error { return report.JSON(w, p) }}}, nil
}

func (o *buildOptions) midiOutput(p *score.Piece) ([]output, error) {
	return []output{{"section.mid", func(w io.Writer) error { return midi.Write(w, p, o.midi) }}}, nil
}

func (o *buildOptions) pageOutput(p *score.Piece) ([]output, error) {
	return []output{{"page.html", func(w io.Writer) error { return page.Write(w, p, page.Options{}) }}}, nil
}

func (o *buildOptions) figureOutputs(*score.Piece) ([]output, error) { return nil, nil }

func isTooLarge(error) bool { return false }
