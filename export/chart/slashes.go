package chart

import (
	"slices"

	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// slash stands for a beat of a layer that is written so.
const slash = "/"

// slashed reports whether a layer that sounds in a bar is written in slashes there.
func (s *setter) slashed(b *rows.Bar, row *rows.Row) bool {
	return s.asSlashes(row, b.Start) &&
		slices.ContainsFunc(row.Cells, func(c rows.Cell) bool { return c.Sign != rows.Silent })
}

// asSlashes reports whether a layer is written in slashes at a moment.
func (s *setter) asSlashes(row *rows.Row, t beat.Time) bool {
	section := s.chart.Section
	return s.slashing && section.WrittenAt(section.Layers[row.Layer], t) == score.AsSlashes
}

// slashes are the beats of a bar.
func (s *setter) slashes(b *rows.Bar) (cells []token) {
	at := -b.Skipped
	for _, span := range b.Signature.Beats() {
		if at >= 0 && at < b.Length {
			cells = append(cells, token{s.scale.col(at), slash})
		}
		at += s.chart.Section.Grid.Must(span)
	}
	return cells
}

// everSlashed reports whether a layer of the chart is ever written in slashes.
func everSlashed(ch *rows.Chart) bool {
	return slices.ContainsFunc(ch.Layers, func(i int) bool {
		return slices.ContainsFunc(ch.Section.WrittenAs(ch.Section.Layers[i]), func(w score.WrittenFrom) bool { return w.Written == score.AsSlashes })
	})
}
