package engraving

import "tieover/export/engraving/pen"

// drawRepeat draws the sign of a bar that is equal to the one before: a slanted
// stroke between two dots.
func (l *line) drawRepeat(i, b int) {
	st := &l.Staves[i]
	bar := &l.Rows[b].Bars[st.Part]
	if l.e.Sheet.Parts[st.Part].RepeatsIn(bar, st.Number) == 0 {
		return
	}
	x := l.Middle(b)
	p := &st.Fills
	p.At('M', x-110, 100)
	p.At('L', x+60, -100)
	p.At('L', x+110, -100)
	p.At('L', x-60, 100)
	*p = append(*p, 'z')
	p.Sign(pen.AugmentationDot, x-110, -50, pen.FullSize)
	p.Sign(pen.AugmentationDot, x+70, 50, pen.FullSize)
	l.Watched("repeat", i, x-110, -100, x+110, 100)
}
