package main

import (
	"io"
	"strings"

	"tieover/export/musicxml"
	"tieover/layout"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
)

// scoreOutputs are the score, the parts and the composite.
func (o *buildOptions) scoreOutputs(p *score.Piece) ([]output, error) {
	var all source.Problems
	whole, problems := layout.Lay(p, o.scoreLayout())
	if len(problems) > 0 {
		return nil, problemsOf(problems)
	}
	shown, problems := o.excerpt(whole, o.layers)
	if len(problems) == 0 && o.compare.word != "" {
		shown, problems = o.compared(p, shown)
	}
	all = append(all, problems...)
	list := []output{o.sheet("score", shown)}
	if o.dir != "-" && len(problems) == 0 {
		parts, problems := o.partOutputs(p)
		all = append(all, problems...)
		list = append(list, parts...)
	}
	return list, problemsOf(all)
}

// compared puts the same bars once more below the score, in another view.
func (o *buildOptions) compared(p *score.Piece, shown *layout.Sheet) (*layout.Sheet, source.Problems) {
	opts := o.scoreLayout()
	opts.Barring = o.compareView
	other, problems := layout.Lay(p, opts)
	if len(problems) > 0 {
		return nil, problems
	}
	return layout.Compare(shown, other, [2]string{heading(o.scoreLayout().Barring), heading(o.compareView)})
}

// heading says whose bars a view has.
func heading(b layout.Barring) string {
	if b.View == layout.ByLayer {
		return "in bars of " + b.Layer
	}
	return "in the meter of the section"
}

// scoreLayout is how the full score is written: everybody in the same bars.
func (o *buildOptions) scoreLayout() layout.Options {
	opts := o.layout
	opts.Edition, opts.Partner = o.editionOr(layout.Study), ""
	if opts.Barring.View == layout.Own {
		opts.Barring = layout.Barring{}
	}
	return opts
}

// partOutputs are the parts of all players, and the composite.
func (o *buildOptions) partOutputs(p *score.Piece) (list []output, all source.Problems) {
	opts := o.layout
	opts.Edition = o.editionOr(layout.Play)
	names := fileNames(p)
	for i, player := range p.Players() {
		if len(o.layers) > 0 && !overlaps(o.layers, p, player) {
			continue
		}
		part, problems := layout.LayPart(p, opts, i)
		if len(problems) == 0 {
			part, problems = o.excerpt(part, nil)
		}
		all = append(all, problems...)
		list = append(list, o.sheet("parts/"+names[i], part))
	}
	composite, problems := o.composite(p)
	return append(list, o.sheet("composite", composite)), append(all, problems...)
}

// composite is one player's part made of the chosen layers, all unless said.
func (o *buildOptions) composite(p *score.Piece) (*layout.Sheet, source.Problems) {
	c := layout.Composite{Layers: o.compositeOf}
	if o.compositeOn != "" {
		ins, ok := instrument.Find(o.compositeOn)
		if !ok {
			var problems source.Problems
			problems.Add(source.Pos{}, "--composite-instrument: unknown instrument \""+o.compositeOn+"\"", "`tieover instruments` lists them")
			return nil, problems
		}
		c.Instrument = ins
	}
	opts := o.layout
	opts.Edition, opts.Partner = o.editionOr(layout.Play), ""
	sheet, problems := layout.LayComposite(p, opts, c)
	if len(problems) > 0 {
		return nil, problems
	}
	return o.excerpt(sheet, nil)
}

// excerpt cuts a sheet down to the bars and layers asked for, and folds
// repetitions if asked.
func (o *buildOptions) excerpt(sheet *layout.Sheet, parts []string) (*layout.Sheet, source.Problems) {
	if o.bars != (bars{}) || len(parts) > 0 {
		to := o.bars.to
		if to == 0 {
			to = 1 << 30
		}
		cut, problems := layout.Excerpt(sheet, max(1, o.bars.from), to, parts)
		if len(problems) > 0 {
			return nil, problems
		}
		sheet = cut
	}
	if o.fold {
		sheet = layout.Fold(sheet)
	}
	return sheet, nil
}

// overlaps reports whether the player or one of the player's layers is named.
func overlaps(names []string, p *score.Piece, player score.Player) bool {
	for _, name := range names {
		if strings.EqualFold(name, player.Name) {
			return true
		}
		for i, layers := range player.Layers {
			for _, l := range layers {
				if p.Sections[i].Layers[l].Name == name {
					return true
				}
			}
		}
	}
	return false
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
