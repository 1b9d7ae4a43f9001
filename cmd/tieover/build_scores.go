package main

import (
	"fmt"
	"io"
	"slices"

	"tieover/export/musicxml"
	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
)

// laidSheet is a sheet that becomes files, under a name without an ending.
type laidSheet struct {
	name string
	laid *sheet.Sheet
}

// scoreOutputs are the score, the parts and the composite.
func (o *buildOptions) scoreOutputs(p *score.Piece) (plan, error) {
	made, err := o.sheets(p)
	for _, s := range made.sheets {
		made.files = append(made.files, o.musicxml(s))
	}
	return made, err
}

// sheets lays out score, parts and composite, once for all formats; remarks about
// them are in the plan of the first format only.
func (o *buildOptions) sheets(p *score.Piece) (plan, error) {
	if o.laid != nil {
		return plan{sheets: o.laid}, nil
	}
	made, err := o.laySheets(p)
	if err == nil {
		o.laid = made.sheets
	}
	return made, err
}

func (o *buildOptions) laySheets(p *score.Piece) (plan, error) {
	o.layout.Line = o.paper().LineWidth()
	whole, parts, ofParts := layout.LayAll(p, o.scoreLayout(), o.partLayout(), func(player score.Player) bool {
		return o.dir != "-" && (len(o.layers) == 0 || overlaps(o.layers, p, player))
	})
	if whole == nil {
		return plan{}, p.Source.Quote(withoutRepeats(ofParts)).Err()
	}
	shown, problems := o.excerpt(whole, o.layers)
	cut, folds := shown, edit.Folds(nil)
	if o.fold && len(problems) == 0 {
		folds = edit.FindFolds(shown)
		shown = folds.Apply(shown)
	}
	if len(problems) == 0 && o.compare.text != "" {
		shown, problems = o.compared(p, shown)
	}
	all := problems
	made := plan{sheets: []laidSheet{{"score", shown}}}
	if o.fold {
		made.unfolded(p)
	}
	made.respelled(whole)
	if o.dir != "-" && len(problems) == 0 {
		if all = append(all, ofParts...); len(ofParts) == 0 {
			all = append(all, o.addParts(&made, p, parts, cut, folds)...)
		}
		all = append(all, o.addComposite(&made, p, folds)...)
	}
	return made, p.Source.Quote(withoutRepeats(all)).Err()
}

// unfolded remarks which sections are left as they are, though folds are asked
// for.
func (p *plan) unfolded(piece *score.Piece) {
	for i, s := range piece.Sections {
		if s.End == score.Repeat {
			p.remark("note: section %d is repeated as a whole (end: repeat), so nothing in it is folded", i+1)
		}
	}
}

// respelled remarks the pitches that a sheet writes otherwise than their interval.
func (p *plan) respelled(laid *sheet.Sheet) {
	for _, r := range laid.Respelled {
		p.remark("note: in the part of %s, sounding %v is written %v instead of %v", r.Part, r.Sounding, r.Written, r.Instead)
	}
}

// withoutRepeats drops what several parts say in the same words.
func withoutRepeats(problems source.Problems) (all source.Problems) {
	for _, p := range problems {
		if !slices.Contains(all, p) {
			all = append(all, p)
		}
	}
	return all
}

// compared puts the same bars once more below the score, in another view.
func (o *buildOptions) compared(p *score.Piece, shown *sheet.Sheet) (*sheet.Sheet, source.Problems) {
	opts := o.scoreLayout()
	opts.Barring = o.compareView
	if o.compareView.View == layout.Own {
		var problems source.Problems
		problems.Add(source.Pos{}, "--compare own: a score has the same bars for everybody", "compare with common or layer:NAME")
		return nil, problems
	}
	other, problems := layout.Lay(p, opts)
	if len(problems) > 0 {
		return nil, problems
	}
	return edit.Compare(shown, other, [2]string{heading(o.scoreLayout().Barring), heading(o.compareView)})
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
	opts.Edition, opts.Partner = o.editionOr(sheet.Study), ""
	if opts.Barring.View == layout.Own {
		opts.Barring = layout.Barring{}
	}
	return opts
}

// partLayout is how the parts are written.
func (o *buildOptions) partLayout() layout.Options {
	opts := o.layout
	opts.Edition = o.editionOr(sheet.Play)
	if o.pageTurns {
		opts.Page = o.xml.Room()
	}
	return opts
}

