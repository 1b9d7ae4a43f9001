package main

import (
	"errors"
	"io"
	"slices"

	"tieover/export/chart"
	"tieover/export/midi"
	"tieover/export/page"
	"tieover/export/report"
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
	if err := midi.Fits(p, o.midi); err != nil {
		return nil, err
	}
	if err := midi.Fits(p, o.midi); err != nil {
		return nil, err
	}
	return []output{{"section.mid", func(w io.Writer) error { return midi.Write(w, p, o.midi) }}}, nil
}

func (o *buildOptions) pageOutput(p *score.Piece) ([]output, error) {
	if err := page.Fits(p); err != nil {
		return nil, err
	}
	return []output{{"page.html", func(w io.Writer) error { return writePage(w, p, "") }}}, nil
}

func (o *buildOptions) figureOutputs(p *score.Piece) ([]output, error) {
	figures, err := page.Figures(p)
	if err != nil {
		return nil, err
	}
	var list []output
	for _, f := range figures {
		list = append(list, output{f.Name, f.Write})
	}
	return list, nil
}

// isTooLarge reports whether a format cannot hold the piece while the others
// can.
func isTooLarge(err error) bool {
	var unfit midi.Unfit
	var tooMuch page.TooMuch
	return errors.As(err, &unfit) || errors.As(err, &tooMuch)
}
