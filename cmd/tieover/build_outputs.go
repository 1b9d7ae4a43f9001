package main

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"tieover/export/chart"
	"tieover/export/engraving"
	"tieover/export/midi"
	"tieover/export/page"
	"tieover/export/report"
	"tieover/export/report/facts"
	"tieover/score"
)

// kind is one sort of output, as --only names it.
type kind struct {
	name    string
	outputs func(o *buildOptions, p *score.Piece) (plan, error)
	extra   bool // only when it is asked for
}

// plan is the files to write, and remarks about them for the user.
type plan struct {
	files   []output
	remarks []string
	sheets  []laidSheet // that the files of some formats are made of
	groups  []string    // what the files belong to, also where nothing was made of it
}

// singleFile is the plan of a single file.
func singleFile(name string, fill func(io.Writer) error) (plan, error) {
	return plan{files: []output{{name: name, fill: fill}}}, nil
}

func (p *plan) add(more plan) {
	p.files = append(p.files, more.files...)
	p.remarks = append(p.remarks, more.remarks...)
}

func (p *plan) remark(format string, args ...any) {
	p.remarks = append(p.remarks, fmt.Sprintf(format, args...))
}

// kinds lists all sorts of outputs in the order in which they are written.
func kinds() []kind {
	return []kind{
		{"musicxml", (*buildOptions).scoreOutputs, false},
		{"notation", (*buildOptions).notationOutputs, false},
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

// plan lists the files to write. What a large piece has to do without is a
// remark, unless it was asked for by name: then that is the error.
func (o *buildOptions) plan(p *score.Piece) (all plan, err error) {
	o.laid, o.drawn = nil, &drawings{}
	for _, k := range kinds() {
		if len(o.only) > 0 && !slices.Contains(o.only, k.name) || len(o.only) == 0 && k.extra {
			continue
		}
		group := k.name
		if o.compressed && k.name == "musicxml" {
			group = "mxl"
		}
		made, err := k.outputs(o, p)
		for i := range made.files {
			made.files[i].group = group
		}
		all.groups = append(all.groups, group)
		switch {
		case err == nil:
			all.add(made)
		case len(o.only) == 0 && isTooLarge(err):
			all.remark("left out: %v", err)
		default:
			return plan{}, err
		}
	}
	return all, nil
}

func (o *buildOptions) chartOutput(p *score.Piece) (plan, error) {
	opt := o.chart
	opt.Layers = o.layers
	opt.From, opt.To = o.bars.from, o.bars.to
	return singleFile("chart.txt", func(w io.Writer) error { return chart.Write(w, p, opt) })
}

func (o *buildOptions) reportOutput(p *score.Piece) (plan, error) {
	opt := report.Options{Terms: o.terms}
	return singleFile("report.txt", func(w io.Writer) error { return report.Text(w, p, opt) })
}

func (o *buildOptions) jsonOutput(p *score.Piece) (plan, error) {
	return singleFile("report.json", func(w io.Writer) error { return facts.Write(w, p) })
}

func (o *buildOptions) midiOutput(p *score.Piece) (plan, error) {
	if err := midi.Fits(p, o.midi); err != nil {
		return plan{}, err
	}
	made, err := singleFile("section.mid", func(w io.Writer) error { return midi.Write(w, p, o.midi) })
	if ports := midi.Ports(p); ports > 1 {
		made.remark("section.mid: more than 15 pitched layers; they take %d MIDI ports, and a player that knows one port mixes them up", ports)
	}
	return made, err
}

func (o *buildOptions) pageOutput(p *score.Piece) (plan, error) {
	fill, err := fillPage(p, pageOptions{notes: o.layout, cut: o.cut})
	if err != nil {
		return plan{}, err
	}
	return singleFile("page.html", fill)
}

func (o *buildOptions) figureOutputs(p *score.Piece) (plan, error) {
	figures, err := page.Figures(p)
	if err != nil {
		return plan{}, err
	}
	made, err := o.systemOutputs(p)
	for _, f := range figures {
		made.files = append(made.files, output{name: f.Name, fill: f.Write})
	}
	return made, err
}

// isTooLarge reports whether a format cannot hold the piece while the others
// can.
func isTooLarge(err error) bool {
	var unfit midi.Unfit
	var tooMuch page.TooMuch
	var tooLong engraving.TooLong
	return errors.As(err, &unfit) || errors.As(err, &tooMuch) || errors.As(err, &tooLong)
}