// addParts adds the parts that are laid. They repeat what the score repeats, so
// that score and parts have the same bars. In bars of its own a part repeats what
// it can, and an excerpt of it covers the time that the score's, cut, does.
func (o *buildOptions) addParts(made *plan, p *score.Piece, parts []*sheet.Sheet, cut *sheet.Sheet, folds edit.Folds) (all source.Problems) {
	own := o.layout.Barring.View == layout.Own
	names := fileNames(p)
	for i, part := range parts {
		if part == nil {
			continue
		}
		var problems source.Problems
		if own && o.bars != (bars{}) {
			from, to := edit.Covering(part, cut)
			part, problems = edit.Excerpt(part, from, to, nil)
		} else {
			part, problems = o.excerpt(part, nil)
		}
		switch {
		case len(problems) > 0:
		case own && o.fold:
			part = edit.Fold(part)
		default:
			part = folds.Apply(part)
		}
		all = append(all, problems...)
		made.sheets = append(made.sheets, laidSheet{"parts/" + names[i], part})
	}
	return all
}

// addComposite adds the composite part. One that cannot be written is left out
// with a word, unless it was asked for.
func (o *buildOptions) addComposite(made *plan, p *score.Piece, folds edit.Folds) source.Problems {
	c, problems := o.composite()
	var laid *sheet.Sheet
	if len(problems) == 0 {
		opts := o.layout
		opts.Edition, opts.Partner = o.editionOr(sheet.Play), ""
		laid, problems = layout.LayComposite(p, opts, c)
	}
	if len(problems) == 0 {
		laid, problems = o.excerpt(laid, nil)
	}
	asked := len(o.compositeOf) > 0 || o.compositeOn != ""
	switch {
	case len(problems) > 0 && asked:
		return problems
	case len(problems) > 0:
		made.remark("left out: the composite: %v", problems[0])
		return nil
	}
	if o.fold && len(o.layers) > 0 { // the score shows others than it is made of
		laid = edit.Fold(laid)
	} else {
		laid = folds.Apply(laid)
	}
	made.sheets = append(made.sheets, laidSheet{"composite", laid})
	if asked { // nobody need play the composite that every build gets
		made.respelled(laid)
		for _, spot := range c.Unplayable(p) {
			made.remark("warning: the composite: %v", spot)
		}
	}
	return nil
}

// composite says what the composite part is made of.
func (o *buildOptions) composite() (c layout.Composite, problems source.Problems) {
	c.Layers = o.compositeOf
	if o.compositeOn == "" {
		return c, nil
	}
	ins, ok := instrument.Find(o.compositeOn)
	if !ok {
		problems.Add(source.Pos{}, fmt.Sprintf("--composite-instrument: unknown instrument %q", o.compositeOn), "`tieover instruments` lists them")
	}
	c.Instrument = ins
	return c, problems
}

// excerpt cuts a sheet down to the bars and layers asked for.
func (o *buildOptions) excerpt(laid *sheet.Sheet, parts []string) (*sheet.Sheet, source.Problems) {
	if o.bars != (bars{}) || len(parts) > 0 {
		to := o.bars.to
		if to == 0 {
			to = 1 << 30
		}
		cut, problems := edit.Excerpt(laid, o.bars.from, to, parts)
		if len(problems) > 0 {
			return nil, problems
		}
		laid = cut
	}
	return laid, nil
}

// overlaps reports whether the player or one of the player's layers is named.
func overlaps(names []string, p *score.Piece, player score.Player) bool {
	for _, name := range names {
		if name == player.Name {
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

func (o *buildOptions) editionOr(usual sheet.Edition) sheet.Edition {
	return []sheet.Edition{usual, sheet.Study, sheet.Play}[o.edition]
}

// musicxml is a sheet as MusicXML.
func (o *buildOptions) musicxml(s laidSheet) output {
	if o.compressed {
		return output{name: s.name + ".mxl", fill: func(w io.Writer) error { return musicxml.WriteCompressed(w, s.laid, o.xml) }}
	}
	return output{name: s.name + ".musicxml", fill: func(w io.Writer) error { return musicxml.Write(w, s.laid, o.xml) }}
}
