package layout

import (
	"fmt"
	"iter"

	"tieover/layout/cyclebars"
	"tieover/score"
	"tieover/score/source"
)

// barsOf returns the bars of a part where they are not the section's own; nil
// where they are.
func barsOf(p *score.Piece, o *Options, player score.Player, problems *source.Problems) func(section int) iter.Seq[score.Bar] {
	if o.Barring.View == Common {
		return nil
	}
	leaders := make([]int, len(p.Sections)) // the layer whose cycles are bars; -1: the meter's own bars
	found := false
	for i, s := range p.Sections {
		leaders[i] = -1
		for j, l := range s.Layers {
			if o.Barring.View == ByLayer && l.Name == o.Barring.Layer {
				leaders[i] = j
			}
		}
		for _, j := range player.Layers[i] {
			if o.Barring.View == Own && leaders[i] < 0 && s.Layers[j].Line == nil {
				leaders[i] = j // a free line has no cycles: it keeps the meter's bars
			}
		}
		if j := leaders[i]; j >= 0 {
			found = true
			cyclebars.Check(s, j, o.Barring.Split, problems)
		}
	}
	if !found && o.Barring.View == ByLayer {
		problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q whose cycles could be the bars", o.Barring.Layer),
			"name one of the layers")
	}
	return func(section int) iter.Seq[score.Bar] {
		s := p.Sections[section]
		if leaders[section] < 0 {
			return s.Bars()
		}
		return cyclebars.Of(s, leaders[section], o.Barring.Split)
	}
}
