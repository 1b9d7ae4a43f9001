package main

import (
	"fmt"
	"io"
	"slices"
	"sync"

	"tieover/export/engraving"
	"tieover/export/musicxml"
	"tieover/score"
)

// notationOutputs are score, parts and composite as pages that print. The usual
// build leaves them out where there would be very many.
func (o *buildOptions) notationOutputs(p *score.Piece) (plan, error) {
	made, err := o.sheets(p)
	if err != nil {
		return plan{}, err
	}
	if len(o.only) == 0 {
		if err := engraving.Fits(made.sheets[0].laid); err != nil {
			return plan{}, err
		}
	}
	for _, s := range made.sheets {
		name := s.name + ".html"
		made.files = append(made.files, output{name: name, fill: func(w io.Writer) error {
			return engraving.WriteHTML(w, s.laid, o.paper(), func(bar, percent int) { o.drawn.smaller(name, bar, percent) })
		}})
	}
	return made, nil
}

// systemOutputs are the systems of the score as pictures.
func (o *buildOptions) systemOutputs(p *score.Piece) (plan, error) {
	made, err := o.sheets(p)
	if err != nil {
		return plan{}, err
	}
	laid := made.sheets[0].laid
	if err := engraving.Fits(laid); err != nil {
		return plan{}, err
	}
	paper := o.paper()
	for sys := range engraving.Systems(laid, engraving.Options{Width: paper.LineWidth()}) {
		name := fmt.Sprintf("figures/notation-%d.svg", sys.FirstBar)
		if sys.Percent < 100 {
			o.drawn.smaller(name, sys.FirstBar, sys.Percent)
		}
		made.files = append(made.files, output{name: name, fill: func(w io.Writer) error { return constant(paper.Picture(sys))(w) }})
	}
	return made, nil
}

// paper is what the flags say of it.
func (o *buildOptions) paper() engraving.Paper {
	p := engraving.DefaultPaper
	if o.xml.Page == musicxml.Letter {
		p.Width, p.Height = engraving.Letter[0], engraving.Letter[1]
	}
	if o.xml.Staff != 0 {
		p.Staff = o.xml.Staff
	}
	if o.xml.Margin != 0 {
		p.Margin = o.xml.Margin
	}
	return p
}

// drawings collects notes about pages while they are drawn. It is
// safe for use by several goroutines.
type drawings struct {
	mu    sync.Mutex
	notes []string
}

// smaller notes a system that does not fit its line.
func (d *drawings) smaller(name string, bar, percent int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.notes = append(d.notes, fmt.Sprintf("note: %s: bar %d does not fit a line; its system is drawn at %d %% (a smaller --staff-height or other bars, --view, help)", name, bar, percent))
}

// remarks returns the notes, in order of the files' names.
func (d *drawings) remarks() []string {
	if d == nil {
		return nil
	}
	slices.Sort(d.notes)
	return d.notes
}
